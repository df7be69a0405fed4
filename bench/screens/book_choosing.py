"""Which entries of the book are shown: chosen by section, by day, or by words that stand in them."""

from __future__ import annotations

from collections import Counter
from typing import Any

from bench.job.words import book_lines
from bench.screens.book_pages import BookPages
from bench.screens.parts.listing import Offer
from bench.screens.parts.words_pad import WordsPad
from bench.speech import day_of_month, say, say_n, weekday_and_date


class BookChoosing(BookPages):
    """Base of the Book screen: what asks which entries are to be shown."""

    _parts: dict[str, Any]

    def put(self, part: Any) -> None:
        """Show a part that has all the room."""

    def ask_which(self) -> None:
        """Offer all, one section, and the days on which something was written, the newest first.

        Section and day go together: where one is chosen, the other is offered within it.
        """
        number = int(self.section) or None
        days = Counter(line.day for line in book_lines(self.job, section=number))
        by_number = say("By its number")
        if self._day is not None:
            by_number = say("By its number, of {day}", day=day_of_month(self._day))
        offers = [
            Offer(say("All entries"), say("Every entry again"), "all_days", lambda: self._of_day(None)),
            Offer(say("One section"), by_number, "one_section", self.ask_section),
        ]
        for day, count in days.items():
            told = say_n("{count} entry", "{count} entries", count)
            if number is not None:
                told = say_n(
                    "{count} entry of section {section}",
                    "{count} entries of section {section}",
                    count,
                    section=number,
                )
            use = lambda day=day: self._of_day(day)  # noqa: E731
            offers.append(Offer(weekday_and_date(day), told, f"day_{day.isoformat()}", use))
        self._parts["listed"].offer(offers)
        self.put(self._parts["listed"])

    def ask_section(self) -> None:
        most = max(self.job.state.used_numbers, default=1)
        self._parts["ask"].ask(say("Which section?"), self._only, most=most, use_text=say("Show it"))
        self.put(self._parts["ask"])

    def ask_words(self) -> None:
        """Ask for words, those looked for before to begin with."""
        if "words" not in self._parts:
            pad = self._parts["words"] = WordsPad()
            pad.bind(on_use=lambda _pad, text: self._find(text))
            pad.bind(on_left=lambda _pad: self.back())
        self._parts["words"].begin(say("Which words?"), self._wanted)
        self.put(self._parts["words"])

    def _find(self, text: str) -> None:
        """Show the entries that hold these words, among those that are shown."""
        self.back()
        self.soon(say("Reading the book …"), lambda: self._holding(text))

    def _holding(self, text: str) -> None:
        self._wanted, self.page, self._sought = " ".join(text.split()), 0, 0
        self.refresh()

    def _all_told(self) -> str:
        """Say what leads back to all entries."""
        if self._panel_id:
            return say("This panel")
        if self._wanted or (self.section and self._day):
            return say("All entries")
        return say("All days") if self._day else say("All sections")

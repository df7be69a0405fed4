"""Book: what happened, in plain words, newest first; by pages, since a flung list is lost in gloves.

A tap on an entry shows its section alone, or the whole of a long note. The one screen with a keyboard: for
the maker's own words.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from bench.job.acts import glueup, record, weigh_cup
from bench.job.words import Line, book_lines, words
from bench.screens.parts.choice import short
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.press import Pressable
from bench.screens.screen import Screen
from bench.screens.theme import theme
from bench.screens.weighed_cup import CupPart
from bench.screens.widgets import Rows

MOST_SHOWN = 220  # characters of an entry on the page; the whole of it is a tap away
MOST_HOURS = 48


class BookRow(Pressable, BoxLayout):
    """One entry: when and where, and what happened."""

    when = StringProperty("")
    text = StringProperty("")


class NotePart(Rows):
    """A sheet for the maker's own words. Made when it is first wanted: it brings in what a keyboard needs."""

    __events__ = ("on_keep", "on_left")

    def begin(self) -> None:
        self.ids.field.text = ""
        self.ids.field.focus = True

    def on_keep(self, text: str) -> None:
        """Bound by the screen."""

    def on_left(self) -> None:
        """Bound by the screen."""


class BookScreen(Screen):
    """Read the book, take back the newest act, and add what only the maker knows."""

    section = NumericProperty(0)  # 0: all of them
    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")
    undo_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._lines: list[Line] = []
        self._pages: list[range] = [range(0)]
        super().__init__(**kwargs)
        self._listing = self.ids.listing.__self__
        self._parts = self.hold(
            "ask", "reading", "cup_went", "weigh_cup", "one_section", "all_sections", "write_note", "undo"
        )
        self._cup = CupPart(screen=self)
        self.ids.rows.bind(size=lambda *_: self._lay())

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self.page = self.section = 0
        self.back()

    def refresh(self) -> None:
        self.title = f"Book, section {self.section:.0f}" if self.section else "Book"
        self._lines = book_lines(self.job, section=int(self.section) or None)
        newest = record.newest_act(self.job)
        self.undo_text = short(words(newest.event)) if newest else ""
        self._offer()
        self._lay()

    def _offer(self) -> None:
        """Have the acts that can be done now."""
        wanted = [self._parts["all_sections" if self.section else "one_section"], self._parts["write_note"]]
        if self._newest_mix() is not None:
            wanted.append(self._parts["cup_went"])
        if weigh_cup.cup_to_weigh(self.job) is not None and not self.job.state.running_mixes:
            wanted.append(self._parts["weigh_cup"])
        wanted.append(self._parts["undo"])
        acts = self.ids.acts
        if list(reversed(acts.children)) != wanted:
            acts.clear_widgets()
            for part in wanted:
                acts.add_widget(part)

    def _newest_mix(self) -> int | None:
        """Return the newest closed mix whose cup has not been told of, None where there is none."""
        closed = [m for m in self.job.state.mixes.values() if m.closed is not None]
        newest = max(closed, key=lambda m: m.number, default=None)
        return newest.number if newest is not None and newest.cup_went_s is None else None

    def _lay(self) -> None:
        """Lay out the page: as many entries as there is room for."""
        rows = self.ids.rows
        width_px = int(rows.width - 2 * theme.pad)
        heights = [max(theme.target, self._row_height_px(line, width_px)) for line in self._lines]
        self._pages = pages_of(heights, rows.height - theme.gap, theme.gap)
        self.last_page = len(self._pages) - 1
        self.page = min(self.page, self.last_page)
        self.page_text = f"{self.page + 1:.0f} of {len(self._pages)}"
        rows.clear_widgets()
        for k in self._pages[int(self.page)]:
            line = self._lines[k]
            row = BookRow(when=_when(line), text=_shown(line), height=heights[k])
            row.test_name = f"entry_{line.seq}"
            row.bind(on_act=lambda _row, line=line: self._open(line))
            rows.add_widget(row)
        rows.add_widget(Widget())  # the rest of the page

    def _row_height_px(self, line: Line, width_px: int) -> float:
        texts = text_height_px(_when(line), width_px, int(theme.small))
        return texts + text_height_px(_shown(line), width_px, int(theme.text)) + theme.gap * 1.5

    # -- pages and filters -------------------------------------------------------------------------------

    def newer(self) -> None:
        self.page = max(0, self.page - 1)
        self._lay()

    def older(self) -> None:
        self.page = min(self.page + 1, self.last_page)
        self._lay()

    def back(self) -> None:
        """Show the entries again."""
        self.put(self._listing)

    def ask_number(self, title: str, use: Callable[[float], object], **how: Any) -> None:
        """Ask for a number in place of the entries."""
        self._parts["ask"].ask(title, use, **how)
        self.put(self._parts["ask"])

    def put(self, part: Any) -> None:
        """Show the entries with the acts beside them, or another part that has all the room."""
        self.ids.split.alone = part is not self._listing
        self.ids.split.put_main(part)

    def _open(self, line: Line) -> None:
        if len(line.text) > MOST_SHOWN:
            reading = self._parts["reading"]
            reading.head, reading.lines, reading.page = _when(line), [line.text], 0
            self.put(reading)
        elif line.section is not None:
            self._only(line.section)

    def ask_section(self) -> None:
        most = max(self.job.state.used_numbers, default=1)
        self._parts["ask"].ask("Which section?", self._only, most=most, use_text="Show it")
        self.put(self._parts["ask"])

    def _only(self, section: float) -> None:
        self.section, self.page = int(section), 0
        self.refresh()

    def all_sections(self) -> None:
        self._only(0)

    # -- acts --------------------------------------------------------------------------------------------

    def undo(self) -> None:
        self.desk.attempt(record.undo)

    def ask_cup_went(self) -> None:
        """Ask how many minutes after first contact the left-over in the cup was found to have gone."""
        self._parts["ask"].ask(
            "Minutes from first contact until the cup had gone",
            self._cup_went,
            unit="min",
            most=MOST_HOURS * 60,
            use_text="It had gone by then",
        )
        self.put(self._parts["ask"])

    def _cup_went(self, minutes: float) -> None:
        mix = self._newest_mix()
        if mix is not None:
            self.desk.attempt(glueup.cup_went, mix, after_s=60.0 * minutes)

    def ask_cup(self) -> None:
        """Ask what the newest cup weighs with what stayed in it."""
        self._cup.begin()

    def write_note(self) -> None:
        if "note" not in self._parts:
            note = self._parts["note"] = NotePart()
            note.bind(on_keep=lambda _note, text: self._keep_note(text))
            note.bind(on_left=lambda _note: self._leave_note())
        self.put(self._parts["note"])
        self._parts["note"].begin()

    def _keep_note(self, text: str) -> None:
        done, _ = self.desk.attempt(record.note, text)
        if done:
            self._leave_note()

    def _leave_note(self) -> None:
        self._parts["note"].ids.field.focus = False
        self.back()


def _when(line: Line) -> str:
    """Say when in local time, and of which section."""
    at = line.at_utc.astimezone()
    where = f", section {line.section}" if line.section is not None else ""
    return f"{at:%A} {at.day} {at:%B}, {at:%H:%M}{where}"


def _shown(line: Line) -> str:
    return short(f"Taken back: {line.text}" if line.taken_back else line.text, MOST_SHOWN)

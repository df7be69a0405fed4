"""The entries of the book by pages: all, or those of a section, a day, another panel, with some words."""

from __future__ import annotations

from datetime import date
from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.job.finding import holding
from bench.job.words import Line, book_lines
from bench.screens.book_parts import BookRow, NothingFound
from bench.screens.book_words import noted, shown, when
from bench.screens.parts.choice import short
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.screen import Screen
from bench.screens.theme import theme
from bench.speech import day_of_month, say


class BookPages(Screen):
    """Base of the Book screen: which entries are shown, on which page, and which one is framed.

    The kv rule gives it `rows`, which have the height of a page.
    """

    section = NumericProperty(0)  # 0: all of them
    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._lines: list[Line] = []
        self._day: date | None = None
        self._panel_id: int | None = None  # another panel's entries are shown
        self._wanted = ""  # the words looked for
        self._sought = 0  # the entry that was asked for
        self._pages: list[range] = [range(0)]
        super().__init__(**kwargs)
        self.ids.rows.bind(size=self._laid_anew)
        theme.bind(text=self._laid_anew)

    def offer(self) -> None:
        """Have the acts that can be done now."""

    def open_entry(self, line: Line) -> None:
        """Show what an entry has beyond its row."""

    def back(self) -> None:
        """Show the entries again."""

    def read(self) -> None:
        """Read the entries that are to be shown."""
        self._lines = book_lines(
            self.job, section=int(self.section) or None, day=self._day, panel_id=self._panel_id
        )
        if self._wanted:
            self._lines = holding(self._lines, [self._wanted])

    # -- one page ----------------------------------------------------------------------------------------

    def _lay(self) -> None:
        """Lay out the page: as many entries as there is room for."""
        rows = self.ids.rows
        width_px = int(rows.width - 2 * theme.pad)
        heights = [max(theme.target, self._row_height_px(line, width_px)) for line in self._lines]
        self._pages = pages_of(heights, rows.height - theme.gap, theme.gap)
        self.last_page = len(self._pages) - 1
        sought = next((k for k, line in enumerate(self._lines) if line.seq == self._sought), None)
        if sought is not None:
            self.page = next(n for n, page in enumerate(self._pages) if sought in page)
        self.page = min(self.page, self.last_page)
        self.page_text = say("{page} of {pages}", page=int(self.page) + 1, pages=len(self._pages))
        rows.clear_widgets()
        for k in self._pages[int(self.page)]:
            line = self._lines[k]
            row = BookRow(
                when=when(line),
                text=shown(line, [self._wanted]),
                notes=noted(line, [self._wanted]),
                height=heights[k],
                marked=line.seq == self._sought,
            )
            row.test_name = f"entry_{line.seq}"
            row.bind(on_act=lambda _row, line=line: self.open_entry(line))
            rows.add_widget(row)
        if not self._lines:
            rows.add_widget(NothingFound(text=self._none_told()))
        rows.add_widget(Widget())  # the rest of the page

    def _laid_anew(self, *_: object) -> None:
        self._lay()

    def _row_height_px(self, line: Line, width_px: int) -> float:
        wanted = [self._wanted]
        texts = text_height_px(when(line), width_px, int(theme.small))
        if line.notes:
            texts += text_height_px(noted(line, wanted), width_px, int(theme.text)) + theme.gap * 0.5
        return texts + text_height_px(shown(line, wanted), width_px, int(theme.text)) + theme.gap * 1.5

    # -- pages and filters -------------------------------------------------------------------------------

    def newer(self) -> None:
        self._turn(max(0, self.page - 1))

    def older(self) -> None:
        self._turn(min(self.page + 1, self.last_page))

    def _turn(self, page: float) -> None:
        self._sought, self.page = 0, page
        self.offer()
        self._lay()

    def _seek(self, seq: int) -> None:
        """Frame an entry: a note or a photo goes on it."""
        self._sought = seq
        self.offer()
        self._lay()

    def _framed(self) -> Line | None:
        """Return the entry of this panel that is framed and takes a note, None where there is none."""
        if self._panel_id is not None:
            return None
        return next((x for x in self._lines if x.seq == self._sought and x.may_be_noted), None)

    def _for_photo(self) -> Line | None:
        """Return the entry of this panel that is framed and may have a photo, None where there is none."""
        if self._panel_id is not None:
            return None
        return next((x for x in self._lines if x.seq == self._sought and x.may_have_photo), None)

    # -- which entries -----------------------------------------------------------------------------------

    def _only(self, section: float) -> None:
        self.section, self.page, self._sought = int(section), 0, 0
        self.refresh()

    def _of_day(self, day: date | None) -> None:
        """Show a day's entries, of the section that was chosen; None: all there are."""
        if day is None:
            self._show_all()
        self._day, self.page, self._sought = day, 0, 0
        self.refresh()
        self.back()

    def _show_all(self) -> None:
        self.page = self.section = self._sought = 0
        self._day = self._panel_id = None
        self._wanted = ""

    def all_sections(self) -> None:
        self._show_all()
        self.refresh()

    def _filtered(self) -> bool:
        """Tell whether some entries are shown, and not all."""
        of_some = bool(self.section) or self._day is not None or self._panel_id is not None
        return of_some or bool(self._wanted)

    def _none_told(self) -> str:
        """Say that nothing was found, and what to do."""
        if not self._wanted:
            return say("There is no such entry. Choose others, or all of them.")
        if self._panel_id is None and (self.section or self._day is not None):
            return say(
                "No entry among these holds {words}. Find it among all, or with only part of a word.",
                words=self._wanted,
            )
        return say(
            "No entry holds {words}. Find it with fewer words, or with only part of one.", words=self._wanted
        )

    def _titled(self) -> str:
        """Say which entries are shown."""
        if not self._wanted:
            return self._of_which()
        return short(say("{entries}: {words}", entries=self._of_which(), words=self._wanted), 48)

    def _of_which(self) -> str:
        if self._panel_id is not None:
            names = {panel.panel_id: panel.name for panel in self.job.store.panels()}
            name = names.get(self._panel_id)
            return short(say("Book of {panel}", panel=name) if name else say("Book of another panel"), 40)
        if self._day is not None:
            day = day_of_month(self._day)
            if self.section:
                return say("Book, {day}, section {section:.0f}", day=day, section=self.section)
            return say("Book, {day}", day=day)
        return say("Book, section {section:.0f}", section=self.section) if self.section else say("Book")

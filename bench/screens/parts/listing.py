"""Rows to choose from, as many a page as there is room for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.screens.parts.choice import Choice
from bench.screens.parts.paged import Offer
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.plates import Rows
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say


class Listing(Rows):
    """Pages of offers; a tap on one does it. Where one page holds all, there are no keys that turn."""

    page = NumericProperty(0)
    last_page = NumericProperty(0)
    page_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._offers: Sequence[Offer] = ()
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self._parts = [self.ids[name].__self__ for name in ("rows", "foot")]  # ids alone let go of the foot
        self.bind(size=self._lay)
        theme.bind(text=self._lay)

    def offer(self, offers: Sequence[Offer]) -> None:
        """List these, from the first page on."""
        self._offers, self.page = offers, 0
        self._lay()

    def turn(self, by: int) -> None:
        """Turn pages, as far as there are any."""
        self.page = min(max(0, self.page + by), self.last_page)
        self._lay()

    def _lay(self, *_: object) -> None:
        """Lay out the page: as many rows as there is room for."""
        rows, foot = self._parts
        high = [_row_px()] * len(self._offers)
        pages = pages_of(high, self.height - theme.gap, theme.gap)
        if len(pages) > 1:
            pages = pages_of(high, self.height - theme.target - 2 * theme.gap, theme.gap)
        stack(self, [rows, foot] if len(pages) > 1 else [rows])
        self.last_page = len(pages) - 1
        self.page = min(self.page, self.last_page)
        self.page_text = say("{page} of {pages}", page=int(self.page) + 1, pages=len(pages))
        rows.clear_widgets()
        for k in pages[int(self.page)]:
            offer = self._offers[k]
            row = Choice(text=offer.text, icon=offer.icon, says=offer.says, test_name=offer.test_name)
            row.bind(on_act=lambda _row, act=offer.act: act())
            rows.add_widget(row)
        rows.add_widget(Widget())  # the rest of the page


def _row_px() -> float:
    """Return how high a row is: with large text its two lines need more than a target."""
    lines = [text_height_px("A", int(theme.target), int(size)) for size in (theme.text, theme.small)]
    return max(theme.target, sum(lines) + theme.gap)

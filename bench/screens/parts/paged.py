"""Rows to choose from, as many as a page holds, each as high as its words need; turned, never flung."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.widget import Widget

from bench.screens.parts.choice import Choice
from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.plates import Row, Rows
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say


@dataclass(frozen=True)
class Offer:
    """One row: what it is called, a line about it, its test_name, what a tap does, and its icon, if any."""

    text: str
    says: str
    test_name: str
    act: Callable[[], object]
    chosen: bool = False
    icon: str = ""


class Paged(Rows):
    """Show offers; `More` turns to the next page, after the last to the first.

    own_more: False where the key that turns stands elsewhere on the screen; `more_text` is what it says, ''
    where one page holds all. side_by_side: how many there are in a row.
    """

    page = NumericProperty(0)
    more_text = StringProperty("")
    own_more = BooleanProperty(True)
    side_by_side = NumericProperty(1)

    def __init__(self, **kwargs: Any) -> None:
        self._offers: tuple[Offer, ...] = ()
        self._again = Clock.create_trigger(self._lay)
        self._rest = Widget()  # of the page
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self._kept = [part.__self__ for part in self.ids.values()]  # ids alone let go what is off the screen
        self.bind(size=self._again, side_by_side=self._again)
        theme.bind(text=self._again)

    def offer(self, offers: Sequence[Offer], *, keep_page: bool = False) -> None:
        """Show these; `keep_page` stays on the page that is turned to."""
        self._offers = tuple(offers)
        if not keep_page:
            self.page = 0
        self._lay()

    def turn(self) -> None:
        """Turn to the next page."""
        self.page += 1
        self._lay()

    def _lay(self, *_: object) -> None:
        count = int(self.side_by_side)
        width_px = int((self.width - (count - 1) * theme.gap) / count - 2 * theme.pad)
        heights = [self._height_px(offer, width_px) for offer in self._offers]
        high = [max(heights[k : k + count]) for k in range(0, len(heights), count)]
        room_px = self.height - theme.gap
        pages = pages_of(high, room_px, theme.gap)
        if len(pages) > 1 and self.own_more:
            pages = pages_of(high, room_px - theme.target - theme.gap, theme.gap)
        self.page = int(self.page) % len(pages)
        page, several = int(self.page) + 1, len(pages) > 1
        self.more_text = say("More ({page} of {pages})", page=page, pages=len(pages)) if several else ""
        shown = pages[int(self.page)]
        rows = self.ids.rows
        rows.clear_widgets()
        rows.rows_minimum = dict(enumerate(high[shown.start : shown.stop]))  # all of a line equally high
        for offer in self._offers[shown.start * count : shown.stop * count]:
            rows.add_widget(self._row(offer))
        more = [self.ids.more.__self__] if self.more_text and self.own_more else []
        stack(self, [rows.__self__, self._rest, *more])

    @staticmethod
    def _height_px(offer: Offer, width_px: int) -> float:
        text_px = text_height_px(offer.text, width_px, int(theme.text), bold=True)
        return max(theme.target, text_px + text_height_px(offer.says, width_px, int(theme.text)) + theme.gap)

    @staticmethod
    def _row(offer: Offer) -> Choice:
        row = Choice(
            text=offer.text,
            icon=offer.icon,
            says=offer.says,
            chosen=offer.chosen,
            lines=2,
            large=True,
            size_hint_y=1,
            test_name=offer.test_name,
        )
        row.bind(on_act=lambda _row: offer.act())
        return row


class PagedEnds(Row):
    """Below choices by pages: the key that turns, where there is more than one page, and the way out.

    leave_name: what the way out is called in tests.
    """

    more_text = StringProperty("")
    leave_name = StringProperty("choices_leave")
    _more: Any = None  # known once the rule is read
    __events__ = ("on_more", "on_leave")

    def on_kv_post(self, _base: Any) -> None:
        self._more, self._leave = reversed(self.children)
        self.on_more_text()

    def on_more_text(self, *_: object) -> None:
        """Have as many keys as are of use."""
        if self._more is not None:
            stack(self, [*([self._more] if self.more_text else []), self._leave])

    def on_more(self) -> None:
        """Bound by the screen."""

    def on_leave(self) -> None:
        """Bound by the screen."""

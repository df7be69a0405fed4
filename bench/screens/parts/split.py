"""A large part and the acts beside it: under the working hand on a wide screen, below on a tall one."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.theme import theme

SIDE_IN_TEXTS = 10.6  # the side's width in heights of the reading text
MOST_SIDE = 0.46
LEAST_MAIN = 5  # targets side by side that the large part of a low screen holds
LEAST_ABOVE = 4  # targets one above the other that it holds above the side of a tall one
LOW_TARGETS = 6  # a height that holds five acts below one another


class Split(BoxLayout):
    """Lay out two children, the large one first, the side second, as the screen and the hand want it.

    Another part takes the place of either with `put_main` and `put_side`; `alone` hides the side. Where the
    large part has a `least_width`, the side leaves it that; a side with `side_in_texts` of its own takes
    that. low: it lies wide with little height; a side
    that does not hold its words there becomes wider, before type yields; least_main targets side by side are
    left to the large part.
    """

    lie = OptionProperty("wide", options=("wide", "tall"))
    side_in_texts = NumericProperty(SIDE_IN_TEXTS)
    low = BooleanProperty(False)
    least_main = NumericProperty(LEAST_MAIN)
    alone = BooleanProperty(False)

    def on_kv_post(self, _base: Any) -> None:
        self._side, self._main = self.children
        self._follow(self._side)
        self._wider = False
        self._hold = Clock.create_trigger(self._widen)
        self.bind(size=self._begin, side_in_texts=self._lay, alone=self._lay)
        theme.bind(left_handed=self._lay, text=self._lay, text_scale=self._begin)
        self._lay()

    def put_main(self, part: Any) -> None:
        """Show another large part."""
        self._main = part
        self._lay()

    def put_side(self, part: Any) -> None:
        """Show another side; it must know its `minimum_height`."""
        self._side.unbind(minimum_height=self._lay)
        if hasattr(self._side, "side_in_texts"):
            self._side.unbind(side_in_texts=self._lay)
        self._side = part
        self._follow(part)
        self._begin()

    def _follow(self, side: Any) -> None:
        side.bind(minimum_height=self._lay)
        if hasattr(side, "side_in_texts"):
            side.bind(side_in_texts=self._lay)

    def _begin(self, *_: object) -> None:
        self._wider = False
        self._lay()

    def _widen(self, _dt: float) -> None:
        """Give the side of a low screen more of the width, where what stands on it needs more height."""
        if self.low and not self._wider and self._side.minimum_height > self._side.height + 1:
            self._wider = True
            self._lay()

    def _lay(self, *_: object) -> None:
        self.lie = "wide" if self.width >= self.height else "tall"
        wide = self.lie == "wide"
        self.low = wide and self.height < LOW_TARGETS * theme.target
        self.orientation = "horizontal" if wide else "vertical"
        self._order(wide and theme.left_handed)
        self._main.size_hint = (1, 1)
        if wide:
            self._side.size_hint = (None, 1)
            self._side.width = self._side_px()
            self._hold()
        else:
            self._side.size_hint = (1, None)
            if hasattr(self._side, "most_px"):
                self._side.most_px = self.side_room_px
            self._side.height = self._side.minimum_height

    @property
    def side_room_px(self) -> float:
        """Return how high the side may be: a large part above it keeps LEAST_ABOVE targets."""
        least_px = LEAST_ABOVE * (theme.target + theme.gap) if self.lie == "tall" else 0.0
        return float(self.height - least_px)

    def _side_px(self) -> float:
        """Return how wide the side is beside the large part."""
        least_px = getattr(self._main, "least_width", 0)
        if self.low:
            least_px = max(least_px, self.least_main * (theme.target + theme.gap))
        most_px = min(MOST_SIDE * self.width, self.width - self.spacing - least_px)
        in_texts = getattr(self._side, "side_in_texts", self.side_in_texts)
        return most_px if self._wider else min(in_texts * theme.text, most_px)

    def _order(self, side_first: bool) -> None:
        wanted = [self._main, self._side] if side_first else [self._side, self._main]  # children: last first
        if self.alone:
            wanted = [self._main]
        if self.children != wanted:
            self.clear_widgets()
            for part in reversed(wanted):
                self.add_widget(part)

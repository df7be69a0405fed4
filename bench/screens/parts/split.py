"""A large part and the acts beside it: under the working hand on a wide screen, below on a tall one."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.theme import theme

SIDE_IN_TEXTS = 10.6  # the side's width in heights of the reading text
MOST_SIDE = 0.46
LOW_TARGETS = 6  # a height that holds five acts below one another


class Split(BoxLayout):
    """Lay out two children, the large one first, the side second, as the screen and the hand want it.

    Another part takes the place of either with `put_main` and `put_side`; `alone` hides the side. Where the
    large part has a `least_width`, the side leaves it that. low: it lies wide with little height.
    """

    lie = OptionProperty("wide", options=("wide", "tall"))
    side_in_texts = NumericProperty(SIDE_IN_TEXTS)
    low = BooleanProperty(False)
    alone = BooleanProperty(False)

    def on_kv_post(self, _base: Any) -> None:
        self._side, self._main = self.children
        self._side.bind(minimum_height=self._lay)
        self.bind(size=self._lay, side_in_texts=self._lay, alone=self._lay)
        theme.bind(left_handed=self._lay, text=self._lay)
        self._lay()

    def put_main(self, part: Any) -> None:
        """Show another large part."""
        self._main = part
        self._lay()

    def put_side(self, part: Any) -> None:
        """Show another side; it must know its `minimum_height`."""
        self._side.unbind(minimum_height=self._lay)
        self._side = part
        part.bind(minimum_height=self._lay)
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
            left_px = self.width - self.spacing - getattr(self._main, "least_width", 0)
            self._side.width = min(self.side_in_texts * theme.text, MOST_SIDE * self.width, left_px)
        else:
            self._side.size_hint = (1, None)
            self._side.height = self._side.minimum_height

    def _order(self, side_first: bool) -> None:
        wanted = [self._main, self._side] if side_first else [self._side, self._main]  # children: last first
        if self.alone:
            wanted = [self._main]
        if self.children != wanted:
            self.clear_widgets()
            for part in reversed(wanted):
                self.add_widget(part)

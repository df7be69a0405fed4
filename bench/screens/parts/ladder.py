"""The ladder: resin on one side, the hardener that belongs to it on the other, a rung for each weighing."""

from __future__ import annotations

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.press import Pressable
from bench.screens.theme import theme

NARROWEST_RUNG_DP = 128
LOW_TARGETS = 1.3


class Rung(Pressable, BoxLayout):
    """One weighing: so much resin asks for so much hardener."""

    resin = StringProperty("")
    hardener = StringProperty("")
    prescribed = BooleanProperty(False)
    chosen = BooleanProperty(False)


class Ladder(BoxLayout):
    """Rungs of (resin, hardener), written as they shall be read; a tap on what was weighed chooses it.

    The prescribed rung stands out by its frame and weight, the chosen one is filled. Where there is width
    the rungs stand side by side, otherwise one below the other; it is never scrolled.
    """

    test_name = StringProperty("")
    rungs = ListProperty()
    prescribed = NumericProperty(-1)
    chosen = NumericProperty(-1)
    low = BooleanProperty(False)  # there is little height for rungs that stand side by side

    __events__ = ("on_rung",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.on_rungs()

    def on_rungs(self, *_: object) -> None:
        if self.canvas is None:  # given as an argument: not yet a widget
            return
        self.clear_widgets()
        for k, (resin, hardener) in enumerate(self.rungs):
            rung = Rung(resin=resin, hardener=hardener, test_name=f"rung_{k}")
            rung.bind(on_act=lambda _rung, k=k: self._choose(k))
            self.add_widget(rung)
        self._mark()
        self._lie()

    def on_prescribed(self, *_: object) -> None:
        self._mark()

    def on_chosen(self, *_: object) -> None:
        self._mark()

    def on_low(self, *_: object) -> None:
        self._lie()

    def on_width(self, *_: object) -> None:
        self._lie()

    def on_rung(self, number: int) -> None:
        """Tell which rung was tapped: bound by the screen."""

    def _choose(self, k: int) -> None:
        self.chosen = k
        self.dispatch("on_rung", k)

    def _mark(self) -> None:
        for k, rung in enumerate(reversed(self.children)):
            rung.prescribed = k == self.prescribed
            rung.chosen = k == self.chosen

    def _lie(self) -> None:
        count = max(1, len(self.rungs))
        side_by_side = self.width >= count * dp(NARROWEST_RUNG_DP) + (count - 1) * theme.gap
        self.orientation = "horizontal" if side_by_side else "vertical"
        for rung in self.children:
            rung.orientation = "vertical" if side_by_side else "horizontal"
        self.height = self._height_px(count, side_by_side)

    def _height_px(self, count: int, side_by_side: bool) -> float:
        if side_by_side and self.low:
            return LOW_TARGETS * theme.target
        if side_by_side:
            return max(2 * theme.target, 3.6 * theme.head / max(1.0, theme.text_scale))
        return count * theme.target + (count - 1) * theme.gap

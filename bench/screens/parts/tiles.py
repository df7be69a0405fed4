"""Targets in a grid that fills its place, as many beside one another as a glove allows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, ColorProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout

from bench.screens.contrast import contrast
from bench.screens.parts.press import Pressable
from bench.screens.theme import TARGET_DP, theme

_BLACK, _WHITE = (0.05, 0.05, 0.05, 1.0), (0.98, 0.98, 0.97, 1.0)


class TileGrid(GridLayout):
    """Share its place among its children; none is narrower than `least_dp`."""

    least_dp = NumericProperty(TARGET_DP)

    def put(self, tiles: Sequence[Any]) -> None:
        """Have these children, in reading order."""
        self.clear_widgets()
        for tile in tiles:
            tile.size_hint = (1, 1)
            self.add_widget(tile)
        self._lay()

    @property
    def room(self) -> int:
        """How many targets have room."""
        rows = (self.height + theme.gap) / (theme.target + theme.gap)
        return self._beside * max(1, int(rows))

    @property
    def _beside(self) -> int:
        return max(1, int((self.width + theme.gap) / (dp(self.least_dp) + theme.gap)))

    def on_width(self, *_: object) -> None:
        self._lay()

    def _lay(self) -> None:
        count = max(1, len(self.children))
        most = min(count, self._beside)
        rows = -(-count // most)
        self.cols = -(-count // rows)  # the last row as full as the others


class GlassTile(Pressable, BoxLayout):
    """A piece of glass to be chosen, its name on it where there is room."""

    text = StringProperty("")
    colour = ColorProperty((1, 1, 1, 1))
    chosen = BooleanProperty(False)
    ink = ColorProperty(_BLACK)

    def on_colour(self, _tile: object, colour: Sequence[float]) -> None:
        self.ink = max((_BLACK, _WHITE), key=lambda ink: contrast(ink, colour))

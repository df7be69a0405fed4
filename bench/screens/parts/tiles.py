"""Targets in a grid that fills its place, as many beside one another as a glove allows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, ColorProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout

from bench.screens.parts.press import Pressable
from bench.screens.theme import TARGET_DP, theme


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
    """A piece of glass to be chosen, grey round it; its name stands on the plate below, or beside it.

    Never on the glass itself: no ink can be read on every colour.
    """

    text = StringProperty("")
    colour = ColorProperty((1, 1, 1, 1))
    chosen = BooleanProperty(False)
    name_share = NumericProperty(1)  # of the height, the frame included, at most

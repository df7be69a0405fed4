"""A picture with its keys, wherever they have room for a glove."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock

from bench.screens.parts.fitting import word_px
from bench.screens.parts.plates import Row, Rows
from bench.screens.parts.zoom import ZoomKeys  # noqa: F401 - named by the kv files
from bench.screens.stack import stack
from bench.screens.theme import theme


class Easel(Rows):
    """Lay out three children: a picture, its zoom keys, and a row of its other keys.

    All keys stand below it in one row; where that is too narrow for them, the zoom keys stand beside the
    picture, on the side of the hand, or where the screen is tall in a row above the others.
    """

    def on_kv_post(self, _base: Any) -> None:
        self._picture, self._zoom, self._own = reversed(self.children)
        self._beside = Rows(orientation="horizontal")
        self._under = Row()
        self._later = Clock.create_trigger(self._lay, -1)
        self.bind(size=self._turned)
        theme.bind(text=self._turned, left_handed=self._turned)
        for key in self._own.children:
            key.bind(text=self._turned)
        self._lay()

    def _turned(self, *_: object) -> None:
        self._later()

    def _lay(self, *_: object) -> None:
        zoom, own = self._zoom, self._own
        fit_px = max(theme.target, theme.text * 3)  # as `ZoomKeys` has it
        wide_px = 2 * (theme.target + theme.gap) + fit_px
        in_one = wide_px + theme.gap + self._own_px() <= self.width
        column = not in_one and self.width > self.height
        zoom.orientation = "vertical" if column else "horizontal"
        zoom.size_hint_x = None
        for key, width_px in zip(zoom.children, (fit_px, theme.target, theme.target), strict=True):
            key.size_hint_x, key.width = (1 if column else None), width_px
        zoom.width = fit_px if column else wide_px
        picture = [self._picture, zoom] if column else [self._picture]
        stack(self._beside, picture[::-1] if theme.left_handed else picture)
        stack(self._under, [zoom, own] if in_one else [own])
        rows = [zoom, self._under] if not (in_one or column) else [self._under]
        stack(self, [self._beside, *rows])

    def _own_px(self) -> float:
        """Return how wide the keys of its own must be together, all alike and no word broken."""
        words = [word for key in self._own.children for word in key.text.split()]
        longest_px = max((word_px(word, True) * theme.text for word in words), default=0.0)
        each_px = max(theme.target, longest_px + theme.gap + 2)
        return len(self._own.children) * (each_px + theme.gap) - theme.gap

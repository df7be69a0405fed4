"""The shades of some pieces of glass, side by side from dark to light."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.properties import ListProperty
from kivy.uix.widget import Widget
from numpy.typing import NDArray

from bench.screens.contrast import luminance
from bench.screens.theme import theme

MOST_BANDS = 40


def bands(colours: NDArray[np.uint8]) -> list[tuple[float, float, float]]:
    """Return the colours (n, 3) as bands from dark to light, one a piece, thinned out beyond 40."""
    rgb = sorted((tuple(c) for c in (np.asarray(colours) / 255.0).tolist()), key=luminance)
    if len(rgb) > MOST_BANDS:
        rgb = [rgb[k] for k in np.linspace(0, len(rgb) - 1, MOST_BANDS).round().astype(int)]
    return rgb


class Shades(Widget):
    """Draw bands of glass colours, framed in ink."""

    colours = ListProperty()

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        self.bind(pos=self._draw, size=self._draw, colours=self._draw)
        self._draw()

    def _draw(self, *_: object) -> None:
        self._group.clear()
        if not self.colours:
            return
        width = self.width / len(self.colours)
        for k, colour in enumerate(self.colours):
            self._group.add(Color(*colour))
            left, right = round(self.x + k * width), round(self.x + (k + 1) * width)
            self._group.add(Rectangle(pos=(left, self.y), size=(right - left, self.height)))
        self._group.add(Color(*theme.ink))
        self._group.add(Line(rectangle=(*self.pos, *self.size), width=theme.line / 2))

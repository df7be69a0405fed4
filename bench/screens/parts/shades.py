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
GREY_LINES = 2.5  # how wide the grey is, in lines of the house


def bands(colours: NDArray[np.uint8]) -> list[tuple[float, float, float]]:
    """Return the colours (n, 3) as bands from dark to light, one a piece, thinned out beyond 40."""
    rgb = sorted((tuple(c) for c in (np.asarray(colours) / 255.0).tolist()), key=luminance)
    if len(rgb) > MOST_BANDS:
        rgb = [rgb[k] for k in np.linspace(0, len(rgb) - 1, MOST_BANDS).round().astype(int)]
    return rgb


class Shades(Widget):
    """Draw bands of glass colours, with the neutral grey round them, framed in ink."""

    colours = ListProperty()

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        self.bind(pos=self._draw, size=self._draw, colours=self._draw)
        theme.bind(ink=self._draw)
        self._draw()

    def _draw(self, *_: object) -> None:
        self._group.clear()
        if not self.colours:
            return
        self._group.add(Color(*theme.surround))
        self._group.add(Rectangle(pos=self.pos, size=self.size))
        grey_px = round(min(GREY_LINES * theme.line, self.height / 6))
        width = (self.width - 2 * grey_px) / len(self.colours)
        for k, colour in enumerate(self.colours):
            self._group.add(Color(*colour))
            left, right = (round(self.x + grey_px + n * width) for n in (k, k + 1))
            box = {"pos": (left, self.y + grey_px), "size": (right - left, self.height - 2 * grey_px)}
            self._group.add(Rectangle(**box))
        self._group.add(Color(*theme.ink))
        self._group.add(Line(rectangle=(*self.pos, *self.size), width=theme.line / 2))

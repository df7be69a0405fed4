"""The pieces that were found, as outlines over the picture that they were found in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Line, Rectangle, RoundedRectangle
from kivy.metrics import dp
from kivy.properties import BooleanProperty

from bench.drawing.panel import FloatArray, Panel
from bench.drawing.photo import shrunk
from bench.screens.contrast import rgb
from bench.screens.panel_picture import PanelPicture
from bench.screens.parts.photo import MOST_TEXTURE_PX, Pixels, texture_of
from bench.screens.picture import program
from bench.screens.picture.looks import Side
from bench.screens.picture.strokes import merged, segments
from bench.screens.picture.view import View
from bench.screens.theme import FONT, OKABE_ITO, theme

EDGE = Side(core_dp=0.0, band_dp=0.8, edge_dp=0.8, colour=rgb(OKABE_ITO[0]))
RING_DP = 20
MOST_RINGS = 24  # more could not be told apart
_BATCH = 5000

Point = tuple[float, float]


class FoundPicture(PanelPicture):
    """A picture in mm, the outlines of what was found in it, rings round places, and lines drawn by hand.

    in_glass: show the pieces in their colours instead of the picture. A stroke by finger is told as by the
    panel's picture.
    """

    in_glass = BooleanProperty(False)
    edge = EDGE

    def __init__(self, **kwargs: Any) -> None:
        self._under, self._over = InstructionGroup(), InstructionGroup()
        self._texture: Any = None
        self._of: Pixels | None = None
        self._size_mm = (0.0, 0.0)
        self._rings: list[Point] = []
        self._drawn: list[Sequence[Point]] = []
        self._all_glass: list[Any] = []
        super().__init__(**kwargs)
        for name in ("act", "act_ink", "small"):
            theme.bind(**{name: self._place})

    def _build(self) -> None:
        super()._build()
        self.canvas.insert(self.canvas.indexof(self._board), self._under)
        self.canvas.insert(self.canvas.indexof(self._labels.group), self._over)

    # -- what is shown -----------------------------------------------------------------------------------

    def lay_under(self, pixels: Pixels, size_mm: Point) -> None:
        """Show a picture of so many mm, nothing found in it yet."""
        if pixels is not self._of:
            self._of = pixels
            self._texture = texture_of(shrunk(pixels, MOST_TEXTURE_PX), upright=False)
        self._size_mm = size_mm
        self._show_under()
        self.fit()

    def show_found(self, panel: Panel | None) -> None:
        """Lay outlines over the picture, in place of those before; the view stays. None: take them off."""
        view, fitted = self.view, self.fitted
        self._lines.clear()
        self._all_glass = []
        if panel is None:
            self._glass.clear()
            self.panel = self._picker = None
        else:
            self.show(panel)
            self._all_glass = list(self._glass.children)
            ends = _edges(panel)
            some = (segments(ends[k : k + _BATCH], self.edge) for k in range(0, len(ends), _BATCH))
            program.fill(self._lines, merged(some), program.LINE_FORMAT)
        if view is not None:
            self.fitted, self.view = fitted, view
        self.on_in_glass()

    def on_in_glass(self, *_: object) -> None:
        self._glass.clear()
        for mesh in self._all_glass if self.in_glass else ():
            self._glass.add(mesh)
        self._show_under()
        self._place()

    def ring(self, places_mm: Sequence[Point]) -> None:
        """Put a numbered ring round each place, the first is 1."""
        self._rings = list(places_mm[:MOST_RINGS])
        self._place()

    def draw(self, lines_mm: Sequence[Sequence[Point]]) -> None:
        """Show lines drawn by hand before."""
        self._drawn = [line for line in lines_mm if line]
        self._place()

    def fit(self) -> None:
        self.fitted = True
        if self._size_mm[0] > 0 and min(self.size) > 0:
            self.view = View(*self.size, *self._size_mm).fitted()

    def _show_under(self) -> None:
        self._under.clear()
        if self._texture is not None and not (self.in_glass and self._all_glass):
            self._under.add(Color(1, 1, 1))
            self._under.add(Rectangle(texture=self._texture, pos=(0, 0), size=self._size_mm))

    def _place(self, *_: object) -> None:
        super()._place()
        self._over.clear()
        if self.view is None:
            return
        for line in self._drawn:
            flat = [value for point in line for value in self._window_px(point)]
            self._two_tone(lambda wide, flat=flat: Line(points=flat, width=wide, cap="round", joint="round"))
        for k, place in enumerate(self._rings):
            (x, y), radius = self._window_px(place), dp(RING_DP)
            self._two_tone(lambda wide, c=(x, y, radius): Line(circle=c, width=wide))
            if self.collide_point(x, y):
                self._plate(k + 1, x + radius, y + radius)

    def _window_px(self, at_mm: Point) -> Point:
        x, y = self.view.to_px(*at_mm)
        return round(self.x + x), round(self.y + y)

    def _two_tone(self, line: Any) -> None:
        for colour, wide_dp in ((theme.act, 3.0), (theme.act_ink, 1.4)):
            self._over.add(Color(*colour))
            self._over.add(line(dp(wide_dp)))

    def _plate(self, number: int, x: float, y: float) -> None:
        """Put a number on a plate, its lower left corner here but never off the widget."""
        label = CoreLabel(text=str(number), font_name=FONT, font_size=theme.small, bold=True)
        label.refresh()
        width, height = label.texture.size
        x = round(min(x, self.right - width - dp(10)))
        y = round(min(y, self.top - height))
        self._over.add(Color(*theme.act))
        plate = {"pos": (x - dp(6), y), "size": (width + dp(12), height)}
        self._over.add(RoundedRectangle(radius=[dp(6)], **plate))
        self._over.add(Color(*theme.act_ink))
        self._over.add(Rectangle(texture=label.texture, pos=(x, y), size=(width, height)))


def _edges(panel: Panel) -> FloatArray:
    """Return the edges of all outlines, (n, 4) of x1, y1, x2, y2. [mm]"""
    points = panel.points_mm
    after = np.arange(1, len(points) + 1)
    after[panel.ring_start[1:] - 1] = panel.ring_start[:-1]
    return np.hstack([points, points[after]])

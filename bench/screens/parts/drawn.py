"""What every drawing of our own has: lines and words in ink on a plate, drawn anew when they change."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from bench.screens.parts.glyphs import drawable
from bench.screens.theme import FONT, theme

_MOST_TEXTURES = 40
LEAST_DP = 80  # smaller than this nothing is drawn

Point = tuple[float, float]


class Drawn(Widget):
    """Draw `draw()` whenever a property named in WATCHED, the place, or the theme changes.

    `state()` is what the drawing depends on: while it is the same, nothing is drawn again.
    """

    WATCHED: tuple[str, ...] = ()
    test_name = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._group = InstructionGroup()
        self._textures: dict[tuple[Any, ...], Any] = {}
        self._drawn: tuple[Any, ...] = ()
        super().__init__(**kwargs)
        self.canvas.add(self._group)
        for name in ("pos", "size", *self.WATCHED):
            self.fbind(name, self._redraw)
        theme.bind(ink=self._redraw, text=self._redraw)

    def state(self) -> tuple[Any, ...]:
        """Return what the drawing depends on beside its place and the theme."""
        return tuple(str(getattr(self, name)) for name in self.WATCHED)

    def draw(self) -> None:
        """Add the lines and words; the group is empty and the colour is ink."""
        raise NotImplementedError

    def _redraw(self, *_: object) -> None:
        if min(self.size) < dp(LEAST_DP):
            self._group.clear()
            self._drawn = ()
            return
        state = (*self.pos, *self.size, *self.state(), tuple(theme.ink), theme.text)
        if state == self._drawn:
            return
        self._drawn = state
        self._group.clear()
        self.colour(theme.ink)
        self.draw()

    def colour(self, rgba: Sequence[float]) -> None:
        """Draw in this colour from now on."""
        self._group.add(Color(*rgba))

    def line(self, points: Sequence[float], width_dp: float) -> None:
        """Draw a line through x1, y1, x2, y2 … in pixels."""
        self._group.add(Line(points=list(points), width=dp(width_dp)))

    def box(self, x: float, y: float, width: float, height: float) -> None:
        """Fill a box, in pixels."""
        self._group.add(Rectangle(pos=(round(x), round(y)), size=(round(width), round(height))))

    def dashes(self, start: Point, end: Point, width_dp: float = 2.0) -> None:
        """Draw a dashed line between two places, in pixels."""
        (x1, y1), (x2, y2) = start, end
        length = max(1.0, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
        step, at = dp(22), 0.0
        while at < length:
            a, b = at / length, min(1.0, (at + 0.6 * step) / length)
            ends = [x1 + a * (x2 - x1), y1 + a * (y2 - y1), x1 + b * (x2 - x1), y1 + b * (y2 - y1)]
            self.line(ends, width_dp)
            at += step

    def type_px(self) -> float:
        """Return the size of the words: as they are read, unless the drawing has no room for it."""
        return theme.text

    def texture(self, text: str) -> Any:
        """Return words at their size, to be measured and written."""
        key = (text, self.type_px())
        if key not in self._textures:
            if len(self._textures) > _MOST_TEXTURES:
                self._textures.clear()
            label = CoreLabel(text=drawable(text) or " ", font_name=FONT, font_size=key[1], bold=True)
            label.refresh()
            self._textures[key] = label.texture
        return self._textures[key]

    def write(self, texture: Any, x: float, y: float) -> None:
        """Write words at a place, the lines beneath interrupted so that they stay clear."""
        size = texture.size
        self.colour(theme.plate)
        self.box(x, y, *size)
        self.colour(theme.ink)
        self._group.add(Rectangle(texture=texture, pos=(round(x), round(y)), size=size))

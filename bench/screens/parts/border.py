"""Time left, told by the rim of the whole screen, so that it is seen from the corner of an eye."""

from __future__ import annotations

from typing import Any

from kivy.graphics import Color, InstructionGroup, Line, Rectangle
from kivy.metrics import dp
from kivy.properties import BoundedNumericProperty, ListProperty, StringProperty
from kivy.uix.floatlayout import FloatLayout

from bench.screens.parts.band import hatch, rim_boxes
from bench.screens.theme import theme

_PITCH_DP = 14


class DrainingBorder(FloatLayout):
    """A rim round its children: full while all time is left, hatched where it has drained.

    left: what is left of the time, 1 to 0. It drains clockwise from the middle of the top; no colour tells
    anything. marks: values of `left` at which a notch stands, e.g. half and the last pieces.
    """

    test_name = StringProperty("")
    left = BoundedNumericProperty(1.0, min=0.0, max=1.0, errorhandler=lambda x: min(max(x, 0.0), 1.0))
    marks = ListProperty()

    def __init__(self, **kwargs: Any) -> None:
        self._drawn: tuple[object, ...] = ()
        self._group = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.after.add(self._group)
        watched = ("pos", "size", "left", "marks")
        self.bind(**dict.fromkeys(watched, self._draw))
        theme.bind(ink=self._draw, plate=self._draw, border=self._draw)
        self._draw()

    def _draw(self, *_: object) -> None:
        perimeter = max(1.0, 2 * (self.width + self.height))
        whole_px = round(self.left * perimeter)  # a move of less than a pixel is not worth a frame
        state = (*self.pos, *self.size, whole_px, tuple(self.marks), tuple(theme.ink), theme.border)
        if state == self._drawn:
            return
        self._drawn = state
        self._group.clear()
        spent = 1.0 - whole_px / perimeter
        self._group.add(Color(*theme.plate))
        self._fill(0.0, 1.0)
        self._group.add(Color(*theme.ink))
        self._fill(spent, 1.0)
        self._hatch(spent)
        self._notch()

    def _boxes(self, start: float, end: float) -> list[tuple[float, float, float, float]]:
        x, y = self.pos
        boxes = rim_boxes(*self.size, theme.border, start, end)
        return [(x + bx, y + by, w, h) for bx, by, w, h in boxes]

    def _fill(self, start: float, end: float) -> None:
        for x, y, width, height in self._boxes(start, end):
            self._group.add(Rectangle(pos=(x, y), size=(width, height)))

    def _hatch(self, spent: float) -> None:
        for box in self._boxes(0.0, spent):
            for ends in hatch(box, dp(_PITCH_DP)):
                self._group.add(Line(points=ends, width=dp(1.2)))

    def _notch(self) -> None:
        for mark in self.marks:
            place = 1.0 - mark
            width = dp(6) / max(1.0, 2 * (self.width + self.height))
            self._group.add(Color(*theme.plate))
            self._fill(place - 1.8 * width, place + 1.8 * width)
            self._group.add(Color(*theme.ink))
            self._fill(place - 0.6 * width, place + 0.6 * width)

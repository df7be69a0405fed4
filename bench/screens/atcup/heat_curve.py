"""How warm a mix gets in its cup, against minutes, and the same mix spread."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty

from bench.adhesive.heat import Exotherm
from bench.adhesive.heat_constants import HOT_C
from bench.screens.parts.drawn import Drawn, Point
from bench.speech import plain_temperature, say

TOP_C = 100.0  # above it the curve says no more than that the cup runs away
BEYOND = 1.25  # of the time to the peak
POINTS = 400
NAMED_AT = 0.72  # of its curve: where the cup's name stands above it


def curve_points(heat: Exotherm, until_s: float) -> list[Point]:
    """Return (time [s], temperature [°C]) at even times up to a moment, or until it is off the chart."""
    time_s = np.linspace(0.0, min(until_s, float(heat.time_s[-1])), POINTS)
    warm_C = np.interp(time_s, heat.time_s, heat.temperature_C)
    off = np.flatnonzero(warm_C > TOP_C)
    kept = POINTS if not off.size else int(off[0]) + 1
    return list(zip(time_s[:kept].tolist(), warm_C[:kept].tolist(), strict=True))


class HeatCurve(Drawn):
    """A chart without a frame: the cup thick, the spread bed dashed, 60 °C and the gel marked and named.

    cup, spread: (time [s], temperature [°C]). hot_s: when the cup passes 60 °C, below 0 for never.
    """

    WATCHED = ("cup", "spread", "hot_s", "gel_s", "room_C", "cup_text", "spread_text")
    test_name = StringProperty("heat_curve")
    cup = ListProperty()
    spread = ListProperty()
    hot_s = NumericProperty(-1.0)
    gel_s = NumericProperty(0.0)
    room_C = NumericProperty(20.0)
    until_s = NumericProperty(60.0)
    cup_text = StringProperty("")
    spread_text = StringProperty("")
    gel_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        names = {"cup_text": say("in the cup"), "spread_text": say("spread out"), "gel_text": say("gels")}
        super().__init__(**{**names, **kwargs})

    def show(self, in_cup: Exotherm, spread: Exotherm) -> None:
        """Show a mix; the time goes a quarter beyond the peak of its cup."""
        self.until_s = BEYOND * max(in_cup.peak_s, in_cup.gel_s)
        self.room_C, self.gel_s = in_cup.room_C, in_cup.gel_s
        self.hot_s = -1.0 if in_cup.to_hot_s is None else in_cup.to_hot_s
        self.spread = curve_points(spread, self.until_s)
        self.cup = curve_points(in_cup, self.until_s)

    def place(self, point: Point) -> Point:
        """Return where a moment and a temperature lie, in pixels; what is warmer than 100 °C at the top."""
        at_s, warm_C = point
        foot = self.texture("0").height + dp(6)
        left = self.texture(plain_temperature(HOT_C)).width + dp(10)
        low_C = self.room_C - 5
        share = (min(warm_C, TOP_C) - low_C) / (TOP_C - low_C)
        x = self.x + left + (self.width - left) * min(1.0, at_s / max(self.until_s, 1.0))
        return round(x), round(self.y + foot + (self.height - foot) * share)

    def draw(self) -> None:
        if not self.cup:
            return
        left, floor = self.place((0.0, self.room_C - 5))
        self.line([left, floor, self.right, floor], 1.5)
        self._hot(left)
        self._gel(floor)
        self._minutes(floor)
        for first in range(0, len(self.spread) - 8, 14):
            self.line([v for point in self.spread[first : first + 8] for v in self.place(point)], 2.5)
        self.line([v for point in self.cup for v in self.place(point)], 4)
        self._names()

    def _hot(self, left: float) -> None:
        _, y = self.place((0.0, HOT_C))
        self.dashes((left, y), (self.right, y), 1.5)
        mark = self.texture(plain_temperature(HOT_C))
        self.write(mark, self.x, y - mark.height / 2)
        if self.hot_s >= 0:
            x, _ = self.place((self.hot_s, HOT_C))
            self.box(x - dp(9), y - dp(9), dp(18), dp(18))

    def _gel(self, floor: float) -> None:
        x, _ = self.place((self.gel_s, 0.0))
        self.line([x, floor, x, self.top], 1.5)
        word = self.texture(self.gel_text)
        self.write(word, min(x + dp(8), self.right - word.width), self.top - word.height)

    def _minutes(self, floor: float) -> None:
        """Write the minutes at which it gels and passes 60 °C; where they are near, only the earlier."""
        taken = self.right + 1
        for at_s in sorted({self.gel_s, *([self.hot_s] if self.hot_s >= 0 else [])}, reverse=True):
            text = self.texture(say("{minutes} min", minutes=int(at_s / 60)))
            x = self.place((at_s, 0.0))[0] - text.width / 2
            if x + text.width < taken:
                self.write(text, max(self.x, min(x, self.right - text.width)), self.y)
                taken = x - dp(12)

    def _names(self) -> None:
        cup, spread = self.texture(self.cup_text), self.texture(self.spread_text)
        at = self.cup[int(NAMED_AT * len(self.cup))]
        x, cup_y = self.place(at)
        cup_x, cup_y = x - cup.width, cup_y + dp(12)
        _, y = self.place(self.spread[-1])
        low = y - spread.height - dp(8)
        left, floor = self.place((0.0, self.room_C - 5))
        spread_x, spread_y = self.right - spread.width, low if low > floor else y + dp(8)
        if abs(cup_y - spread_y) < cup.height:  # side by side, where the chart is low
            cup_x = min(cup_x, spread_x - dp(12) - cup.width)
        self.write(cup, max(left, cup_x), cup_y)
        self.write(spread, spread_x, spread_y)

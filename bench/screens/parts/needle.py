"""A needle within its tolerance band: too little hardener to the left, too much to the right."""

from __future__ import annotations

import math
from typing import Any

from kivy.graphics import Line, Triangle
from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.screens.parts.drawn import Drawn
from bench.screens.theme import theme
from bench.speech import say

SIDE_DEG = 64.0  # the dial, either way from upright
LEAST_HEIGHT_DP = 150
TOLERANCES = 3.0  # and how many tolerances that is


def needle_deg(error: float, tolerance: float) -> float:
    """Return the needle's angle from upright, clockwise for too much; beyond the dial it rests at its end."""
    if math.isnan(error):
        return 0.0
    share = error / (TOLERANCES * tolerance)
    return SIDE_DEG * min(1.0, max(-1.0, share))


class Needle(Drawn):
    """A dial to be read from a metre: a thick band where the ratio holds, the needle, and what may be hidden.

    error: signed, + too much hardener, a fraction of the ratio. worst: how far off it may be with what the
    scale cannot show, drawn as a bar across the needle. Nothing is drawn of what is not known, or where
    there is no room to read it.
    """

    WATCHED = ("error", "worst", "tolerance", "known", "less_text", "more_text")
    test_name = StringProperty("needle")
    error = NumericProperty(0.0)
    worst = NumericProperty(0.0)
    tolerance = NumericProperty(0.05)
    known = BooleanProperty(True)
    less_text = StringProperty("")
    more_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**{"less_text": say("too little"), "more_text": say("too much"), **kwargs})

    @property
    def angle_deg(self) -> float:
        """Where the needle stands."""
        return needle_deg(self.error, self.tolerance)

    def draw(self) -> None:
        if not self.known or self.height < dp(LEAST_HEIGHT_DP):
            return
        less, more = self.texture(self.less_text), self.texture(self.more_text)
        edge = self.texture(say("{percent:g} %", percent=100 * self.tolerance))
        foot, head = less.height, edge.height + dp(6)
        side = math.sin(math.radians(SIDE_DEG))
        radius = min((self.width / 2 - dp(12)) / side, self.height - foot - head - dp(10))
        x, y = self.center_x, self.y + foot + dp(10)
        self._dial(x, y, radius)
        self._hidden(x, y, radius)
        self._hand(x, y, radius)
        self._edges(x, y, radius, edge)
        apart = max(radius * side + dp(12), less.width + dp(24), more.width + dp(24))
        self.write(less, max(self.x, x - apart), self.y)
        self.write(more, min(self.right, x + apart) - more.width, self.y)

    def _arc(
        self, x: float, y: float, radius: float, from_deg: float, to_deg: float, width_dp: float
    ) -> None:
        circle = (x, y, max(1.0, radius), from_deg, to_deg)
        self._group.add(Line(circle=circle, width=dp(width_dp), cap="none"))

    def _dial(self, x: float, y: float, radius: float) -> None:
        band = needle_deg(self.tolerance, self.tolerance)
        self._arc(x, y, radius - dp(12), -SIDE_DEG, SIDE_DEG, 1.5)
        self._arc(x, y, radius - dp(12), -band, band, 11)
        for angle in (-SIDE_DEG, SIDE_DEG):
            self._ray(x, y, angle, radius - dp(24), radius, 1.5)

    def _ray(self, x: float, y: float, angle: float, inner: float, outer: float, width_dp: float) -> None:
        across, up = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        ends = [x + inner * across, y + inner * up, x + outer * across, y + outer * up]
        self.line(ends, width_dp)

    def _hidden(self, x: float, y: float, radius: float) -> None:
        """Bar off what the scale may hide, either way of the needle."""
        hidden = max(0.0, min(self.worst, 9.0) - abs(self.error))
        low, high = (needle_deg(self.error + sign * hidden, self.tolerance) for sign in (-1, 1))
        self._arc(x, y, 0.62 * radius, low, high, 3)
        for angle in (low, high):
            self._ray(x, y, angle, 0.62 * radius - dp(10), 0.62 * radius + dp(10), 2)

    def _hand(self, x: float, y: float, radius: float) -> None:
        angle = math.radians(self.angle_deg)
        across, up, half = math.sin(angle), math.cos(angle), dp(11)
        tip = (x + (radius - dp(28)) * across, y + (radius - dp(28)) * up)
        self._group.add(
            Triangle(points=[x - half * up, y + half * across, x + half * up, y - half * across, *tip])
        )
        self.box(x - half, y - half, 2 * half, 2 * half)

    def _edges(self, x: float, y: float, radius: float, edge: Any) -> None:
        """Name the edges of the band above them."""
        band = math.radians(needle_deg(self.tolerance, self.tolerance))
        across, up = math.sin(band) * (radius + dp(8)), math.cos(band) * (radius + dp(8))
        self.write(edge, x - across - edge.width, y + up - edge.height / 4)
        self.write(edge, x + across, y + up - edge.height / 4)
        self.colour(theme.ink)

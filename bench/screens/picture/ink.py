"""A stroke that a finger draws over the picture: kept in mm of the panel, so that it stays where it was."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from kivy.graphics import Color, InstructionGroup, Line
from kivy.metrics import dp

from bench.screens.picture.view import View
from bench.screens.theme import theme

CORE_DP, EDGE_DP = 2.5, 4.5
_PALE = 0.4
STEP_MM = 1.0  # the stroke is looked at in steps no longer than this

Point = tuple[float, float]


class Ink:
    """Draw the stroke into `group`, light on dark, so that it shows on any glass.

    reach_dp: how far to either side it does something, drawn as a pale band.
    """

    def __init__(self) -> None:
        self.group = InstructionGroup()
        self.points_mm: list[Point] = []
        self._before_mm: list[Point] | None = None  # what was there before the stroke under way
        self.reach_dp = 0.0

    def begin(self, at_mm: Point) -> None:
        before_mm = self.points_mm
        self.wipe()
        self.points_mm, self._before_mm = [at_mm], before_mm

    def give_up(self) -> bool:
        """Go back to the stroke that was there before the one under way; False where none is under way."""
        if self._before_mm is None:
            return False
        self.points_mm, self._before_mm = self._before_mm, None
        return True

    def go_on(self, to_mm: Point) -> None:
        self.points_mm = [*self.points_mm, to_mm]

    def wipe(self) -> None:
        self.points_mm, self._before_mm = [], None
        self.group.clear()

    def place(self, view: View, at: Point) -> None:
        """Draw the stroke where the view has it; `at` is the widget's lower left corner."""
        self.group.clear()
        if len(self.points_mm) < 2:
            return
        places = [view.to_px(*point) for point in self.points_mm]
        flat = [value for x, y in places for value in (x + at[0], y + at[1])]
        if self.reach_dp:
            self.group.add(Color(*theme.act_ink[:3], _PALE))
            self.group.add(Line(points=flat, width=dp(self.reach_dp), joint="round", cap="round"))
        for colour, wide_dp in ((theme.act, EDGE_DP), (theme.act_ink, CORE_DP)):
            self.group.add(Color(*colour))
            self.group.add(Line(points=flat, width=dp(wide_dp), joint="round", cap="round"))


def along(points_mm: list[Point]) -> list[Point]:
    """Return points along a polyline, at most STEP_MM apart; a single point stays itself."""
    dense = list(points_mm[:1])
    for (x1, y1), (x2, y2) in pairwise(points_mm):
        steps = max(1, int(np.ceil(np.hypot(x2 - x1, y2 - y1) / STEP_MM)))
        dense += [(x1 + (x2 - x1) * k / steps, y1 + (y2 - y1) * k / steps) for k in range(1, steps + 1)]
    return dense

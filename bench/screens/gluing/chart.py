"""Pieces against time: the pace needed, the pace so far, and the wall where the adhesive goes."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, StringProperty

from bench.job.glue_sheet import GlueSheet, how_many
from bench.job.state import Mix
from bench.pace.routine import Routine
from bench.screens.parts.band import hatch
from bench.screens.parts.drawn import Drawn, Point
from bench.screens.theme import theme
from bench.speech import say

LEGEND_SHARE = 0.55  # of the height: more of it would cover the lines
TYPE_SHARE = 0.17  # of the height, for a line of larger text
BEYOND = 0.1  # how much of the time after the wall is shown
_PITCH_DP = 14
_SAMPLE_DP = 70  # of a line beside its name


class PaceChart(Drawn):
    """A chart without a frame, to be read at arm's length: few lines, and those thick.

    Times in seconds of the adhesive's clock. set_from_s, clean_from_s: when setting begins, and when it
    must end. wall_s: when the adhesive goes, or went. counts: (at_s, pieces down) as told; without any, only
    the pace needed is drawn.
    """

    TIMES = ("total_s", "wall_s", "spent_s", "set_from_s", "clean_from_s")
    WATCHED = ("pieces", *TIMES, "counts", "placed_text")
    test_name = StringProperty("chart")
    pieces = NumericProperty(1)
    total_s = NumericProperty(1.0)
    wall_s = NumericProperty(1.0)
    spent_s = NumericProperty(0.0)
    set_from_s = NumericProperty(0.0)
    clean_from_s = NumericProperty(1.0)
    counts = ListProperty()
    placed_text = StringProperty("")

    def follow(self, sheet: GlueSheet, mix: Mix, routine: Routine, bed_mm2: float) -> None:
        """Follow the clock and what was told of a mix with this bed. [mm²]"""
        self.pieces, self.total_s, self.spent_s = sheet.pieces, sheet.total_s, sheet.spent_s
        self.set_from_s = mix.steps_s.get("set", routine.stir_s + routine.spread_s(bed_mm2))
        self.clean_from_s = max(0.0, sheet.total_s - routine.clean_s(bed_mm2))
        self.wall_s = sheet.total_s if mix.stringy_s is None else mix.stringy_s
        self.counts = [tuple(count) for count in mix.counts]
        of_all = say("{part} of {whole}", part=sheet.placed, whole=sheet.pieces)
        self.placed_text = of_all if sheet.counted else how_many(sheet)

    # -- lines, in seconds and pieces -------------------------------------------------------------------

    def so_far(self) -> list[Point]:
        """Return the pace so far: from the start of setting through every count; empty without a count."""
        counted = [(float(at_s), float(placed)) for at_s, placed in self.counts]
        if not counted:
            return []
        return [(min(self.set_from_s, counted[0][0]), 0.0), *counted]

    def needed(self) -> list[Point]:
        """Return the pace needed: from what is known to be down to all of it when cleaning must begin."""
        known = self.so_far()[-1:] or [(self.set_from_s, 0.0)]
        return [known[0], (max(self.clean_from_s, known[0][0]), float(self.pieces))]

    def _can_be_made(self) -> bool:
        """Tell whether there is a pace needed; once the adhesive went, none is fast enough."""
        return bool(self.needed()[-1][0] <= self.wall_s)

    def type_px(self) -> float:
        """Return the size of the words; larger than usual only where they leave the lines their room."""
        return round(max(theme.text / theme.beyond, min(theme.text, TYPE_SHARE * self.height)))

    # -- drawing ----------------------------------------------------------------------------------------

    def _place(self, point: Point) -> Point:
        at_s, pieces = point
        foot = self.texture("0").height + dp(4)
        wide, high = self.width, self.height - foot - dp(8)
        x = self.x + wide * at_s / (max(self.total_s, 1.0) * (1 + BEYOND))
        return round(x), round(self.y + foot + high * pieces / max(1, self.pieces))

    def state(self) -> tuple[Any, ...]:
        """The time moves by pixels, not by each tick."""
        moved = (*self._place((self.spent_s, 0.0)), self.total_s, self.wall_s, self.pieces)
        return (*moved, self.set_from_s, self.clean_from_s, str(self.counts), self.placed_text)

    def draw(self) -> None:
        self._wall()
        self._stroke([(0.0, 0.0), (self.total_s * (1 + BEYOND), 0.0)], 1.5)
        if self._can_be_made():
            self.dashes(*map(self._place, self.needed()))
        self._pace_so_far()
        placed = self.texture(self.placed_text)
        self._now(placed)
        self._words(placed)

    def _stroke(self, points: list[Point], width_dp: float) -> None:
        self.line([value for point in points for value in self._place(point)], width_dp)

    def _wall(self) -> None:
        x, y = self._place((self.wall_s, 0.0))
        box = (x, y, self.right - x, self.y + self.height - y)
        for ends in hatch(box, dp(_PITCH_DP)):
            self.line(ends, 1.2)
        self._stroke([(self.wall_s, 0.0), (self.wall_s, float(self.pieces))], 3)

    def _pace_so_far(self) -> None:
        points = self.so_far()
        if not points:
            return
        self._stroke(points, 3.5)
        for point in points[1:]:
            x, y = self._place(point)
            self.box(x - dp(7), y - dp(7), dp(14), dp(14))

    def _now(self, placed: Any) -> None:
        """Draw the line of the time, up to the words where they are in its way."""
        x, y = self._place((min(self.spent_s, self.total_s * (1 + BEYOND)), 0.0))
        under = x < self.x + placed.width + dp(8)
        self.line([x, y, x, self.y + self.height - (placed.height + dp(4) if under else 0)], 1.2)
        self.box(x - dp(8), y - dp(8), dp(16), dp(16))

    def _words(self, placed: Any) -> None:
        wall_x, foot_y = self._place((self.wall_s, 0.0))
        minutes = self.texture(say("{minutes} min", minutes=int(self.wall_s / 60)))
        middle = wall_x - minutes.width / 2
        self.write(minutes, max(self.x, min(middle, self.right - minutes.width)), self.y)
        self.write(placed, self.x, self.y + self.height - placed.height)
        self._legend(wall_x - dp(12), foot_y + dp(10), self.y + self.height - placed.height - dp(8))

    def _legend(self, right: float, low: float, high: float) -> None:
        """Name the two lines in a corner that neither of them reaches, where there is one."""
        rows = [(say("needed"), True)] if self._can_be_made() else []
        rows += [(say("so far"), False)] if self.counts else []
        if not rows:
            return
        wide_px = max(self.texture(text).width for text, _ in rows) + dp(_SAMPLE_DP)
        high_px = len(rows) * self.texture("0").height
        corners = ((right - wide_px, low), (self.x, high - high_px))
        corner = next((c for c in corners if self._is_free(*c, wide_px, high_px)), None)
        if corner is None or high_px + dp(10) > LEGEND_SHARE * (self.y + self.height - low):
            return
        x, y = corner
        for text, dashed in rows:
            self.write(self.texture(text), x + dp(_SAMPLE_DP), y)
            at = y + self.texture(text).height / 2
            spans = [(0, 14), (22, 36), (44, 54)] if dashed else [(0, 54)]
            for a, b in spans:
                self.line([x + dp(6 + a), at, x + dp(6 + b), at], 2 if dashed else 3.5)
            y += self.texture(text).height

    def _is_free(self, left: float, low: float, wide_px: float, high_px: float) -> bool:
        """Tell whether no line runs through a box: neither pace, nor the time, nor the wall."""
        air = dp(8)
        left, right, low, high = left - air, left + wide_px + air, low - air, low + high_px + air
        wall_x, _ = self._place((self.wall_s, 0.0))
        if left < self.x - air or right > wall_x:
            return False
        line = [*self.so_far()[:-1], *self.needed()] if self._can_be_made() else self.so_far()
        xs, ys = np.array([self._place(point) for point in line], float).T
        start, end = max(left, xs[0]), min(right, xs[-1])
        time_x, _ = self._place((min(self.spent_s, self.total_s * (1 + BEYOND)), 0.0))
        if left < time_x < right:
            return False
        if start > end:
            return True
        within = ys[(xs >= start) & (xs <= end)]
        crossed = np.concatenate([np.interp([start, end], xs, ys), within])
        return bool(crossed.min() >= high or crossed.max() <= low)

"""Pieces against time: the pace needed, the pace so far, and the wall where the adhesive goes."""

from __future__ import annotations

from typing import Any

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


class PaceChart(Drawn):
    """A chart without a frame, to be read at arm's length: few lines, and those thick.

    Times in seconds of the adhesive's clock. set_from_s, clean_from_s: when setting begins, and when it
    must end. counts: (at_s, pieces down) as told; without any, only the pace needed is drawn.
    """

    WATCHED = ("pieces", "total_s", "spent_s", "set_from_s", "clean_from_s", "counts", "placed_text")
    test_name = StringProperty("chart")
    pieces = NumericProperty(1)
    total_s = NumericProperty(1.0)
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
        moved = (*self._place((self.spent_s, 0.0)), self.total_s, self.pieces)
        return (*moved, self.set_from_s, self.clean_from_s, str(self.counts), self.placed_text)

    def draw(self) -> None:
        self._wall()
        self._stroke([(0.0, 0.0), (self.total_s * (1 + BEYOND), 0.0)], 1.5)
        start, end = self.needed()
        self.dashes(self._place(start), self._place(end))
        self._pace_so_far()
        placed = self.texture(self.placed_text)
        self._now(placed)
        self._words(placed)

    def _stroke(self, points: list[Point], width_dp: float) -> None:
        self.line([value for point in points for value in self._place(point)], width_dp)

    def _wall(self) -> None:
        x, y = self._place((self.total_s, 0.0))
        box = (x, y, self.right - x, self.y + self.height - y)
        for ends in hatch(box, dp(_PITCH_DP)):
            self.line(ends, 1.2)
        self._stroke([(self.total_s, 0.0), (self.total_s, float(self.pieces))], 3)

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
        wall_x, foot_y = self._place((self.total_s, 0.0))
        minutes = self.texture(say("{minutes} min", minutes=int(self.total_s / 60)))
        self.write(minutes, min(wall_x - minutes.width / 2, self.right - minutes.width), self.y)
        self.write(placed, self.x, self.y + self.height - placed.height)
        self._legend(wall_x - dp(12), foot_y + dp(10))

    def _legend(self, right: float, low: float) -> None:
        """Name the two lines in the corner that neither of them reaches, where there is one."""
        rows = [(say("needed"), True)] + ([(say("so far"), False)] if self.counts else [])
        if len(rows) * self.texture("0").height + dp(10) > LEGEND_SHARE * (self.y + self.height - low):
            return
        for text, dashed in rows:
            texture = self.texture(text)
            self.colour(theme.plate)
            self.box(right - texture.width - dp(70), low, dp(70), texture.height)
            self.write(texture, right - texture.width, low)
            x, y = right - texture.width - dp(64), low + texture.height / 2
            spans = [(0, 14), (22, 36), (44, 54)] if dashed else [(0, 54)]
            for a, b in spans:
                self.line([x + dp(a), y, x + dp(b), y], 2 if dashed else 3.5)
            low += texture.height

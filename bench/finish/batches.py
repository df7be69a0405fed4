"""Grout in batches: no more mixed at once than can be worked before it stiffens."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.finish.faults import AmountOutOfRange
from bench.finish.grout import Grout
from bench.speech import say

POT_LIFE_MIN = 60.0  # the lower end of one to two hours: ANSI A118.7
READY_MIN = 15.0  # mixing, letting it stand, mixing again: common practice, no source
AREA_PACE_CM2_MIN = 25.0  # of panel, filled and wiped: common practice, no source
MOST_POT_LIFE_MIN = 480.0
MOST_WATER_SHARE = 2.0


@dataclass(frozen=True)
class GroutPace:
    """How fast the maker grouts, and how long the grout can be worked."""

    area_cm2_min: float = AREA_PACE_CM2_MIN
    pot_life_min: float = POT_LIFE_MIN

    def __post_init__(self) -> None:
        if not (math.isfinite(self.area_cm2_min) and 0 < self.area_cm2_min <= 10_000):
            allowed = say("cm² a minute, more than 0")
            raise AmountOutOfRange(say("pace of grouting"), self.area_cm2_min, allowed)
        if not (READY_MIN < self.pot_life_min <= MOST_POT_LIFE_MIN):
            least, most = READY_MIN, MOST_POT_LIFE_MIN
            allowed = say("minutes, more than {least:g} and at most {most:g}", least=least, most=most)
            raise AmountOutOfRange(say("pot life of the grout"), self.pot_life_min, allowed)


@dataclass(frozen=True)
class GroutBatch:
    """So many equal batches. [g] minutes: to fill and wipe the area of one."""

    count: int
    powder_g: float
    water_g: float
    minutes: float


def batches_of(grout: Grout, area_mm2: float, pace: GroutPace) -> GroutBatch:
    """Return the batches for an area of panel, glass and joints: the fewest that fit the pot life.

    Each can be worked for the pot life less a quarter of an hour to mix it. No grout takes no batch.
    """
    if grout.powder_g <= 0:
        return GroutBatch(0, 0.0, 0.0, 0.0)
    minutes = area_mm2 / 100.0 / pace.area_cm2_min
    count = max(1, math.ceil(minutes / (pace.pot_life_min - READY_MIN) - 1e-9))
    return GroutBatch(count, grout.powder_g / count, grout.water_g / count, minutes / count)

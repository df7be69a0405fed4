"""What stands around the setting in every glue-up: stirring, spreading, picking the joints clean."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bench.fault import Fault
from bench.speech import say
from bench.speech.measures import MM2_PER_CM2

Area = TypeVar("Area", float, NDArray[np.float64])


class RoutineTimeNegative(Fault):
    """Refuse a step of the routine that is negative or no number; `name` and `value` say which."""

    def __init__(self, name: str, value: float) -> None:
        what = say("{name} = {value} cannot be", name=name, value=repr(value))
        super().__init__(what, todo=say("give seconds from 0 up"))
        self.name = name
        self.value = value


@dataclass(frozen=True)
class Routine:
    """Time from first contact that is not setting: stir + spread(area) + clean(area).

    The defaults are common practice, no source. Two parts are stirred for a minute (EN 14022 mixes its
    200 g test batch for 60 ± 10 s). A thin bed goes on with a notched spatula at about 0.6 s/cm²
    after 15 s for scraping out the cup. Picking ooze out of the joints takes about 1.5 s/cm², scraping the
    open edge 20 s. A section of 32 cm², some 70 pieces, spends 60 + 34 + 68 s beside the setting.
    """

    stir_s: float = 60.0
    spread_s_per_cm2: float = 0.6
    spread_base_s: float = 15.0
    clean_s_per_cm2: float = 1.5
    clean_base_s: float = 20.0

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if not (math.isfinite(value) and value >= 0):
                raise RoutineTimeNegative(field.name, value)

    def spread_s(self, area_mm2: Area) -> Area:
        """Return the time to spread a bed of this area. [s]"""
        return self.spread_base_s + self.spread_s_per_cm2 * area_mm2 / MM2_PER_CM2

    def clean_s(self, area_mm2: Area) -> Area:
        """Return the time to pick the joints and scrape the edge of a section of this area. [s]"""
        return self.clean_base_s + self.clean_s_per_cm2 * area_mm2 / MM2_PER_CM2

    def around_s(self, area_mm2: Area) -> Area:
        """Return stir + spread + clean: all of a glue-up but the setting. [s]"""
        return self.stir_s + self.spread_s(area_mm2) + self.clean_s(area_mm2)

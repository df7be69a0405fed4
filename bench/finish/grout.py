"""Grout for the joints: powder and water by mass, waste included."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.finish.faults import AmountOutOfRange
from bench.finish.joints import joint_volume_cm3
from bench.speech import say

POWDER_G_PER_CM3 = 1.6  # dry powder in a cm³ of joint: common practice, no source
WATER_SHARE = 0.31  # of the powder's mass, from memory of a grout's data sheet (1.4 l to 4.5 kg)
WASTE = 0.1  # common practice, no source


@dataclass(frozen=True)
class Grout:
    """What to weigh out. Waste is in powder and water, not in the volume."""

    joint_area_mm2: float
    joint_volume_cm3: float
    powder_g: float
    water_g: float
    waste: float

    @property
    def stays_g(self) -> float:
        """What stays in the joints at most: powder and all its water, without the waste. [g]"""
        return (self.powder_g + self.water_g) / (1.0 + self.waste)


def grout_for(
    joint_area_mm2: float,
    depth_mm: float,
    *,
    powder_g_per_cm3: float = POWDER_G_PER_CM3,
    water_share: float = WATER_SHARE,
    waste: float = WASTE,
) -> Grout:
    """Return the grout for so much joint, area × depth × density × (1 + waste), water a share of the powder.

    No joints take none. Raises AmountOutOfRange for what is negative or not finite.
    """
    given = {
        say("joint area"): joint_area_mm2,
        say("depth"): depth_mm,
        say("grout density"): powder_g_per_cm3,
        say("water"): water_share,
        say("waste"): waste,
    }
    for name, value in given.items():
        if not (math.isfinite(value) and value >= 0):
            raise AmountOutOfRange(name, value, say("0 or more"))
    volume_cm3 = joint_volume_cm3(joint_area_mm2, depth_mm)
    powder_g = volume_cm3 * powder_g_per_cm3 * (1.0 + waste)
    return Grout(joint_area_mm2, volume_cm3, powder_g, powder_g * water_share, waste)

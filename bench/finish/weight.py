"""What the panel will weigh: glass by its thickness, backer and bed by the areal masses the maker enters."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.drawing import Panel
from bench.finish.faults import AmountOutOfRange

GLASS_G_PER_CM3 = 2.5  # soda-lime glass, EN 572: 2500 kg/m³


@dataclass(frozen=True)
class Weight:
    """Masses of the finished panel by part. [g]"""

    glass_g: float
    backer_g: float
    bed_g: float
    grout_g: float

    @property
    def total_g(self) -> float:
        return self.glass_g + self.backer_g + self.bed_g + self.grout_g


def glass_mass_g(glass_area_mm2: float, glass_mm: float) -> float:
    """Return area × thickness × 2.5 g/cm³. [g] Raises AmountOutOfRange for a thickness below 0."""
    if not (math.isfinite(glass_mm) and glass_mm >= 0):
        raise AmountOutOfRange("glass thickness", glass_mm, "0 mm or more")
    return glass_area_mm2 * glass_mm / 1000.0 * GLASS_G_PER_CM3


def weight_of(
    panel: Panel,
    *,
    glass_mm: float,
    grout_g: float,
    backer_g_per_cm2: float = 0.0,
    bed_g_per_cm2: float = 0.0,
) -> Weight:
    """Return the weight of the panel.

    Backer and bed lie under the whole outline, joints too. grout_g: as it stays in the joints; counted with
    all its water it is on the heavy side, which is the safe one for whatever the panel hangs from.
    """
    for name, value in (("backer", backer_g_per_cm2), ("bed", bed_g_per_cm2), ("grout", grout_g)):
        if not (math.isfinite(value) and value >= 0):
            raise AmountOutOfRange(name, value, "0 or more")
    whole_cm2 = panel.outline_area_mm2 / 100.0
    return Weight(
        glass_g=glass_mass_g(panel.glass_area_mm2, glass_mm),
        backer_g=whole_cm2 * backer_g_per_cm2,
        bed_g=whole_cm2 * bed_g_per_cm2,
        grout_g=grout_g,
    )

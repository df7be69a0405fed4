"""What the panel will weigh and how sure that is: glass by its thickness, the rest by masses entered."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from bench.drawing.panel import Panel
from bench.finish.faults import AmountOutOfRange
from bench.speech import say

GLASS_G_PER_CM3 = 2.5  # soda-lime glass, EN 572: 2500 kg/m³
POUND_G = 453.59237  # the international pound of 1959, exact

# How far a part may be off either way in eight cases of ten, as a share of its mass. Glass: sheet of 3 mm may
# be ±0.2 mm (EN 572-2, from memory); the others common practice, no source: a board by its area or a frame on
# a scale is nearly right, adhesive is spread unevenly and picked out, grout keeps an unknown share of water.
SPREADS: Mapping[str, float] = MappingProxyType(
    {"glass": 0.07, "backer": 0.05, "bed": 0.3, "grout": 0.15, "frame": 0.02}
)


@dataclass(frozen=True)
class Weight:
    """Masses of the finished panel by part. [g] spreads: of each part, as in SPREADS."""

    glass_g: float
    backer_g: float
    bed_g: float
    grout_g: float
    frame_g: float = 0.0
    spreads: Mapping[str, float] = field(default_factory=lambda: SPREADS)

    @property
    def parts_g(self) -> dict[str, float]:
        """The masses by name, in the order from the wall outward but the frame. [g]"""
        return {
            "glass": self.glass_g,
            "backer": self.backer_g,
            "bed": self.bed_g,
            "grout": self.grout_g,
            "frame": self.frame_g,
        }

    @property
    def total_g(self) -> float:
        return self.glass_g + self.backer_g + self.bed_g + self.grout_g + self.frame_g

    @property
    def spread_g(self) -> float:
        """How far the total may be off either way in eight cases of ten. [g]

        √Σ(share·mass)²: the parts are off by chance and each on its own, as normal errors are.
        """
        return math.sqrt(sum((self.spreads[name] * mass) ** 2 for name, mass in self.parts_g.items()))

    @property
    def p10_g(self) -> float:
        return max(0.0, self.total_g - self.spread_g)

    @property
    def p90_g(self) -> float:
        return self.total_g + self.spread_g


def pounds(mass_g: float) -> float:
    """Return a mass in pounds. [lb]"""
    return mass_g / POUND_G


def spreads_with(told: Mapping[str, float]) -> Mapping[str, float]:
    """Return the usual spreads with some told anew; raises AmountOutOfRange for what is no part or share."""
    for name, share in told.items():
        if name not in SPREADS:
            allowed = say("it for one of {names}", names=", ".join(SPREADS))
            raise AmountOutOfRange(say("spread of {part}", part=name[:30]), share, allowed)
        if not (math.isfinite(share) and 0 <= share <= 1):
            allowed = say("a share from 0 to 1, e.g. 0.05")
            raise AmountOutOfRange(say("spread of {part}", part=name), share, allowed)
    return MappingProxyType({**SPREADS, **told})


def glass_mass_g(glass_area_mm2: float, glass_mm: float) -> float:
    """Return area × thickness × 2.5 g/cm³. [g] Raises AmountOutOfRange for a thickness below 0."""
    if not (math.isfinite(glass_mm) and glass_mm >= 0):
        raise AmountOutOfRange(say("glass thickness"), glass_mm, say("0 mm or more"))
    return glass_area_mm2 * glass_mm / 1000.0 * GLASS_G_PER_CM3


def weight_of(
    panel: Panel,
    *,
    glass_mm: float,
    grout_g: float,
    backer_g_per_cm2: float = 0.0,
    bed_g_per_cm2: float = 0.0,
    frame_g: float = 0.0,
    spreads: Mapping[str, float] = SPREADS,
) -> Weight:
    """Return the weight of the panel.

    Backer and bed lie under the whole outline, joints too. grout_g: as it stays in the joints; counted with
    all its water it is on the heavy side, which is the safe one for whatever the panel hangs from.
    """
    given = {
        say("backer"): backer_g_per_cm2,
        say("bed"): bed_g_per_cm2,
        say("grout"): grout_g,
        say("frame"): frame_g,
    }
    for name, value in given.items():
        if not (math.isfinite(value) and value >= 0):
            raise AmountOutOfRange(name, value, say("0 or more"))
    whole_cm2 = panel.outline_area_mm2 / 100.0
    return Weight(
        glass_g=glass_mass_g(panel.glass_area_mm2, glass_mm),
        backer_g=whole_cm2 * backer_g_per_cm2,
        bed_g=whole_cm2 * bed_g_per_cm2,
        grout_g=grout_g,
        frame_g=frame_g,
        spreads=spreads,
    )

"""How a section's state is told without touching the colour of its glass: outline, hatching and word.

The denser the hatching, the further the hand keeps away: crossed is wet, close is soft, wide is firm; what
may be walked on and what is not yet there carry none, and differ in their outline.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.screens.contrast import rgb
from bench.screens.theme import OKABE_ITO

Colour = tuple[float, float, float]
Strip = tuple[float, float, Colour, float]  # from, to [dp off the joint's middle], colour, dash [dp, 0: none]

BLACK: Colour = (0.05, 0.05, 0.05)
WHITE: Colour = (0.98, 0.98, 0.97)


@dataclass(frozen=True)
class Look:
    """A state's band along the outline and its hatching; a pitch of 0 hatches nothing."""

    band_dp: float
    dash_dp: float
    hatch_mm: float
    crossed: bool = False


LOOKS: dict[str, Look] = {
    "drawn": Look(band_dp=3.0, dash_dp=9.0, hatch_mm=0.0),
    "dry": Look(band_dp=5.0, dash_dp=0.0, hatch_mm=0.0),
    "wet": Look(band_dp=6.0, dash_dp=4.0, hatch_mm=8.0, crossed=True),
    "soft": Look(band_dp=4.0, dash_dp=4.0, hatch_mm=7.0),
    "firm": Look(band_dp=3.0, dash_dp=0.0, hatch_mm=16.0),
    "hard": Look(band_dp=0.0, dash_dp=0.0, hatch_mm=0.0),
}


def side_strips(stage: str, hue: int, is_next: bool) -> list[Strip]:
    """Return what is drawn on a section's own side of its outline, from the joint's middle inwards."""
    if is_next:
        return [(0.0, 1.5, BLACK, 0.0), (1.5, 6.0, WHITE, 0.0), (6.0, 8.5, BLACK, 0.0)]
    look = LOOKS[stage]
    core: list[Strip] = [(0.0, 1.0, BLACK, 0.0)]
    if look.band_dp:
        colour = rgb(OKABE_ITO[hue % len(OKABE_ITO)])
        core.append((1.0, 1.0 + look.band_dp, colour, look.dash_dp))
        core.append((1.0 + look.band_dp, 2.0 + look.band_dp, BLACK, look.dash_dp))
    return core


def hues(pairs: list[tuple[int, int]], count: int) -> list[int]:
    """Return a hue for each of `count` sections, neighbours different as far as the eight colours go."""
    beside: list[set[int]] = [set() for _ in range(count)]
    for a, b in pairs:
        beside[a].add(b)
        beside[b].add(a)
    chosen = [-1] * count
    for k in range(count):
        taken = {chosen[n] for n in beside[k]}
        order = [(k + shift) % len(OKABE_ITO) for shift in range(len(OKABE_ITO))]
        chosen[k] = next((hue for hue in order if hue not in taken), order[0])
    return chosen

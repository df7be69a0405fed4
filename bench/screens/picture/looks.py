"""How a section's state is told without touching the colour of its glass: outline, hatching and word.

The denser the hatching, the further the hand keeps away: crossed is wet, close is soft, wide is firm; what
may be walked on and what is not yet there carry none, and differ in their outline.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.screens.contrast import rgb
from bench.screens.theme import OKABE_ITO

Colour = tuple[float, float, float]

BLACK: Colour = (0.05, 0.05, 0.05)
WHITE: Colour = (0.98, 0.98, 0.97)


@dataclass(frozen=True)
class Side:
    """What is drawn on one side of a line, as distances off its middle. [dp]

    Black up to `core_dp`, `colour` up to `band_dp`, black again up to `edge_dp`. dash_dp: length of a dash
    and of the gap after it, beyond the core; 0 is unbroken.
    """

    core_dp: float
    band_dp: float
    edge_dp: float
    colour: Colour = WHITE
    dash_dp: float = 0.0


NO_SIDE = Side(1.0, 1.0, 1.0)


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


def side_of(stage: str, hue: int, is_next: bool) -> Side:
    """Return what is drawn on a section's own side of its outline."""
    if is_next:
        return Side(1.5, 6.0, 8.5)
    look = LOOKS[stage]
    if not look.band_dp:
        return NO_SIDE
    band_dp = NO_SIDE.core_dp + look.band_dp
    return Side(NO_SIDE.core_dp, band_dp, band_dp + 1.0, rgb(OKABE_ITO[hue % len(OKABE_ITO)]), look.dash_dp)


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

"""Whether both hands reach a section from some side of the panel without lying over soft work."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bench.sections.facts import SectionFacts

WAYS = 8  # directions tried, evenly turned: the panel can be turned on the bench


def can_be_reached(section: SectionFacts, soft: Sequence[SectionFacts]) -> bool:
    """Say whether some straight way from outside to the section crosses none of these, which are soft.

    The section itself bars nothing. Sections are taken as discs of their area. Without any soft work
    everything can be reached.
    """
    barring = [f for f in soft if f.number != section.number]
    if not barring:
        return True
    turns = (2 * math.pi * i / WAYS for i in range(WAYS))
    return any(not any(_crosses(section, f, math.cos(t), math.sin(t)) for f in barring) for t in turns)


def _crosses(section: SectionFacts, soft: SectionFacts, x: float, y: float) -> bool:
    dx, dy = soft.centroid_mm[0] - section.centroid_mm[0], soft.centroid_mm[1] - section.centroid_mm[1]
    along, aside = dx * x + dy * y, abs(dx * y - dy * x)
    return along > 0 and aside < soft.radius_mm

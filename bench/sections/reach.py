"""Whether both hands reach a section from some side of the panel without lying over soft work."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bench.sections.facts import SectionFacts

SOFT = ("wet", "soft")
WAYS = 8  # directions tried, evenly turned: the panel can be turned on the bench


def can_be_reached(section: SectionFacts, facts: Sequence[SectionFacts]) -> bool:
    """Say whether some straight way from outside to the section crosses no wet or soft section.

    Sections are taken as discs of their area. Without any soft work everything can be reached.
    """
    soft = [f for f in facts if f.stage in SOFT and f.number != section.number]
    if not soft:
        return True
    turns = (2 * math.pi * i / WAYS for i in range(WAYS))
    return any(not any(_crosses(section, f, math.cos(t), math.sin(t)) for f in soft) for t in turns)


def _crosses(section: SectionFacts, soft: SectionFacts, x: float, y: float) -> bool:
    dx, dy = soft.centroid[0] - section.centroid[0], soft.centroid[1] - section.centroid[1]
    along, aside = dx * x + dy * y, abs(dx * y - dy * x)
    return along > 0 and aside < soft.radius_mm

"""One section more, rounder: offered beside a division whose sections would all be full to the brim."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.sections.divide import best_division
from bench.sections.division import Division
from bench.sections.ground import Ground
from bench.sections.measures import cut_mm, lower_bound, shape_quotient
from bench.speech import say_n

TIGHT = 0.003  # share of the capacity left free over all sections; times are not known that well
ROUNDER = 1.01  # what is hardly rounder is not worth a batch


@dataclass(frozen=True)
class Offer:
    """A division with more sections, and what it is worth: its cut and shape against the one in force."""

    division: Division
    more: int
    cut_share: float
    shape_share: float

    def told(self) -> str:
        """Return the offer in one sentence, with what it costs."""
        cut, rounder = 100 * abs(self.cut_share - 1), 100 * (self.shape_share - 1)
        if self.cut_share > 1:
            return say_n(
                "every section is full to the brim; one more batch would make them {rounder:.0f} % rounder, "
                "with {cut:.0f} % more joint cut: prefer forms",
                "every section is full to the brim; {count} more batches would make them "
                "{rounder:.0f} % rounder, with {cut:.0f} % more joint cut: prefer forms",
                self.more,
                rounder=rounder,
                cut=cut,
            )
        return say_n(
            "every section is full to the brim; one more batch would make them {rounder:.0f} % rounder, "
            "with {cut:.0f} % less joint cut: prefer forms",
            "every section is full to the brim; {count} more batches would make them "
            "{rounder:.0f} % rounder, with {cut:.0f} % less joint cut: prefer forms",
            self.more,
            rounder=rounder,
            cut=cut,
        )


def free_share(ground: Ground) -> float:
    """Return the share of all capacity that the fewest sections leave free; 1 for an empty ground."""
    bound = lower_bound(ground)
    if not bound:
        return 1.0
    return 1.0 - float((ground.expected_s / ground.cap_s).sum()) / bound


def one_more(ground: Ground, division: Division, *, seed: int = 0) -> Offer | None:
    """Return a division with one section more in each part, where less than TIGHT is free and it is better.

    None where there is room enough, where every part is one section, or where it would be no rounder.
    """
    if free_share(ground) >= TIGHT or division.section_count < 2:
        return None
    other = best_division(ground, seed=seed, more=1)
    more = other.section_count - division.section_count
    now, then = (np.asarray(d.label) for d in (division, other))
    cut = cut_mm(ground, then) / max(cut_mm(ground, now), 1e-9)
    shape = shape_quotient(ground, then) / max(shape_quotient(ground, now), 1e-9)
    return Offer(other, more, cut, shape) if more > 0 and shape >= ROUNDER else None

"""Setting by the patch: a patch takes a time of its own, and every cm² of it takes some more."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bench.fault import Fault
from bench.pace.normal import FloatArray
from bench.speech import say

# All three from memory, common practice, no source: a patch about as large as a hand, lifted over and lined
# up in half a minute, pressed down and out in as long again. The book corrects both halves.
DEFAULT_PATCH_CM2 = 40.0
DEFAULT_PATCHES_PER_MIN = 1.0
UNIT_CM2 = 40.0  # of bed, thought to take as long to press down as any patch to lift over
PATCH_SPAN_CM2 = (1.0, 2000.0)


class PatchOutOfRange(Fault):
    """Refuse a patch that nobody lifts; `patch_cm2` keeps it."""

    def __init__(self, patch_cm2: float) -> None:
        low, high = PATCH_SPAN_CM2
        what = say("a patch of {patch_cm2:g} cm² cannot be", patch_cm2=patch_cm2)
        todo = say("give {low:g} to {high:g} cm² of bed", low=low, high=high)
        super().__init__(what, where=say("patch"), todo=todo)
        self.patch_cm2 = patch_cm2


@dataclass(frozen=True)
class ByPatch:
    """How a maker sets by the patch, film on the faces.

    patch_cm2: bed of a usual patch. per_min: usual patches a minute of setting alone, as stated; None: the
    default. The effort of P patches on A cm² is P + w·A/UNIT_CM2, so that a book of them is learned like one
    of two classes of pieces: e^μ are seconds a patch, w·e^μ/UNIT_CM2 seconds a cm².
    """

    patch_cm2: float = DEFAULT_PATCH_CM2
    per_min: float | None = None

    def __post_init__(self) -> None:
        low, high = PATCH_SPAN_CM2
        if not (math.isfinite(self.patch_cm2) and low <= self.patch_cm2 <= high):
            raise PatchOutOfRange(self.patch_cm2)

    @property
    def one(self) -> FloatArray:
        """Return the counts of one usual patch. (3,)"""
        return patch_counts(1.0, self.patch_cm2 * 100.0)

    @property
    def efforts_per_min(self) -> float:
        """Return the stated pace in units of effort, before any weight was learned."""
        stated = DEFAULT_PATCHES_PER_MIN if self.per_min is None else self.per_min
        return stated * float(self.one.sum())

    def patches_on(self, area_mm2: float) -> float:
        """Return in how many patches such a bed is set: whole ones, near the usual size, at least one."""
        return float(max(1, round(area_mm2 / (self.patch_cm2 * 100.0))))


def patch_counts(patches: float, area_mm2: float) -> FloatArray:
    """Return patches and their bed as counts by class: none small, the patches, the units of bed. (3,)"""
    return np.array([0.0, patches, area_mm2 / 100.0 / UNIT_CM2])

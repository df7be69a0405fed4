"""At Dry: the counted pieces, not the drawn ones, decide whether the section still fits one batch."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.pace.capacity import SURE_SPAN, SureOutOfRange, probability_in_time
from bench.pace.hands import Hands
from bench.pace.life import Life
from bench.pace.root import crossing
from bench.pace.routine import Routine

AS_DRAWN = 100.0  # pieces: before any was laid, this many are taken to have been laid as drawn; no source


@dataclass(frozen=True)
class DryCount:
    """What the count says. in_time: chance of the whole section; fits, leave: pieces, or patches, of it;
    mixes: batches that would hold all of it in equal parts."""

    in_time: float
    fits: int
    leave: int
    mixes: int


def judge_count(
    hands: Hands,
    life: Life,
    *,
    counts: ArrayLike,
    area_mm2: float,
    working_time_s: float,
    routine: Routine,
    sure: float = 0.9,
    patches: float | None = None,
) -> DryCount:
    """Judge a laid section of `counts` pieces (small, medium, large) on `area_mm2` of bed.

    Pieces to leave are taken in the section's own mix of sizes and take their share of the bed along.
    patches: where it is set by the patch, how many it is cut in: then all is told in patches, and `counts`
    are `patch_counts`.
    Where not one piece fits, fits and mixes are 0. A promise outside 0.5 to 0.99 raises SureOutOfRange.
    """
    if not SURE_SPAN[0] <= sure <= SURE_SPAN[1]:
        raise SureOutOfRange(sure)
    laid = np.asarray(counts, dtype=np.float64)
    total = math.floor((float(laid.sum()) if patches is None else patches) + 1e-9)

    def chance(part: float) -> float:
        told = probability_in_time(
            hands,
            life,
            counts=part * laid,
            area_mm2=part * area_mm2,
            working_time_s=working_time_s,
            routine=routine,
        )
        return float(told)

    whole = chance(1.0)
    if whole >= sure or total == 0:
        return DryCount(whole, total, 0, 1)
    if chance(1 / total) < sure:
        return DryCount(whole, 0, total, 0)
    part = crossing(lambda part: chance(part) - sure, 1 / total, 1.0)
    fits = math.floor(part * total + 1e-6)
    return DryCount(whole, fits, total - fits, math.ceil(total / fits))


def laid_per_drawn(laid: ArrayLike, drawn: ArrayLike) -> NDArray[np.float64]:
    """Return how many pieces are laid for each one drawn, by region. (r,)

    laid: (k,) pieces counted of each section; drawn: (k, r) its drawn ones by region. A section's ratio
    counts in each region by its drawn pieces there; a region is held to the panel's ratio, and that to 1,
    by AS_DRAWN pieces. No sections give 1.
    """
    table = np.asarray(drawn, dtype=np.float64)
    of_section = table.sum(axis=1)
    counted = np.asarray(laid, dtype=np.float64)
    ratio = np.divide(counted, of_section, out=np.ones_like(counted), where=of_section > 0)
    whole = (float(counted.sum()) + AS_DRAWN) / (float(of_section.sum()) + AS_DRAWN)
    by_region: NDArray[np.float64] = (ratio @ table + AS_DRAWN * whole) / (table.sum(axis=0) + AS_DRAWN)
    return by_region

"""Part of a ground on its own, and a laid section split for several mixes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from bench.sections.divide import best_division, default_steps
from bench.sections.ground import Ground, IntArray


def part_of(ground: Ground, members: NDArray[np.integer], capacity_s: float | None = None) -> Ground:
    """Return the ground of some tesserae alone, with their joints; capacity_s: for all its adhesives. [s]"""
    own = np.unique(np.asarray(members, np.int32))
    place = np.full(ground.count, -1, np.int32)
    place[own] = np.arange(len(own), dtype=np.int32)
    inside = (place[ground.pair] >= 0).all(axis=1) if len(ground.pair) else np.zeros(0, bool)
    caps = np.asarray(ground.capacity_s, float)
    return replace(
        ground,
        expected_s=ground.expected_s[own],
        area_mm2=ground.area_mm2[own],
        centroid_mm=ground.centroid_mm[own],
        pair=place[ground.pair[inside]].reshape(-1, 2),
        joint_mm=ground.joint_mm[inside],
        cut_cost=ground.cut_cost[inside],
        adhesive=ground.adhesive[own],
        capacity_s=caps if capacity_s is None else np.full(len(caps), float(capacity_s)),
        tessera=ground.tessera[own],
        free_mm=ground.free_mm[own] if len(ground.free_mm) else ground.free_mm,
    )


def split_into(
    ground: Ground,
    members: NDArray[np.integer],
    *,
    parts: int | None = None,
    capacity_s: float | None = None,
    seed: int = 0,
) -> IntArray:
    """Label the tesserae of a section 0.. for several mixes, in ascending order of their index.

    Each mix is connected and within capacity_s; with parts, the loads are as even as that many connected
    mixes allow (more come only where the section itself is in more pieces, or a tessera is too long).
    Without either the ground's own capacity holds. An empty section gives no labels.
    """
    own = part_of(ground, members, capacity_s)
    if parts is None:
        fewest = replace(own, prefer="fewest")
        return best_division(fewest, seed=seed).label
    return _evenly(own, max(1, min(parts, own.count)), seed)


def _evenly(own: Ground, parts: int, seed: int) -> IntArray:
    """Tighten the capacity towards even loads; keep the tightest division of no more than so many parts."""
    if not own.count:
        return np.zeros(0, np.int32)
    even = max(float(own.expected_s.sum()) / parts, float(own.expected_s.max()), 1e-9)
    best: IntArray | None = None
    for slack in (2.0, 1.5, 1.25, 1.12, 1.06, 1.03):
        tight = replace(own, capacity_s=np.full(len(own.capacity_s), even * slack), prefer="fewest")
        label = best_division(tight, seed=seed, steps=default_steps(own) // 3).label
        if best is not None and int(label.max()) + 1 > parts:
            break
        best = label
    assert best is not None
    return best

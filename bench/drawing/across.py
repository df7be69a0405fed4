"""How much the tesserae of two drawings share, laid over one another."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import Grid, Index
from bench.drawing.evenodd import shared_area
from bench.drawing.overlaps import roughly_shared, spans
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.drawing.rings import Rings

HALF = 0.5
SLIVER = 0.01
_SIEVE = 0.7  # of what is asked for: level lines tell areas to a few per cent, of odd shapes worse
_SAME_MM = 1e-4  # what writing a drawing and reading it again may move a point by, ten times over


@dataclass(frozen=True, eq=False)
class Across:
    """pair: (k, 2) a tessera of the one drawing and one of the other; shared_mm2: (k,) what both cover.

    smaller_mm2: (k,) area of the smaller one. likeness: (k,) what both cover over what either covers.
    Pairs that share little are not told.
    """

    pair: Index
    shared_mm2: FloatArray
    smaller_mm2: FloatArray
    likeness: FloatArray


def end_to_end(one: Panel, other: Panel) -> tuple[Rings, IntArray]:
    """Return the outlines of both panels, and where each tessera's rings begin, (n + m + 1,)."""
    rings = Rings(
        np.concatenate([one.points_mm, other.points_mm]),
        np.concatenate([one.ring_start, other.ring_start[1:] + one.ring_start[-1]]).astype(np.int64),
    )
    first = np.concatenate([one.tessera_ring, other.tessera_ring[1:] + one.tessera_ring[-1]])
    return rings, first.astype(np.int32)


def shared_across(one: Panel, other: Panel, closely: NDArray[np.bool_]) -> Across:
    """Return which tesserae of two drawings lie on one another, and by how much.

    closely: (n,) which tesserae of the one drawing are asked about down to SLIVER of the smaller; of the
    others only pairs are told that share HALF of the larger at least. Outlines that are the same point by
    point are not measured: they share all. The others are sieved by boxes and by a few level lines, and
    what is left is measured exactly. Raises boxes.TooManyPairs where millions lie on one another.
    """
    rings, first = end_to_end(one, other)
    area_mm2 = np.concatenate([one.area_mm2, other.area_mm2])
    low, high = spans(rings.points_mm, rings.start[first[:-1]])
    n = one.tessera_count
    found = [np.stack([i, j + n], axis=1) for j, i in Grid(low[:n], high[:n]).pairs(low[n:], high[n:])]
    pair = np.concatenate([np.empty((0, 2), np.int64), *found])
    smaller, larger = np.sort(area_mm2[pair], axis=1).T
    least_mm2 = np.where(closely[pair[:, 0]], SLIVER * smaller, HALF * larger)
    i, j = pair.T
    box_mm = np.minimum(high[i], high[j]) - np.maximum(low[i], low[j])  # boxes that merely touch share none
    may = (box_mm > 0).all(axis=1) & (np.minimum(box_mm.prod(axis=1), smaller) > _SIEVE * least_mm2)
    pair, least_mm2 = pair[may], least_mm2[may]
    pair = pair[roughly_shared(rings, first, pair) > _SIEVE * least_mm2]
    same = _same_outline(rings, first, pair)
    shared_mm2 = area_mm2[pair].min(axis=1)
    outlines = [rings.points_mm[a:b] for a, b in zip(rings.start[:-1], rings.start[1:], strict=True)]
    for k in np.flatnonzero(~same).tolist():
        here, there = (outlines[first[t] : first[t + 1]] for t in pair[k].tolist())
        shared_mm2[k] = shared_area(here, there)
    either_mm2 = area_mm2[pair].sum(axis=1) - shared_mm2
    likeness = shared_mm2 / np.maximum(either_mm2, 1e-12)
    return Across(pair - [0, n], shared_mm2, area_mm2[pair].min(axis=1), likeness)


def _same_outline(rings: Rings, first: IntArray, pair: Index) -> NDArray[np.bool_]:
    """Tell which pairs are drawn by the very same points, in the same order."""
    points = rings.start[first]
    count = np.diff(points)[pair]
    same: NDArray[np.bool_] = (count[:, 0] == count[:, 1]) & (np.diff(first)[pair[:, 0]] == 1)
    same &= np.diff(first)[pair[:, 1]] == 1
    for k in np.flatnonzero(same).tolist():
        (a, b), size = points[pair[k]], count[k, 0]
        apart = rings.points_mm[a : a + size] - rings.points_mm[b : b + size]
        same[k] = np.abs(apart).max() <= _SAME_MM
    return same

"""Which tesserae lie on one another, by more than a share of the smaller.

First boxes: turned to many angles, two shapes share no more than the least of what their boxes share. In a
drawing where nothing overlaps that settles nearly all pairs; the few that are left are measured exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.drawing.boxes import Grid, Index
from bench.drawing.evenodd import shared_area
from bench.drawing.flatten import Rings
from bench.drawing.panel import FloatArray, IntArray

SHARE = 0.05
_ANGLES = 24  # between 0° and 90°
_MOST_MEASURED = 20_000  # pairs; some seconds


@dataclass(frozen=True, eq=False)
class Overlaps:
    """pair: (k, 2) tesserae, the smaller index first, sorted; `not_measured` more may overlap."""

    pair: Index
    not_measured: int = 0


def overlapping(rings: Rings, tessera_ring: IntArray, area_mm2: FloatArray) -> Overlaps:
    """Return the pairs of tesserae that share more than 5 % of the smaller one.

    Raises boxes.TooManyPairs where millions lie on one another.
    """
    pairs = _touching(rings, rings.start[tessera_ring[:-1]], area_mm2)
    left = max(0, len(pairs) - _MOST_MEASURED)
    outlines = [rings.points_mm[a:b] for a, b in zip(rings.start[:-1], rings.start[1:], strict=True)]
    found = []
    for i, j in pairs[:_MOST_MEASURED].tolist():
        one, other = (outlines[tessera_ring[k] : tessera_ring[k + 1]] for k in (i, j))
        if shared_area(one, other) > SHARE * min(area_mm2[i], area_mm2[j]):
            found.append((i, j))
    return Overlaps(np.array(sorted(found), np.int64).reshape(-1, 2), left)


def _touching(rings: Rings, first: Index, area_mm2: FloatArray) -> Index:
    """Return the pairs (k, 2) of tesserae of which boxes alone do not tell that they share little."""
    low, high = spans(rings.points_mm, first)
    found = [np.stack([i[i < j], j[i < j]], axis=1) for i, j in Grid(low, high).pairs(low, high)]
    pairs = np.concatenate([np.empty((0, 2), np.int64), *found])
    for angle in np.arange(_ANGLES) * (np.pi / 2 / _ANGLES):
        way = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        low, high = spans(rings.points_mm @ way, first)
        i, j = pairs.T
        common = np.minimum(high[i], high[j]) - np.maximum(low[i], low[j])
        most = np.maximum(common, 0.0).prod(axis=1)
        pairs = pairs[most > SHARE * np.minimum(area_mm2[i], area_mm2[j])]
    return pairs


def spans(points: FloatArray, first: Index) -> tuple[FloatArray, FloatArray]:
    """Return the least and greatest coordinates (n, 2) of each run of points, given where it begins."""
    return np.minimum.reduceat(points, first, axis=0), np.maximum.reduceat(points, first, axis=0)

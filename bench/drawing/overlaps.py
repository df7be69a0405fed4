"""Which tesserae lie on one another, by more than a share of the smaller.

Three sieves, so that a drawing where nothing overlaps costs little. Boxes: turned to many angles, two shapes
share no more than the least of what their boxes share. Lines: what two shapes share on a few level lines
tells roughly how much they share. Only what is left is measured exactly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import Grid, Index, chunks, spread_out
from bench.drawing.evenodd import shared_area
from bench.drawing.panel import FloatArray, IntArray
from bench.drawing.rings import Rings, next_point

SHARE = 0.05
_ANGLES = 24  # between 0° and 90°
_LINES = 24
_AT_ONCE = 200_000  # edges
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
    smaller = np.minimum(*area_mm2[pairs.T])
    pairs = pairs[roughly_shared(rings, tessera_ring, pairs) > SHARE / 2 * smaller]
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
    x, y = rings.points_mm.T
    for angle in np.arange(_ANGLES) * (np.pi / 2 / _ANGLES):
        i, j = pairs.T
        most = np.ones(len(pairs))
        for along in (x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)):
            low, high = spans(along, first)
            most *= np.maximum(np.minimum(high[i], high[j]) - np.maximum(low[i], low[j]), 0.0)
        pairs = pairs[most > SHARE * np.minimum(area_mm2[i], area_mm2[j])]
    return pairs


def roughly_shared(rings: Rings, tessera_ring: IntArray, pairs: Index) -> FloatArray:
    """Return what each pair of tesserae shares, from level lines evenly through what their boxes share. [mm²]

    pairs: (k, 2) indices of tesserae, whose rings begin at tessera_ring.
    """
    points = rings.start[tessera_ring]
    low, high = spans(rings.points_mm, points[:-1])
    below, above = np.maximum(*low[pairs.T, 1]), np.minimum(*high[pairs.T, 1])
    step = (above - below) / _LINES
    total = np.cumsum(np.diff(points)[pairs].sum(axis=1))
    found = np.zeros(len(pairs))
    for chunk in chunks(total, _AT_ONCE):
        line, x, second = _met(rings, points, pairs[chunk], below[chunk], step[chunk])
        order = np.lexsort((x, line))
        line, x, second = line[order], x[order], second[order]
        # every line meets each outline an even number of times, so counts need not start anew
        inside = (np.cumsum(second) % 2 == 1) & (np.cumsum(~second) % 2 == 1)
        both = inside[:-1] & (line[1:] == line[:-1])
        width = np.bincount(line[:-1][both] // _LINES, np.diff(x)[both], minlength=chunk.stop - chunk.start)
        found[chunk] = width * step[chunk]
    return found


def _met(
    rings: Rings, points: Index, pairs: Index, below: FloatArray, step: FloatArray
) -> tuple[Index, FloatArray, NDArray[np.bool_]]:
    """Return (line, x, of the second one?) wherever an outline of a pair meets one of the pair's lines."""
    entry, k = spread_out(np.diff(points)[pairs].ravel())
    pair, point = entry // 2, points[:-1][pairs.ravel()][entry] + k
    ends = rings.points_mm[point], rings.points_mm[next_point(rings.start)[point]]
    # line number m runs at below + (m + ½)·step; an edge meets those between its ends, the lower one included
    low, high = np.sort([(end[:, 1] - below[pair]) / step[pair] - 0.5 for end in ends], axis=0)
    first = np.clip(np.ceil(low), 0, _LINES).astype(np.int64)
    last = np.clip(np.ceil(high), 0, _LINES).astype(np.int64)
    edge, k = spread_out(last - first)
    y = below[pair[edge]] + (first[edge] + k + 0.5) * step[pair[edge]]
    one, other = ends[0][edge], ends[1][edge]
    x = one[:, 0] + (y - one[:, 1]) * (other[:, 0] - one[:, 0]) / (other[:, 1] - one[:, 1])
    return pair[edge] * _LINES + first[edge] + k, x, entry[edge] % 2 == 1


def spans(points: FloatArray, first: Index) -> tuple[FloatArray, FloatArray]:
    """Return the least and greatest coordinates of each run of points, given where it begins."""
    return np.minimum.reduceat(points, first, axis=0), np.maximum.reduceat(points, first, axis=0)

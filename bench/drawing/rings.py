"""Areas, centroids and holes of many outlines at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import spread_out
from bench.drawing.panel import FloatArray, IntArray

Counts = NDArray[np.int64]
_SAME_MM = 1e-7


@dataclass(frozen=True, eq=False)
class Rings:
    """Outlines laid end to end: ring k is points_mm[start[k]:start[k + 1]]."""

    points_mm: FloatArray
    start: Counts

    def __len__(self) -> int:
        return len(self.start) - 1

    def ring_of_point(self) -> Counts:
        return np.repeat(np.arange(len(self)), np.diff(self.start))

    def take(self, rings: Counts) -> Rings:
        """Return the given rings in the given order."""
        counts = np.diff(self.start)[rings]
        start = np.concatenate([[0], np.cumsum(counts)])
        places = np.arange(start[-1]) + np.repeat(self.start[:-1][rings] - start[:-1], counts)
        return Rings(self.points_mm[places], start)


def rings_of(rings: Rings, first: NDArray[np.integer], shapes: NDArray[np.integer]) -> tuple[Rings, IntArray]:
    """Return the rings of the given shapes in the given order, and where each shape's rings begin (k + 1,).

    first: where the rings of every shape begin, (shapes + 1,).
    """
    item, k = spread_out(np.diff(first)[shapes].astype(np.int64))
    start = np.concatenate([[0], np.cumsum(np.diff(first)[shapes])]).astype(np.int32)
    return rings.take(first[:-1][shapes][item] + k), start


def clean(rings: Rings) -> Rings:
    """Drop points that stand on the point before them, and the last one where it repeats the first."""
    points, start = rings.points_mm, rings.start
    if not len(points):
        return rings
    keep = np.abs(points - points[previous_point(start)]).max(axis=1) > _SAME_MM
    kept = np.concatenate([[0], np.cumsum(keep)])
    return Rings(points[keep], kept[start])


def moments(rings: Rings) -> tuple[FloatArray, FloatArray]:
    """Return signed area and first moment about the origin of each ring.

    area: (r,), positive where the outline turns from x to y (clockwise on a page whose y points down).
    [mm²]  moment: (r, 2). [mm³]  A = ½ Σ (x_k·y_k+1 − x_k+1·y_k); an empty ring has none of either.
    Computed about each ring's first point, so that a small piece far from the origin keeps its digits.
    """
    start = rings.start
    full = np.flatnonzero(np.diff(start) > 0)
    area, moment = np.zeros(len(rings)), np.zeros((len(rings), 2))
    if not len(full):
        return area, moment
    counts = np.diff(start)
    base = rings.points_mm[start[:-1][full]]
    here = rings.points_mm - np.repeat(base, counts[full], axis=0)
    after = here[next_point(start)]
    cross = here[:, 0] * after[:, 1] - here[:, 1] * after[:, 0]
    area[full] = np.add.reduceat(cross, start[:-1][full]) / 2
    first = np.add.reduceat((here + after) * cross[:, None], start[:-1][full], axis=0) / 6
    moment[full] = first + base * area[full][:, None]
    return area, moment


def next_point(start: Counts) -> Counts:
    """Return for each point the one that follows it on its ring."""
    after = np.arange(1, int(start[-1]) + 1)
    full = np.diff(start) > 0
    after[start[1:][full] - 1] = start[:-1][full]
    return after


def previous_point(start: Counts) -> Counts:
    """Return for each point the one before it on its ring."""
    before = np.arange(int(start[-1])) - 1
    full = np.diff(start) > 0
    before[start[:-1][full]] = start[1:][full] - 1
    return before


def holds(ring: FloatArray, points: FloatArray) -> NDArray[np.bool_]:
    """Tell for each point whether the ring goes around it (even-odd)."""
    x, y = points[:, :1], points[:, 1:]
    ax, ay = ring.T
    bx, by = np.roll(ring, -1, axis=0).T
    spans = (ay > y) != (by > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = ax + (y - ay) * (bx - ax) / (by - ay)
    crossings: Counts = (spans & (x < crossing)).sum(axis=1)
    odd: NDArray[np.bool_] = crossings % 2 == 1
    return odd


def nest(rings: Rings, owner: Counts) -> tuple[Rings, Counts]:
    """Order the rings of each owner by the even-odd rule: an outer ring, then its holes, and so on.

    Outer rings come out with positive area, holes with negative. Returns the rings and the depth of each:
    0 for an outermost one, 1 for a hole, 2 for an island in it. The owners must come sorted.
    """
    area, _ = moments(rings)
    depth = np.zeros(len(rings), np.int64)
    order = np.arange(len(rings))
    _, first, counts = np.unique(owner, return_index=True, return_counts=True)
    for start, count in zip(first[counts > 1], counts[counts > 1], strict=True):
        members = np.arange(start, start + count)
        depth[members], parent = _depths(rings, members, area[members])
        outer = np.where(depth[members] % 2 == 0, np.arange(count), parent)
        order[members] = members[np.lexsort((depth[members], outer))]
    turned = (area < 0) != (depth % 2 == 1)
    return turn(rings.take(order), turned[order]), depth[order]


def _depths(rings: Rings, members: Counts, area: FloatArray) -> tuple[Counts, Counts]:
    """Return how many of the other rings go around each ring, and the smallest of those (or itself)."""
    start = rings.start
    outlines = [rings.points_mm[start[k] : start[k + 1]] for k in members]
    probes = np.array([_just_inside(ring, turns) for ring, turns in zip(outlines, area, strict=True)])
    size = np.abs(area)
    depth = np.zeros(len(members), np.int64)
    parent = np.arange(len(members))
    for k in np.argsort(-size, kind="stable"):  # the smallest ring around comes last and stays
        low, high = outlines[k].min(axis=0), outlines[k].max(axis=0)
        near = np.flatnonzero(((probes >= low) & (probes <= high)).all(axis=1) & (size < size[k]))
        inside = near[holds(outlines[k], probes[near])]
        depth[inside] += 1
        parent[inside] = k
    return depth, parent


def _just_inside(ring: FloatArray, area: float) -> FloatArray:
    """Return a point a hair inside of the ring, beside the middle of its first edge."""
    way = ring[1] - ring[0]
    inward = np.array([-way[1], way[0]]) * (np.sign(area) / max(float(np.hypot(*way)), _SAME_MM))
    point: FloatArray = (ring[0] + ring[1]) / 2 + 10 * _SAME_MM * inward
    return point


def turn(rings: Rings, turned: NDArray[np.bool_]) -> Rings:
    """Reverse the order of the points of the rings that are to be turned."""
    counts = np.diff(rings.start)
    place = np.arange(len(rings.points_mm))
    mirror = np.repeat(rings.start[:-1] + rings.start[1:] - 1, counts) - place
    return Rings(rings.points_mm[np.where(np.repeat(turned, counts), mirror, place)], rings.start)

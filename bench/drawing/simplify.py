"""Many paths with fewer points, each kept within a distance and its area given back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import spread_out
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts, Rings

Bools = NDArray[np.bool_]

_ROUNDS = 2  # of giving area back: it grows with the square of the shift


@dataclass(frozen=True, eq=False)
class Paths:
    """Paths laid end to end as Rings are; a closed one ends on the point that it begins with."""

    points: FloatArray
    start: Counts
    closed: Bools


def kept_points(paths: Paths, which: Counts, tolerance: FloatArray) -> Counts:
    """Return which points of the given paths stay, so that none dropped lies farther off than `tolerance`.

    tolerance: one for each of `which`, in the unit of the points. Both ends stay; so do, on a closed path,
    the point farthest from its first and the farthest on either way there, so that it keeps an area.
    Douglas & Peucker, Cartographica 10 (1973) 112, all paths at once, level by level.
    """
    first, last = paths.start[which], paths.start[which + 1] - 1
    allowed, forced = tolerance, np.where(paths.closed[which], 2, 0)
    kept = [first, last]
    while len(first):
        long = last - first > 1
        first, last, allowed, forced = first[long], last[long], allowed[long], forced[long]
        if not len(first):
            break
        piece, k = spread_out(last - first - 1)
        place = first[piece] + 1 + k
        off2 = _off_piece2(paths.points, place, first, last)
        begins = np.concatenate([[0], np.cumsum(last - first - 1)])
        far = farthest(off2, begins)
        split = (off2[far] > allowed**2) | (forced > 0)
        middle = place[far][split]
        kept.append(middle)
        first, last = np.concatenate([first[split], middle]), np.concatenate([middle, last[split]])
        allowed, forced = np.tile(allowed[split], 2), np.tile(forced[split] - 1, 2)
    return np.unique(np.concatenate(kept))


def _off_piece2(points: FloatArray, place: Counts, first: Counts, last: Counts) -> FloatArray:
    """Return the square of how far each inner point is from its straight piece, ends included."""
    inner = last - first - 1
    (x, y), (x0, y0) = points.T[:, place], points[first].T
    way_x, way_y = (points[last] - points[first]).T
    long2 = way_x**2 + way_y**2
    part = 1 / np.where(long2 > 0, long2, 1.0)
    x -= np.repeat(x0, inner)
    y -= np.repeat(y0, inner)
    along = x * np.repeat(way_x * part, inner) + y * np.repeat(way_y * part, inner)
    np.clip(along, 0.0, 1.0, out=along)
    x -= along * np.repeat(way_x, inner)
    y -= along * np.repeat(way_y, inner)
    off2: FloatArray = x * x + y * y
    return off2


def farthest(value: FloatArray, start: Counts) -> Counts:
    """Return the place of the greatest value in each stretch; the first of equals."""
    most = np.maximum.reduceat(value, start[:-1])
    stretch = np.repeat(np.arange(len(start) - 1), np.diff(start))
    places = np.flatnonzero(value == most[stretch])[::-1]
    found = np.empty(len(start) - 1, np.int64)
    found[stretch[places]] = places
    return found


def twice_area(points: FloatArray, start: Counts) -> FloatArray:
    """Return Σ (x_k·y_k+1 − x_k+1·y_k) along each path, about its own first point."""
    here = points - np.repeat(points[start[:-1]], np.diff(start), axis=0)
    cross = np.zeros(len(points))
    cross[:-1] = here[:-1, 0] * here[1:, 1] - here[1:, 0] * here[:-1, 1]
    cross[start[1:] - 1] = 0.0
    return np.add.reduceat(cross, start[:-1])


def give_back(paths: Paths, area2: FloatArray, most: FloatArray) -> Rings:
    """Return the paths with their inner points moved sideways, all of a path by as much, to enclose `area2`.

    area2: (paths,) what twice_area should be. most: (paths,) how far points may move. A point moves across
    the line from its neighbour before to the one after, d: the area changes by ½ |d| for each unit.
    """
    points, start, closed = paths.points, paths.start, paths.closed
    path = np.repeat(np.arange(len(closed)), np.diff(start))
    before, after = np.arange(len(points)) - 1, np.arange(len(points)) + 1
    head, tail = start[:-1], start[1:] - 1
    before[head] = np.where(closed, tail - 1, head)
    after[tail] = np.where(closed, head + 1, tail)
    way = points[after] - points[before]
    long = np.hypot(*way.T)
    fixed = np.zeros(len(points), bool)
    fixed[head[~closed]] = fixed[tail[~closed]] = True
    long[fixed] = 0.0
    side = np.stack([way[:, 1], -way[:, 0]], axis=1) / np.where(long > 0, long, 1.0)[:, None]
    side[long == 0] = 0.0
    once = long.copy()
    once[tail] = 0.0
    grows = np.add.reduceat(once, head)
    shift = np.zeros(len(closed))
    moved = points
    for _ in range(_ROUNDS):
        lacks = (area2 - twice_area(moved, start)) / np.where(grows > 0, grows, np.inf)
        shift = np.clip(shift + lacks, -most, most)
        moved = points + side * shift[path][:, None]
    return Rings(moved, start)

"""A picture in which each pixel names its piece → the outlines of the pieces in mm.

The way: cracks between unlike pixels are strung to borders between two labels, each border is smoothed and
simplified once, and the outlines are put together of borders, so that two pieces that touch keep one and the
same line between them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import TooManyPairs, spread_out
from bench.drawing.cracks import STEP_X, STEP_Y, Cracks, borders, cracks_of, onward
from bench.drawing.crossings import crossing_shapes
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts, Rings
from bench.drawing.simplify import Paths, farthest, give_back, kept_points, twice_area
from bench.drawing.strings import Strings, strung

MOST_SHIFT_PX = 0.5  # of a border, to give back the area that simplifying took
_MOST_LOOKS = 8  # for outlines that cross themselves


def traced(
    labels: NDArray[np.int32],
    *,
    mm_per_px: float,
    tolerance_mm: float,
    group: NDArray[np.integer] | None = None,
    within_mm: float = 0.0,
) -> tuple[Rings, Counts]:
    """Return the outlines of the pieces of a label image, and the piece of each: label − 1, sorted.

    labels: (rows, columns), 0 for nothing. mm: the origin is the corner of pixel (0, 0), x right, y down.
    A border runs through the middles of the cracks between pixels, which takes the staircase away; none of
    these lies farther from the outline than tolerance_mm, plus half a pixel by which a border as a whole
    may move to enclose the area of its pixels again. Where that would make an outline cross itself it is
    followed more closely. group: of each label, that of 0 first; a border between two labels of one group
    may be off by within_mm instead. Corners where three labels meet stay where they are. Outer outlines have
    positive area, holes negative; a label of several parts has several, one that is nowhere none.
    """
    cracks = cracks_of(np.asarray(labels, np.int32))
    if not len(cracks.key):
        return Rings(np.empty((0, 2)), np.zeros(1, np.int64)), np.empty(0, np.int64)
    strings = _from_a_corner(cracks, borders(cracks))
    paths, area2 = _paths(cracks, strings)
    rounds = _rounds(cracks, strings)
    allowed = np.full(len(strings), tolerance_mm / mm_per_px)
    if group is not None:
        first = strings.order[strings.start[:-1]]
        allowed[group[cracks.left[first]] == group[cracks.right[first]]] = within_mm / mm_per_px
    tolerance, which = allowed.copy(), np.arange(len(strings))
    kept = np.empty(0, np.int64)
    for _ in range(_MOST_LOOKS):
        kept = np.union1d(kept, kept_points(paths, which, tolerance[which]))
        rings = rounds.rings(_thinned(paths, kept, area2, tolerance))
        which = _tangled(rings, rounds)
        which = which[tolerance[which] > 0]
        if not len(which):
            break
        tolerance[which] = np.where(tolerance[which] < allowed[which], 0.0, allowed[which] / 4)
    return Rings(rings.points_mm * mm_per_px, rings.start), rounds.owner - 1


def _middles(cracks: Cracks, of: Counts) -> FloatArray:
    heading = cracks.heading[of]
    return np.stack([cracks.x[of] + STEP_X[heading] / 2, cracks.y[of] + STEP_Y[heading] / 2], axis=1)


def _from_a_corner(cracks: Cracks, strings: Strings) -> Strings:
    """Return the strings, the closed ones beginning where they are farthest from their middle."""
    counts = np.diff(strings.start)
    string = strings.string_of_place()
    points = _middles(cracks, strings.order)
    centre = np.add.reduceat(points, strings.start[:-1]) / counts[:, None]
    first = farthest(((points - centre[string]) ** 2).sum(axis=1), strings.start)
    first = np.where(strings.closed, first - strings.start[:-1], 0)
    place = np.arange(len(strings.order)) - strings.start[:-1][string] + first[string]
    place = strings.start[:-1][string] + place % counts[string]
    return Strings(strings.order[place], strings.start, strings.closed)


def _paths(cracks: Cracks, strings: Strings) -> tuple[Paths, FloatArray]:
    """Return the borders through the middles of their cracks, and twice the area that the cracks enclose."""
    first, last = strings.order[strings.start[:-1]], strings.order[strings.start[1:] - 1]
    begins = np.stack([cracks.x[first], cracks.y[first]], axis=1).astype(float)
    ends = np.stack(cracks.end(last), axis=1).astype(float)
    middles, closed = _middles(cracks, strings.order), strings.closed[:, None]
    counts = np.diff(strings.start)
    # an open border has both its ends besides, a closed one its first middle again; corners make room alike
    more = np.where(strings.closed, 1, 2)
    start = np.concatenate([[0], np.cumsum(counts + more)])
    points = np.empty((int(start[-1]), 2))
    inner = np.ones(len(points), bool)
    inner[start[1:] - 1] = False
    inner[start[:-1][~strings.closed]] = False
    points[inner] = middles
    points[start[:-1][~strings.closed]] = begins[~strings.closed]
    points[start[1:] - 1] = np.where(closed, _middles(cracks, first), ends)

    corners = np.empty((len(middles) + len(counts), 2))
    corner_start = strings.start + np.arange(len(strings.start))
    own = np.ones(len(corners), bool)
    own[corner_start[1:] - 1] = False
    corners[own] = np.stack([cracks.x[strings.order], cracks.y[strings.order]], axis=1)
    corners[corner_start[1:] - 1] = ends
    return Paths(points, start, strings.closed), twice_area(corners, corner_start)


def _thinned(paths: Paths, kept: Counts, area2: FloatArray, tolerance: FloatArray) -> Rings:
    """Return the paths of the points that are kept, their area given back where they were simplified."""
    thin = Paths(paths.points[kept], np.searchsorted(kept, paths.start), paths.closed)
    return give_back(thin, area2, np.where(tolerance > 0, MOST_SHIFT_PX, 0.0))


@dataclass(frozen=True, eq=False)
class _Rounds:
    """Outlines as borders in their order: sides[start[k]:start[k + 1]], 2·path + 1 where it is run backward.

    owner: (r,) the label that each goes around, sorted.
    """

    sides: Counts
    start: Counts
    owner: Counts

    def rings(self, paths: Rings) -> Rings:
        """Return the outlines that the paths of all borders make."""
        path, back = self.sides // 2, self.sides % 2
        side, k = spread_out(np.diff(paths.start)[path] - 1)
        place = np.where(back[side], paths.start[path + 1][side] - 1 - k, paths.start[path][side] + k)
        total = np.concatenate([[0], np.cumsum(np.diff(paths.start)[path] - 1)])
        return Rings(paths.points_mm[place], total[self.start])


def _rounds(cracks: Cracks, strings: Strings) -> _Rounds:
    """Return the borders put together to outlines, each label's on its right."""
    first, last = strings.order[strings.start[:-1]], strings.order[strings.start[1:] - 1]
    keep = _sides(cracks.right[first].astype(np.int64), cracks.left[first].astype(np.int64))
    ends = cracks.end(last)
    x, y = _sides(ends[0], cracks.x[first]), _sides(ends[1], cracks.y[first])
    heading = _sides(cracks.heading[last], (cracks.heading[first] + 2) % 4)
    path_of_crack = np.empty(len(cracks.key), np.int64)
    path_of_crack[strings.order] = strings.string_of_place()
    sides = np.flatnonzero(keep > 0)
    opened = sides[~strings.closed[sides // 2]]
    after = np.arange(len(keep))
    crack = onward(cracks, x[opened], y[opened], heading[opened], keep[opened])
    after[opened] = 2 * path_of_crack[crack] + (cracks.right[crack] != keep[opened])
    place = np.full(len(keep), -1)
    place[sides] = np.arange(len(sides))
    found = strung(place[after[sides]])
    owner = keep[sides[found.order[found.start[:-1]]]]
    order = np.argsort(owner, kind="stable")
    ring, k = spread_out(np.diff(found.start)[order])
    start = np.concatenate([[0], np.cumsum(np.diff(found.start)[order])])
    return _Rounds(sides[found.order[found.start[:-1][order][ring] + k]], start, owner[order])


def _sides(forward: Counts, backward: Counts) -> Counts:
    return np.stack([forward, backward], axis=1).ravel()


def _tangled(rings: Rings, rounds: _Rounds) -> Counts:
    """Return the borders of pieces whose outlines cross or touch themselves, or enclose nothing."""
    label, piece = np.unique(rounds.owner, return_inverse=True)
    try:
        _, bad = crossing_shapes(rings, piece, len(label))
    except TooManyPairs:  # a picture of noise: kept as it is
        return np.empty(0, np.int64)
    bad[piece[np.diff(rings.start) < 3]] = True
    wrong = np.repeat(bad[piece], np.diff(rounds.start))
    return np.unique(rounds.sides[wrong] // 2)

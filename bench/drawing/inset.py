"""Outlines drawn in by half a joint: every edge moves inward by the same, what grows too short goes.

An outline is taken as the lines its edges lie on. Moved inward, neighbouring lines meet in the new corners;
an edge that would run backwards between its corners has shrunk away, and its line is left out (the event of
a straight skeleton: Aichholzer, Aurenhammer, Alberts & Gärtner, "A novel type of skeleton for polygons",
J. Univers. Comput. Sci. 1 (1995) 752).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bench.drawing.crossings import crossing_shapes
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts, Rings, clean, moments, next_point, previous_point

_PARALLEL = 0.02  # sine of the angle below which two lines meet nowhere useful
_ROUNDS = 60


def inset(rings: Rings, owner: Counts, by_mm: float) -> tuple[Rings, Counts]:
    """Return the outlines with every edge moved `by_mm` to the inside of its owner, and whose they are.

    rings: outer rings of positive area, holes of negative, as rings.nest gives them. owner: (r,), sorted.
    An outline narrower than 2·by_mm is gone. One that would cross itself is drawn in towards its centroid
    instead, by the area that the joint takes: A − P·by_mm, with the outline's length P.
    """
    rings = clean(rings)
    if by_mm <= 0:
        return rings, owner
    found = _moved(rings, by_mm)
    before_mm2, _ = moments(rings)
    after_mm2, _ = moments(found)
    alive = (np.diff(found.start) > 2) & (after_mm2 * before_mm2 > 0)
    crosses, _ = crossing_shapes(found, np.arange(len(found)), len(found))
    found = _scaled(found, np.flatnonzero(alive & crosses), rings, by_mm)
    alive &= np.isin(owner, owner[alive & (before_mm2 > 0)])  # no hole without the piece around it
    kept = np.flatnonzero(alive)
    return found.take(kept), owner[kept]


@dataclass(frozen=True, eq=False)
class _Lines:
    """The lines of each outline in order: a point on each, and the way it runs. start: as in Rings."""

    point: FloatArray  # (m, 2) [mm]
    way: FloatArray  # (m, 2), of length 1
    start: Counts

    def corners(self) -> FloatArray:
        """Return where each line meets the one before it, (m, 2); of two in line, half way between them."""
        before = previous_point(self.start)
        p, d = self.point[before], self.way[before]
        q, e = self.point, self.way
        sine = d[:, 0] * e[:, 1] - d[:, 1] * e[:, 0]
        along = ((q - p)[:, 0] * e[:, 1] - (q - p)[:, 1] * e[:, 0]) / np.where(
            np.abs(sine) > _PARALLEL, sine, np.inf
        )
        met: FloatArray = p + along[:, None] * d
        in_line = np.abs(sine) <= _PARALLEL
        between = q - ((q - p) * e).sum(axis=1)[:, None] * e / 2
        met[in_line] = between[in_line]
        return met

    def shrunk(self, corner: FloatArray) -> NDArray[np.bool_]:
        """Tell for each outline's worst line that runs backwards between its corners; one of an outline."""
        along = ((corner[next_point(self.start)] - corner) * self.way).sum(axis=1)
        full = np.flatnonzero(np.diff(self.start) > 0)
        least = np.full(len(self.start) - 1, np.inf)
        least[full] = np.minimum.reduceat(along, self.start[:-1][full])
        ring = np.repeat(np.arange(len(self.start) - 1), np.diff(self.start))
        worst = (along <= 0) & (along == least[ring])
        _, first = np.unique(ring[worst], return_index=True)
        out = np.zeros(len(along), bool)
        out[np.flatnonzero(worst)[first]] = True
        return out

    def without(self, gone: NDArray[np.bool_]) -> _Lines:
        """Return the lines without some; an outline of fewer than three is left without any."""
        ring = np.repeat(np.arange(len(self.start) - 1), np.diff(self.start))
        left = np.bincount(ring[~gone], minlength=len(self.start) - 1)
        keep = ~gone & (left[ring] > 2)
        counts = np.bincount(ring[keep], minlength=len(self.start) - 1)
        return _Lines(self.point[keep], self.way[keep], np.concatenate([[0], np.cumsum(counts)]))


def _moved(rings: Rings, by_mm: float) -> Rings:
    edge = rings.points_mm[next_point(rings.start)] - rings.points_mm
    way = edge / np.hypot(*edge.T)[:, None]
    inward = np.stack([-way[:, 1], way[:, 0]], axis=1)
    lines = _Lines(rings.points_mm + by_mm * inward, way, rings.start)
    corner = lines.corners()
    for _ in range(_ROUNDS):
        gone = lines.shrunk(corner)
        if not gone.any():
            break
        lines = lines.without(gone)
        corner = lines.corners()
    return Rings(corner, lines.start)


def _scaled(found: Rings, which: Counts, rings: Rings, by_mm: float) -> Rings:
    """Return the outlines, some of them as they were before, drawn in towards their centroid."""
    if not len(which):
        return found
    area, moment = moments(rings)
    outlines = [found.points_mm[a:b] for a, b in pairwise(found.start)]
    for k in which.tolist():
        ring = rings.points_mm[rings.start[k] : rings.start[k + 1]]
        length = float(np.hypot(*(np.roll(ring, -1, axis=0) - ring).T).sum())
        left = max(area[k] - by_mm * length, 0.2 * area[k])  # of a hole both are negative, and it grows
        middle = moment[k] / area[k]
        outlines[k] = middle + (ring - middle) * np.sqrt(left / area[k])
    start = np.concatenate([[0], np.cumsum([len(ring) for ring in outlines])])
    return Rings(np.concatenate(outlines), start)

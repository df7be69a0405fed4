"""Which tesserae are neighbours: they face each other with nothing between, and how long.

Two tesserae share a joint where, from the outline of the one, straight out, the first glass met is the
other, no farther than max(2 mm, 0.3 × piece), `piece` being the square root of the smaller area, and the
two outlines run within 60° of each other. What is met first is exact: each straight edge looks at every
edge opposite, and the nearest wins, stretch by stretch. A joint is at least 1 mm long, the mean of what
either side sees of the other, so that tesserae which touch at a corner have none. Outlines that coincide
face each other across a joint of no width; tesserae that overlap a little, likewise.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import Grid, Index, spread_out
from bench.drawing.flatten import Rings
from bench.drawing.panel import FloatArray, IntArray, Joints
from bench.drawing.rings import nest, next_point

REACH_MM = 2.0
REACH_OF_PIECE = 0.3
LEAST_LENGTH_MM = 1.0
FACING = -0.5  # cosine between outward normals: 120° or more apart
_SINK_OF_PIECE = 0.2  # how deep neighbours may overlap, at most 1 mm, and still face each other
_EPS_MM = 1e-6
_EDGES_AT_ONCE = 60_000


@dataclass(frozen=True, eq=False)
class Edges:
    """Straight pieces of outline with the glass on their left seen along x → y. All (m, 2) or (m,)."""

    start: FloatArray
    along: FloatArray  # unit vector
    out: FloatArray  # unit vector away from the glass
    length: FloatArray
    owner: Index

    @property
    def end(self) -> FloatArray:
        return self.start + self.along * self.length[:, None]


@dataclass(frozen=True, eq=False)
class Views:
    """Stretches of an edge that see an edge opposite: from s0 to s1 along it, at distance h0 to h1."""

    edge: Index
    other: Index
    s0: FloatArray
    s1: FloatArray
    h0: FloatArray
    slope: FloatArray

    def at(self, view: Index, s: FloatArray) -> FloatArray:
        return self.h0[view] + self.slope[view] * (s - self.s0[view])


def joints_of(
    points_mm: FloatArray, ring_start: IntArray, tessera_ring: IntArray, area_mm2: FloatArray
) -> Joints:
    """Return the joints of n tesserae, given as the rings of a Panel.

    points_mm: (p, 2), ring_start: (r + 1,), tessera_ring: (n + 1,), area_mm2: (n,). Either direction of a
    ring will do. A single tessera has no joints. Raises boxes.TooManyPairs where far too many lie on top
    of one another.
    """
    pair: list[NDArray[np.int64]] = [np.empty((0, 2), np.int64)]
    length: list[FloatArray] = [np.empty(0)]
    gap: list[FloatArray] = [np.empty(0)]
    edges = _edges(points_mm, np.asarray(ring_start, np.int64), np.asarray(tessera_ring, np.int64))
    if len(edges.owner):
        piece = np.sqrt(np.maximum(area_mm2, 0.0))
        grid = Grid(np.minimum(edges.start, edges.end), np.maximum(edges.start, edges.end))
        for first in range(0, len(edges.owner), _EDGES_AT_ONCE):
            some = np.arange(first, min(first + _EDGES_AT_ONCE, len(edges.owner)))
            for a, b, seen, distance in [_seen(edges, _views(edges, some, grid, piece), piece)]:
                pair.append(np.sort(np.stack([a, b], axis=1), axis=1))
                length.append(seen)
                gap.append(distance * seen)
    return _summed(np.concatenate(pair), np.concatenate(length), np.concatenate(gap), len(area_mm2))


def _edges(points: FloatArray, ring_start: Index, tessera_ring: Index) -> Edges:
    owner = np.repeat(np.arange(len(tessera_ring) - 1), np.diff(tessera_ring))
    rings, _ = nest(Rings(np.asarray(points, float), ring_start), owner)
    after = next_point(rings.start)
    start, way = rings.points_mm, rings.points_mm[after] - rings.points_mm
    length = np.hypot(*way.T)
    whose = owner[rings.ring_of_point()]
    real = length > _EPS_MM
    start, way, length, whose = start[real], way[real], length[real], whose[real]
    along = way / length[:, None]
    most = max(2 * float(length.mean()), REACH_MM) if len(length) else REACH_MM
    cuts = np.ceil(length / most).astype(np.int64)
    edge, k = spread_out(cuts)
    part = length[edge] / cuts[edge]
    out = np.stack([along[:, 1], -along[:, 0]], axis=1)
    return Edges(start[edge] + along[edge] * (k * part)[:, None], along[edge], out[edge], part, whose[edge])


def _reach(piece: FloatArray) -> FloatArray:
    return np.maximum(REACH_MM, REACH_OF_PIECE * piece)


def _views(edges: Edges, some: Index, grid: Grid, piece: FloatArray) -> Views:
    """Return all that the given edges see, near or behind something else."""
    own = piece[edges.owner[some]]
    out = edges.out[some]
    corners = [
        end + out * far[:, None]
        for end in (edges.start[some], edges.end[some])
        for far in (_reach(own), -_sink(own))
    ]
    found = list(grid.pairs(np.min(corners, axis=0), np.max(corners, axis=0)))
    e = some[np.concatenate([a for a, _ in found])]
    f = np.concatenate([b for _, b in found])
    opposite = (edges.out[e] * edges.out[f]).sum(axis=1) < -_EPS_MM
    e, f = e[opposite], f[opposite]
    return _clipped(edges, e, f, piece)


def _sink(piece: FloatArray) -> FloatArray:
    return np.minimum(1.0, _SINK_OF_PIECE * piece)


def _clipped(edges: Edges, e: Index, f: Index, piece: FloatArray) -> Views:
    """Keep of edge f what stands straight out from edge e, in front of it and within reach."""
    to_end, to_start = edges.end[f] - edges.start[e], edges.start[f] - edges.start[e]
    s0, s1 = (to_end * edges.along[e]).sum(axis=1), (to_start * edges.along[e]).sum(axis=1)
    h0, h1 = (to_end * edges.out[e]).sum(axis=1), (to_start * edges.out[e]).sum(axis=1)
    slope = (h1 - h0) / np.maximum(s1 - s0, 1e-12)
    own, other = edges.owner[e], edges.owner[f]
    nearest = np.where(own == other, _EPS_MM, -_sink(np.minimum(piece[own], piece[other])))
    low, high = _between(h0, slope, nearest, _reach(piece[own]))
    start = np.maximum(0.0, s0 + np.maximum(low, 0.0))
    end = np.minimum(np.minimum(edges.length[e], s1), s0 + high)
    real = (end - start > _EPS_MM) & (s1 - s0 > _EPS_MM)
    e, f, start, end, h0, s0, slope = (part[real] for part in (e, f, start, end, h0, s0, slope))
    return Views(e, f, start, end, h0 + slope * (start - s0), slope)


def _between(
    h0: FloatArray, slope: FloatArray, nearest: FloatArray, farthest: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return from where to where, along a line of height h0 + slope·s, it stays between the two heights."""
    level = np.abs(slope) < 1e-9
    steep = np.where(level, 1.0, slope)
    one, two = (nearest - h0) / steep, (farthest - h0) / steep
    inside = (h0 >= nearest) & (h0 <= farthest)
    low = np.where(level, np.where(inside, -np.inf, np.inf), np.minimum(one, two))
    high = np.where(level, np.where(inside, np.inf, -np.inf), np.maximum(one, two))
    return low, high


def _seen(edges: Edges, views: Views, piece: FloatArray) -> tuple[Index, Index, FloatArray, FloatArray]:
    """Return (tessera, tessera, length, distance) of every stretch where the nearest thing faces back."""
    own, other = edges.owner[views.edge], edges.owner[views.other]
    reach = _reach(np.minimum(piece[own], piece[other]))
    stretch_edge, a, b = _stretches(views, reach)
    # each stretch against each view of the same edge
    order = np.argsort(views.edge, kind="stable")
    edge_sorted = views.edge[order]
    start = np.searchsorted(edge_sorted, stretch_edge, side="left")
    counts = np.searchsorted(edge_sorted, stretch_edge, side="right") - start
    stretch, k = spread_out(counts)
    view = order[start[stretch] + k]
    middle = ((a + b) / 2)[stretch]
    height = np.where((views.s0[view] <= middle) & (middle <= views.s1[view]), views.at(view, middle), np.inf)
    best = np.lexsort((view, height, stretch))[np.cumsum(counts) - counts]
    view, height = view[best], height[best]
    i, j = own[view], other[view]
    opposed = (edges.out[views.edge[view]] * edges.out[views.other[view]]).sum(axis=1) <= FACING
    good = np.isfinite(height) & (i != j) & (height <= reach[view]) & opposed
    return i[good], j[good], (b - a)[good], np.maximum(height, 0.0)[good]


def _stretches(views: Views, reach: FloatArray) -> tuple[Index, FloatArray, FloatArray]:
    """Cut each edge wherever a view begins, ends or goes out of the pair's reach."""
    with np.errstate(divide="ignore", invalid="ignore"):
        leaves = views.s0 + (reach - views.h0) / views.slope
    inner = (leaves > views.s0) & (leaves < views.s1)
    edge = np.concatenate([views.edge, views.edge, views.edge[inner]])
    s = np.concatenate([views.s0, views.s1, leaves[inner]])
    order = np.lexsort((s, edge))
    edge, s = edge[order], s[order]
    real = (edge[1:] == edge[:-1]) & (s[1:] - s[:-1] > _EPS_MM)
    return edge[:-1][real], s[:-1][real], s[1:][real]


def _summed(pair: Index, length: FloatArray, gap: FloatArray, n: int) -> Joints:
    """Add up the stretches of each pair; both sides were counted, so each counts half."""
    key, place = np.unique(pair[:, 0] * n + pair[:, 1], return_inverse=True)
    total = np.bincount(place, length, minlength=len(key))
    weighted = np.bincount(place, gap, minlength=len(key))
    keep = total / 2 >= LEAST_LENGTH_MM - _EPS_MM
    key, total, weighted = key[keep], total[keep], weighted[keep]
    found = np.stack([key // n, key % n], axis=1).astype(np.int32) if n else np.empty((0, 2), np.int32)
    return Joints(found, total / 2, weighted / np.maximum(total, 1e-12))

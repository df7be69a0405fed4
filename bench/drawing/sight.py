"""What each straight piece of an outline sees, looking straight out from the glass.

Every edge looks at all edges opposite that stand in front of it, and on each stretch the nearest hides
what is behind it. That is exact; nothing is sampled.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import Grid, Index, spread_out
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Rings, next_point

Bools = NDArray[np.bool_]

REACH_MM = 2.0
REACH_OF_PIECE = 0.3
FACING = -0.5  # cosine between outward normals: they run within 60° of each other
SINK_OF_PIECE = 0.2  # how deep neighbours may overlap, at most 1 mm, and still face each other
EPS_MM = 1e-6


@dataclass(frozen=True, eq=False)
class Edges:
    """Straight pieces of outline: vectors (m, 2), lengths and owners (m,)."""

    start: FloatArray
    end: FloatArray
    along: FloatArray  # unit vector
    out: FloatArray  # unit vector away from the glass
    length: FloatArray
    owner: Index  # the tessera


@dataclass(frozen=True, eq=False)
class Views:
    """Stretches of edges that see an edge opposite: from s0 to s1 along it, h0 away at s0."""

    edge: Index
    other: Index
    s0: FloatArray
    s1: FloatArray
    h0: FloatArray
    slope: FloatArray

    def at(self, view: Index, s: FloatArray) -> FloatArray:
        """Return how far away what is seen stands at s. [mm]"""
        return self.h0[view] + self.slope[view] * (s - self.s0[view])


@dataclass(frozen=True, eq=False)
class Stretches:
    """Stretches on which one tessera's outline faces another tessera, with nothing between."""

    tessera: Index
    other: Index
    length_mm: FloatArray
    gap_mm: FloatArray


def reach_mm(piece_mm: FloatArray) -> FloatArray:
    """Return how far a piece of this size sees another one that is no smaller."""
    return np.maximum(REACH_MM, REACH_OF_PIECE * piece_mm)


def _sink_mm(piece_mm: FloatArray) -> FloatArray:
    return np.minimum(1.0, SINK_OF_PIECE * piece_mm)


def outline_edges(rings: Rings, owner: Index) -> Edges:
    """Return the edges of rings that turn from x to y around glass, owner: (r,) whose each ring is.

    Long edges are cut, so that all have about the same length and a grid of them stays lean.
    """
    after = next_point(rings.start)
    start, way = rings.points_mm, rings.points_mm[after] - rings.points_mm
    length = np.hypot(*way.T)
    whose = owner[rings.ring_of_point()]
    real = length > EPS_MM
    start, way, length, whose = start[real], way[real], length[real], whose[real]
    along = way / length[:, None]
    longest = max(2 * float(length.mean()), REACH_MM) if len(length) else REACH_MM
    cuts = np.ceil(length / longest).astype(np.int64)
    edge, k = spread_out(cuts)
    part, along, whose = length[edge] / cuts[edge], along[edge], whose[edge]
    begin = start[edge] + along * (k * part)[:, None]
    out = np.stack([along[:, 1], -along[:, 0]], axis=1)
    return Edges(begin, begin + along * part[:, None], along, out, part, whose)


def facing(edges: Edges, some: Index, grid: Grid, piece_mm: FloatArray) -> Stretches:
    """Return where the edges `some` face another tessera; `grid` holds the boxes of all edges."""
    views = _views(edges, some, grid, piece_mm)
    own, other = edges.owner[views.edge], edges.owner[views.other]
    reach = reach_mm(np.minimum(piece_mm[own], piece_mm[other]))
    edge, begin, end = _cut(views, reach)
    view, height = _nearest(views, own == other, edge, (begin + end) / 2)
    opposed = _dot(edges.out[views.edge[view]], edges.out[views.other[view]]) <= FACING
    good = np.isfinite(height) & (own[view] != other[view]) & (height <= reach[view]) & opposed
    length, gap = (end - begin)[good], np.maximum(height[good], 0.0)
    return Stretches(own[view[good]], other[view[good]], length, gap)


def _dot(a: FloatArray, b: FloatArray) -> FloatArray:
    product: FloatArray = a[:, 0] * b[:, 0] + a[:, 1] * b[:, 1]
    return product


def _views(edges: Edges, some: Index, grid: Grid, piece_mm: FloatArray) -> Views:
    """Return all that the given edges see, even behind something else."""
    own = piece_mm[edges.owner[some]]
    corners = [
        end + edges.out[some] * far[:, None]
        for end in (edges.start[some], edges.end[some])
        for far in (reach_mm(own), -_sink_mm(own))
    ]
    found = list(grid.pairs(np.min(corners, axis=0), np.max(corners, axis=0)))
    e = some[np.concatenate([a for a, _ in found])]
    f = np.concatenate([b for _, b in found])
    opposite = _dot(edges.out[e], edges.out[f]) < -EPS_MM
    return _in_front(edges, e[opposite], f[opposite], piece_mm)


def _in_front(edges: Edges, e: Index, f: Index, piece_mm: FloatArray) -> Views:
    """Keep of edge f what stands straight out from edge e, in front of it and within reach."""
    origin, along, out = edges.start[e], edges.along[e], edges.out[e]
    to_end, to_start = edges.end[f] - origin, edges.start[f] - origin
    s0, s1 = _dot(to_end, along), _dot(to_start, along)  # what faces e runs the other way
    h0, h1 = _dot(to_end, out), _dot(to_start, out)
    slope = (h1 - h0) / np.maximum(s1 - s0, 1e-12)
    own, other = edges.owner[e], edges.owner[f]
    nearest = -_sink_mm(np.minimum(piece_mm[own], piece_mm[other]))
    low, high = _between(h0, slope, nearest, reach_mm(piece_mm[own]))
    begin = np.maximum(0.0, s0 + np.maximum(low, 0.0))
    end = np.minimum(np.minimum(edges.length[e], s1), s0 + high)
    real = (end - begin > EPS_MM) & (s1 - s0 > EPS_MM)
    begin, end, s0, h0, slope = begin[real], end[real], s0[real], h0[real], slope[real]
    return Views(e[real], f[real], begin, end, h0 + slope * (begin - s0), slope)


def _between(
    h0: FloatArray, slope: FloatArray, nearest: FloatArray, farthest: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return from where to where a line of height h0 + slope·s runs between the two heights."""
    level = np.abs(slope) < 1e-9
    steep = np.where(level, 1.0, slope)
    one, two = (nearest - h0) / steep, (farthest - h0) / steep
    inside = (h0 >= nearest) & (h0 <= farthest)
    low = np.where(level, np.where(inside, -np.inf, np.inf), np.minimum(one, two))
    high = np.where(level, np.where(inside, np.inf, -np.inf), np.maximum(one, two))
    return low, high


def _cut(views: Views, reach: FloatArray) -> tuple[Index, FloatArray, FloatArray]:
    """Cut each edge wherever a view begins, ends or goes out of the pair's reach."""
    with np.errstate(divide="ignore", invalid="ignore"):
        leaves = views.s0 + (reach - views.h0) / views.slope
    inner = (leaves > views.s0) & (leaves < views.s1)
    edge = np.concatenate([views.edge, views.edge, views.edge[inner]])
    s = np.concatenate([views.s0, views.s1, leaves[inner]])
    order = np.lexsort((s, edge))
    edge, s = edge[order], s[order]
    real = (edge[1:] == edge[:-1]) & (s[1:] - s[:-1] > EPS_MM)
    return edge[:-1][real], s[:-1][real], s[1:][real]


def _nearest(views: Views, own: Bools, edge: Index, s: FloatArray) -> tuple[Index, FloatArray]:
    """Return the nearest view at each place s of an edge, and its distance; infinite where there is none.

    own: (views,) whether it is of the same tessera. What stands behind the edge overlaps the tessera and
    comes first, but only as deep as the tessera's own far side.
    """
    order = np.argsort(views.edge, kind="stable")
    ordered = views.edge[order]
    first = np.searchsorted(ordered, edge, side="left")
    counts = np.searchsorted(ordered, edge, side="right") - first
    place, k = spread_out(counts)
    view = order[first[place] + k]
    at, mine = s[place], own[view]
    height = np.where((views.s0[view] <= at) & (at <= views.s1[view]), views.at(view, at), np.inf)
    start = np.cumsum(counts) - counts
    far_side = np.where(mine & (height < 0), height, -np.inf)
    if len(start):
        far_side = np.maximum.reduceat(far_side, start)[place]
    height = np.where((height <= far_side + EPS_MM) | (mine & (height <= EPS_MM)), np.inf, height)
    best = np.lexsort((view, height, place))[start]
    return view[best], height[best]

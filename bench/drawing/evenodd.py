"""Exact areas under the even-odd rule: of an outline that crosses itself, and of what two shapes share.

The plane is cut into level slabs at every corner and crossing; inside a slab every edge is straight and
none meet, so that its middle line tells all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from bench.drawing.boxes import Grid, Index
from bench.drawing.panel import FloatArray

_MOST_SLABS = 4000  # beyond that the slabs are strips of equal height, and the area is an estimate
_MOST_ROUND = 1000  # edges of which each is tried against each
_AT_ONCE = 2_000_000


def edges_of(rings: Sequence[FloatArray]) -> FloatArray:
    """Return the edges of closed rings as (m, 4): x and y of both ends."""
    return np.concatenate([np.concatenate([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings])


def measure(rings: Sequence[FloatArray]) -> tuple[float, FloatArray]:
    """Return area and first moment (2,) of what the rings enclose an odd number of times. [mm², mm³]"""
    edges = edges_of(rings)
    origin = edges[:, :2].mean(axis=0)
    edges = edges - np.tile(origin, 2)
    area, moment = 0.0, np.zeros(2)
    for y, height, x, slope in _slabs(edges, _breaks(edges)):
        order = np.argsort(x, axis=1)
        x, slope = np.take_along_axis(x, order, axis=1), np.take_along_axis(slope, order, axis=1)
        # inside from the 1st edge to the 2nd, from the 3rd to the 4th …
        pairs = x.shape[1] // 2 * 2
        real = np.isfinite(x[:, 1:pairs:2])
        left, right = np.where(real, x[:, 0:pairs:2], 0), np.where(real, x[:, 1:pairs:2], 0)
        lean_left, lean_right = (np.where(real, slope[:, k:pairs:2], 0) for k in (0, 1))
        area += float(((right - left) * height).sum())
        square = (lean_right**2 - lean_left**2) * height**2 / 12
        moment[0] += float(((right**2 - left**2 + square) / 2 * height).sum())
        moment[1] += float((y * (right - left) * height + (lean_right - lean_left) * height**3 / 12).sum())
    return area, moment + origin * area


def shared_area(one: Sequence[FloatArray], other: Sequence[FloatArray]) -> float:
    """Return the area that lies inside of both shapes, each given by its rings. [mm²]"""
    a, b = edges_of(one), edges_of(other)
    edges, second = np.concatenate([a, b]), np.arange(len(a) + len(b)) >= len(a)
    below, above = np.minimum(edges[:, 1], edges[:, 3]), np.maximum(edges[:, 1], edges[:, 3])
    low, high = max(below[~second].min(), below[second].min()), min(above[~second].max(), above[second].max())
    level = (below < high) & (above > low)
    edges, second = edges[level], second[level]
    breaks = _breaks(edges)
    breaks = np.unique(np.concatenate([[low, high], breaks[(breaks > low) & (breaks < high)]]))
    area = 0.0
    for _, height, x, _slope in _slabs(edges, breaks) if high > low else ():
        order = np.argsort(x, axis=1)
        x = np.take_along_axis(x, order, axis=1)
        inside = (np.cumsum(second[order], axis=1) % 2 == 1) & (np.cumsum(~second[order], axis=1) % 2 == 1)
        both = inside[:, :-1] & np.isfinite(x[:, 1:])
        width = np.where(both, x[:, 1:], 0.0) - np.where(both, x[:, :-1], 0.0)
        area += float((width * height).sum())
    return area


def _breaks(edges: FloatArray) -> FloatArray:
    """Return the heights at which edges begin, end or cross, in order."""
    found = np.unique(edges[:, 1::2])
    for i, j in _pairs(edges):
        if len(found) > _MOST_SLABS:
            break  # where they lie no longer matters; no crossing is beyond the ends
        found = np.unique(np.concatenate([found, _crossing_heights(edges, i, j)]))
    return found if len(found) <= _MOST_SLABS else np.linspace(found[0], found[-1], _MOST_SLABS)


def _pairs(edges: FloatArray) -> Iterator[tuple[Index, Index]]:
    """Yield pairs of edges that may cross, each pair once, some at a time."""
    if len(edges) <= _MOST_ROUND:
        i, j = np.triu_indices(len(edges), 1)
        yield i, j
        return
    low, high = np.minimum(edges[:, :2], edges[:, 2:]), np.maximum(edges[:, :2], edges[:, 2:])
    for i, j in Grid(low, high).pairs(low, high):
        yield i[i < j], j[i < j]


def _crossing_heights(edges: FloatArray, i: Index, j: Index) -> FloatArray:
    p, r = edges[i, :2], edges[i, 2:] - edges[i, :2]
    q, s = edges[j, :2], edges[j, 2:] - edges[j, :2]
    across = r[:, 0] * s[:, 1] - r[:, 1] * s[:, 0]
    way = q - p
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):  # edges all but parallel
        t = (way[:, 0] * s[:, 1] - way[:, 1] * s[:, 0]) / across
        u = (way[:, 0] * r[:, 1] - way[:, 1] * r[:, 0]) / across
    meet = (t >= 0) & (t <= 1) & (u >= 0) & (u <= 1)
    heights: FloatArray = p[meet, 1] + t[meet] * r[meet, 1]
    return heights


def _slabs(
    edges: FloatArray, breaks: FloatArray
) -> Iterator[tuple[FloatArray, FloatArray, FloatArray, FloatArray]]:
    """Yield (middle (k, 1), height (k, 1), x (k, m), dx/dy (k, m)); x is inf where an edge does not pass."""
    below, above = np.minimum(edges[:, 1], edges[:, 3]), np.maximum(edges[:, 1], edges[:, 3])
    with np.errstate(divide="ignore", invalid="ignore"):
        lean = (edges[:, 2] - edges[:, 0]) / (edges[:, 3] - edges[:, 1])
    lean = np.where(np.isfinite(lean), lean, 0.0)  # a level edge passes through no slab
    step = max(1, _AT_ONCE // len(edges))
    for first in range(0, len(breaks) - 1, step):
        some = breaks[first : first + step + 1]
        middle, height = ((some[1:] + some[:-1]) / 2)[:, None], np.diff(some)[:, None]
        passes = (below < middle) & (middle < above)
        x = np.where(passes, edges[:, 0] + (middle - edges[:, 1]) * lean, np.inf)
        yield middle, height, x, np.where(passes, lean, 0.0)

"""Which tesserae are neighbours: they face each other with nothing between, and how long.

Two tesserae share a joint where, from the outline of the one, straight out, the first glass met is the
other, no farther than max(2 mm, 0.3 × piece), `piece` being the square root of the smaller area, and the
two outlines run within 60° of each other. A joint is at least 1 mm long, the mean of what either side
sees of the other, so that tesserae which touch at a corner have none. Outlines that coincide face each
other across a joint of no width; so do tesserae that overlap a little.
"""

from __future__ import annotations

import numpy as np

from bench.drawing.boxes import Grid, Index
from bench.drawing.panel import FloatArray, IntArray, Joints
from bench.drawing.rings import Rings, nest
from bench.drawing.sight import EPS_MM, Stretches, facing, outline_edges

LEAST_LENGTH_MM = 1.0
_EDGES_AT_ONCE = 60_000


def joints_of(
    points_mm: FloatArray, ring_start: IntArray, tessera_ring: IntArray, area_mm2: FloatArray
) -> Joints:
    """Return the joints of n tesserae, given as the rings of a Panel.

    points_mm: (p, 2), ring_start: (r + 1,), tessera_ring: (n + 1,), area_mm2: (n,). Either direction of a
    ring will do. A single tessera has no joints. Raises boxes.TooManyPairs where far too many lie on top
    of one another.
    """
    owner: Index = np.repeat(np.arange(len(area_mm2)), np.diff(tessera_ring))
    rings, _ = nest(Rings(np.asarray(points_mm, float), np.asarray(ring_start, np.int64)), owner)
    edges = outline_edges(rings, owner)
    if not len(edges.owner):
        return _summed([], len(area_mm2))
    grid = Grid(np.minimum(edges.start, edges.end), np.maximum(edges.start, edges.end))
    piece_mm = np.sqrt(np.maximum(area_mm2, 0.0))
    starts = range(0, len(edges.owner), _EDGES_AT_ONCE)
    some = (np.arange(first, min(first + _EDGES_AT_ONCE, len(edges.owner))) for first in starts)
    return _summed([facing(edges, chosen, grid, piece_mm) for chosen in some], len(area_mm2))


def _summed(found: list[Stretches], n: int) -> Joints:
    """Add up the stretches of each pair; both sides see them, so that each counts half."""
    if not found or not n:
        return Joints(np.empty((0, 2), np.int32), np.empty(0), np.empty(0))
    one, other = (np.concatenate([getattr(s, key) for s in found]) for key in ("tessera", "other"))
    length = np.concatenate([s.length_mm for s in found])
    gap = np.concatenate([s.gap_mm * s.length_mm for s in found])
    key, place = np.unique(np.minimum(one, other) * n + np.maximum(one, other), return_inverse=True)
    total = np.bincount(place, length, minlength=len(key))
    across = np.bincount(place, gap, minlength=len(key)) / np.maximum(total, EPS_MM)
    keep = total / 2 >= LEAST_LENGTH_MM - EPS_MM
    pair = np.stack([key[keep] // n, key[keep] % n], axis=1).astype(np.int32)
    return Joints(pair, total[keep] / 2, across[keep])

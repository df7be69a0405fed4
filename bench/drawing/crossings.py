"""Which shapes have outlines that cross themselves, or cross each other within one shape."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import Grid, Index
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Rings, moments, next_point

_EPS_MM = 1e-6

Bools = NDArray[np.bool_]


def crossing_shapes(rings: Rings, owner: Index, shapes: int) -> tuple[Bools, Bools]:
    """Return for each shape whether its outlines cross, and whether they so much as touch.

    owner: (r,) whose each ring is. Touching is no crossing, but then areas cannot just be added up. Outlines
    that are all seen from their middle, as nearly all are, are let through at once. Raises
    boxes.TooManyPairs.
    """
    crosses, touches = np.zeros((2, shapes), bool)
    suspect = np.bincount(owner, minlength=shapes) > 1
    suspect[owner[~star_shaped(rings)]] = True
    points = np.flatnonzero(suspect[owner[rings.ring_of_point()]])
    if not len(points):
        return crosses, touches
    corners = _corners(rings, points)
    after = next_point(rings.start)[points]
    shape = owner[rings.ring_of_point()[points]]
    low = np.minimum(corners.here, corners.after) - _EPS_MM
    high = np.maximum(corners.here, corners.after) + _EPS_MM
    for i, j in Grid(low, high).pairs(low, high):
        same = (shape[i] == shape[j]) & (i != j) & (after[j] != points[i])
        same &= ~crosses[shape[i]]  # known already: one outline may cross itself millions of times
        i, j = i[same], j[same]
        cross = _edges_cross(corners, i, j) | _strands_cross(corners, i, j)
        crosses[shape[i[cross]]] = True
        touches[shape[i[_touches(corners, i, j)]]] = True
    return crosses, touches | crosses


def star_shaped(rings: Rings) -> Bools:
    """Return for each ring whether all of it is seen from its centroid; such a ring cannot cross itself."""
    area, moment = moments(rings)
    real = np.abs(area) > _EPS_MM**2
    centre = moment / np.where(real, area, 1.0)[:, None]
    spoke = rings.points_mm - np.repeat(centre, np.diff(rings.start), axis=0)
    after = spoke[next_point(rings.start)]
    turn = np.arctan2(_cross(spoke, after), (spoke * after).sum(axis=1))
    turn *= np.sign(area)[rings.ring_of_point()]
    first = rings.start[:-1][np.diff(rings.start) > 0]
    out = np.ones(len(rings), bool)
    forward, once = np.minimum.reduceat(turn, first) > 0, np.add.reduceat(turn, first) < 3 * np.pi
    out[np.diff(rings.start) > 0] = forward & once
    return out & real


@dataclass(frozen=True, eq=False)
class _Corners:
    """Points of outlines, each with the one before and the one after it; edge k runs here → after."""

    before: FloatArray
    here: FloatArray
    after: FloatArray


def _corners(rings: Rings, points: Index) -> _Corners:
    after = next_point(rings.start)
    before = np.empty_like(after)
    before[after] = np.arange(len(after))
    return _Corners(*(rings.points_mm[k] for k in (before[points], points, after[points])))


def _cross(a: FloatArray, b: FloatArray) -> FloatArray:
    product: FloatArray = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return product


def _beside(point: FloatArray, start: FloatArray, end: FloatArray) -> FloatArray:
    """Return how far a point stands to the left of a line; 0 within the tolerance. [mm]"""
    way = end - start
    off = _cross(way, point - start) / np.maximum(np.hypot(*way.T), _EPS_MM)
    return np.where(np.abs(off) > _EPS_MM, off, 0.0)


def _edges_cross(corners: _Corners, i: Index, j: Index) -> Bools:
    """Tell whether edges i and j cut through one another somewhere between their ends."""
    a, b, c, d = corners.here[i], corners.after[i], corners.here[j], corners.after[j]
    crossed: Bools = (_beside(a, c, d) * _beside(b, c, d) < 0) & (_beside(c, a, b) * _beside(d, a, b) < 0)
    return crossed


def _along(corners: _Corners, i: Index, j: Index) -> tuple[FloatArray, FloatArray]:
    """Return how far along edge j corner i stands, and how long the edge is. [mm]"""
    way = corners.after[j] - corners.here[j]
    length = np.hypot(*way.T)
    far = ((corners.here[i] - corners.here[j]) * way).sum(axis=1) / np.maximum(length, _EPS_MM)
    return far, length


def _touches(corners: _Corners, i: Index, j: Index) -> Bools:
    """Tell whether corner i stands on edge j or one of its ends."""
    far, length = _along(corners, i, j)
    beside = _beside(corners.here[i], corners.here[j], corners.after[j])
    touched: Bools = (beside == 0) & (far >= -_EPS_MM) & (far <= length + _EPS_MM)
    return touched


def _strands_cross(corners: _Corners, i: Index, j: Index) -> Bools:
    """Tell whether the outline at corner i passes through edge j, or through the outline at corner j."""
    here, start, end = corners.here[i], corners.here[j], corners.after[j]
    far, length = _along(corners, i, j)
    on = (_beside(here, start, end) == 0) & (far > _EPS_MM) & (far < length - _EPS_MM)
    same = np.abs(here - start).max(axis=1) <= _EPS_MM
    came = np.where(same[:, None], corners.before[j], start)
    turns = [_angle(corners.before[i] - here, to - here) for to in (corners.after[i], came, end)]
    apart = np.min([np.abs(a - b) for a, b in ((turns[0], turns[1]), (turns[0], turns[2]))], axis=0) > 1e-6
    apart &= np.min([np.minimum(t, 2 * np.pi - t) for t in turns[1:]], axis=0) > 1e-6
    crossed: Bools = (on | same) & apart & ((turns[1] < turns[0]) != (turns[2] < turns[0]))
    return crossed


def _angle(a: FloatArray, b: FloatArray) -> FloatArray:
    """Return the turn from a to b, from 0 to 2π."""
    turn: FloatArray = np.arctan2(_cross(a, b), (a * b).sum(axis=1)) % (2 * np.pi)
    return turn

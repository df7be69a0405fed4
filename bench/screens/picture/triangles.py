"""Tesserae as triangles, for a graphics card."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel

MOST_APEXES = 12

FloatArray = NDArray[np.float64]
IndexArray = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Triangles:
    """points_mm: (v, 2); corner: (t, 3) into the points; those of tessera i are corner[first[i]:first[i + 1]]
    and use points_mm[point[i]:point[i + 1]] only.
    """

    points_mm: FloatArray
    corner: IndexArray
    point: IndexArray
    first: IndexArray


def triangulate(panel: Panel) -> Triangles:
    """Cut every tessera into triangles by the even-odd rule; one without area gets none.

    A shape that can be seen whole from one of its own corners, as every convex one can, is cut into a fan,
    all shapes of a size at once; the rest goes through Kivy's tesselator one by one.
    """
    n = panel.tessera_count
    rings = np.diff(panel.tessera_ring)
    size = np.diff(panel.ring_start)[panel.tessera_ring[:-1]]
    pieces: dict[int, tuple[FloatArray, IndexArray]] = {}
    point_count, triangle_count = np.zeros(n, np.int64), np.zeros(n, np.int64)
    fans = []
    for m in np.flatnonzero(np.bincount(size[rings == 1])).tolist():
        members = np.flatnonzero((rings == 1) & (size == m))
        if m < 3:
            continue
        start = panel.ring_start[panel.tessera_ring[members]].astype(np.int64)
        points = panel.points_mm[start[:, None] + np.arange(m)]
        apex = _apexes(points)
        seen = apex >= 0
        fans.append((members[seen], points[seen], apex[seen]))
        point_count[members[seen]], triangle_count[members[seen]] = m, m - 2
        for i in members[~seen].tolist():
            pieces[i] = tesselate(panel.rings_mm(i))
    for i in np.flatnonzero(rings > 1).tolist():
        pieces[i] = tesselate(panel.rings_mm(i))
    for i, (points, corner) in pieces.items():
        point_count[i], triangle_count[i] = len(points), len(corner)
    return _assembled(fans, pieces, point_count, triangle_count)


def _apexes(points: FloatArray) -> IndexArray:
    """Return for each ring, (k, m, 2), a corner from which all of it is seen, or -1."""
    k, m, _ = points.shape
    apex = np.full(k, -1)
    todo = np.arange(k)
    for j in range(min(m, MOST_APEXES)):
        spokes = np.roll(points[todo], -j, axis=1)[:, 1:] - points[todo, j][:, None]
        x, y = spokes[..., 0], spokes[..., 1]
        turn = x[:, :-1] * y[:, 1:] - x[:, 1:] * y[:, :-1]
        whole = np.abs(turn.sum(axis=1))
        fits = (np.abs(turn).sum(axis=1) - whole <= 1e-9 * whole) & (whole > 0) & _within_a_turn(x, y)
        apex[todo[fits]] = j
        todo = todo[~fits]
        if len(todo) == 0:
            break
    return apex


def _within_a_turn(x: FloatArray, y: FloatArray) -> NDArray[np.bool_]:
    """Tell whether spokes sweep less than a whole turn; more would mean that the outline crosses itself."""
    cross = x[:, :-1] * y[:, 1:] - x[:, 1:] * y[:, :-1]
    dot = x[:, :-1] * x[:, 1:] + y[:, :-1] * y[:, 1:]
    swept: NDArray[np.bool_] = np.abs(np.arctan2(cross, dot)).sum(axis=1) < 2 * np.pi
    return swept


def tesselate(rings: list[FloatArray]) -> tuple[FloatArray, IndexArray]:
    """Cut one shape of any kind, holes and crossings included; returns points and triangles."""
    from kivy.graphics.tesselator import TYPE_POLYGONS, WINDING_ODD, Tesselator

    tesselator = Tesselator()
    for ring in rings:
        if len(ring) >= 3:
            tesselator.add_contour(ring.ravel().tolist())
    points: list[FloatArray] = []
    corners: list[IndexArray] = []
    tesselator.tesselate(WINDING_ODD, TYPE_POLYGONS)
    base = 0
    for flat, index in tesselator.meshes:
        fan = np.array(flat, dtype=float).reshape(-1, 4)[:, :2]
        k = np.asarray(index, dtype=np.int64) + base
        corners.append(np.column_stack([np.full(len(k) - 2, k[0]), k[1:-1], k[2:]]))
        points.append(fan)
        base += len(fan)
    if not points:
        return np.zeros((0, 2)), np.zeros((0, 3), np.int64)
    return np.vstack(points), np.vstack(corners)


def _assembled(
    fans: list[tuple[IndexArray, FloatArray, IndexArray]],
    pieces: dict[int, tuple[FloatArray, IndexArray]],
    point_count: IndexArray,
    triangle_count: IndexArray,
) -> Triangles:
    point = np.concatenate([[0], np.cumsum(point_count)])
    first = np.concatenate([[0], np.cumsum(triangle_count)])
    points_mm = np.zeros((int(point[-1]), 2))
    corner = np.zeros((int(first[-1]), 3), np.int64)
    for members, points, apex in fans:
        m = points.shape[1]
        points_mm[point[members][:, None] + np.arange(m)] = points
        step = np.arange(1, m - 1)
        local = np.stack(np.broadcast_arrays(0, step, step + 1), axis=-1)[None]
        turned = (local + apex[:, None, None]) % m + point[members][:, None, None]
        corner[first[members][:, None] + np.arange(m - 2)] = turned
    for i, (points, triangles) in pieces.items():
        points_mm[point[i] : point[i + 1]] = points
        corner[first[i] : first[i + 1]] = triangles + point[i]
    return Triangles(points_mm, corner, point, first)

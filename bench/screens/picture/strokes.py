"""Lines as triangles that keep their width on the screen at any zoom.

A vertex carries its place in mm, how far it stands off in dp, its colour, and what dashes need. A small
program on the graphics card adds the two up, so zooming redraws nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from bench.screens.picture.looks import BLACK, WHITE, Strip

FloatArray = NDArray[np.float64]
Mesh = tuple[NDArray[np.float32], NDArray[np.uint16]]

# x, y [mm], off_x, off_y [dp], red, green, blue, along [mm], dash [dp]
FLOATS = 9
MOST_VERTICES = 65_000
_MITRE = 2.0


def ribbon(points_mm: FloatArray, strips: Sequence[Strip], *, side: float, closed: bool) -> Mesh:
    """Return one line's strips on one side of it (+1: its left seen with y down, −1: its right)."""
    if len(points_mm) < 2 or not strips:
        return np.zeros((0, FLOATS), np.float32), np.zeros(0, np.uint16)
    points = np.vstack([points_mm, points_mm[:1]]) if closed else points_mm
    normal = _normals(points, closed) * side
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    vertices, indices = [], []
    n = len(points)
    for number, (near_dp, far_dp, colour, dash_dp) in enumerate(strips):
        for off_dp in (near_dp, far_dp):
            flat = np.broadcast_to((*colour, 0.0, dash_dp), (n, 5)).copy()
            flat[:, 3] = along
            vertices.append(np.hstack([points, normal * off_dp, flat]))
        a = 2 * n * number + np.arange(n - 1)
        indices.append(np.column_stack([a, a + n, a + 1, a + 1, a + n, a + n + 1]).ravel())
    return np.vstack(vertices).astype(np.float32), np.concatenate(indices).astype(np.uint16)


def _normals(points: FloatArray, closed: bool) -> FloatArray:
    """Return at each point the unit-wide offset to the left (y down), mitred at corners."""
    step = np.diff(points, axis=0)
    unit = step / np.maximum(np.hypot(*step.T), 1e-12)[:, None]
    normal = np.column_stack([unit[:, 1], -unit[:, 0]])
    first = normal[-1] if closed else normal[0]
    last = normal[0] if closed else normal[-1]
    before, after = np.vstack([first, normal]), np.vstack([normal, last])
    mitre = before + after
    length2 = np.maximum((mitre**2).sum(axis=1), 4 / _MITRE**2)
    return 2 * mitre / length2[:, None]


def segments(ends_mm: FloatArray, *, dark_dp: float, light_dp: float) -> Mesh:
    """Return straight strokes, (n, 4) of x1, y1, x2, y2, light in the middle and dark on both sides."""
    step = ends_mm[:, 2:] - ends_mm[:, :2]
    unit = step / np.maximum(np.hypot(*step.T), 1e-12)[:, None]
    normal = np.column_stack([unit[:, 1], -unit[:, 0]])
    meshes = [
        _bars(ends_mm, normal, light_dp / 2 + dark_dp, BLACK),
        _bars(ends_mm, normal, light_dp / 2, WHITE),
    ]
    return next(iter(merged(meshes)), (np.zeros((0, FLOATS), np.float32), np.zeros(0, np.uint16)))


def _bars(ends: FloatArray, normal: FloatArray, half_dp: float, colour: Sequence[float]) -> Mesh:
    n = len(ends)
    vertices = np.zeros((n, 4, FLOATS), np.float32)
    for corner, (at, sign) in enumerate((((0, 1), 1), ((0, 1), -1), ((2, 3), 1), ((2, 3), -1))):
        vertices[:, corner, 0:2] = ends[:, at]
        vertices[:, corner, 2:4] = sign * half_dp * normal
    vertices[:, :, 4:7] = colour
    base = 4 * np.arange(n)[:, None]
    indices = (base + np.array([0, 1, 2, 2, 1, 3])).astype(np.uint16)
    return vertices.reshape(-1, FLOATS), indices.ravel()


def merged(meshes: Iterable[Mesh]) -> list[Mesh]:
    """Join meshes into as few as 16-bit indices allow, in their order; empty ones vanish."""
    whole: list[Mesh] = []
    vertices: list[NDArray[np.float32]] = []
    indices: list[NDArray[np.uint16]] = []
    count = corners = 0
    for points, index in meshes:
        if len(index) == 0:
            continue
        if vertices and (count + len(points) > MOST_VERTICES or corners + len(index) > MOST_VERTICES):
            whole.append((np.vstack(vertices), np.concatenate(indices)))
            vertices, indices, count, corners = [], [], 0, 0
        vertices.append(points)
        indices.append((index.astype(np.int64) + count).astype(np.uint16))
        count += len(points)
        corners += len(index)
    if vertices:
        whole.append((np.vstack(vertices), np.concatenate(indices)))
    return whole

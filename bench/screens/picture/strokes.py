"""Lines as triangles that keep their width on the screen at any zoom.

A vertex carries its place in mm and how far it stands off in dp; a small program on the graphics card adds
the two up, so zooming redraws nothing. Both sides of a line are one strip: the program tells by the distance
off the middle whether a spot is core, band or edge, and of which side.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from bench.screens.picture.looks import Side

FloatArray = NDArray[np.float64]
Mesh = tuple[NDArray[np.float32], NDArray[np.uint16]]

# x, y [mm]; off_x, off_y, distance [dp]; left: red, green, blue; right: the same;
# left core, left band, right core, right band [dp]; along [mm], left dash, right dash [dp]
FLOATS = 18
MOST_VERTICES = 65_000
_MITRE = 2.0


def ribbon(points_mm: FloatArray, left: Side, right: Side, *, closed: bool) -> Mesh:
    """Return one line with its two sides, left and right of its course as seen with y down.

    A line of fewer than two points has no triangles.
    """
    if len(points_mm) < 2:
        return np.zeros((0, FLOATS), np.float32), np.zeros(0, np.uint16)
    points = np.vstack([points_mm, points_mm[:1]]) if closed else points_mm
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    n = len(points)
    rows = np.empty((2, n, FLOATS), np.float32)
    normal = _normals(points, closed)
    for row, distance in zip(rows, (left.edge_dp, -right.edge_dp), strict=True):
        row[:, 0:2] = points
        row[:, 2:4] = normal * distance
        row[:, 4] = distance
    rows[:, :, 5:] = _sides(left, right)
    rows[:, :, 15] = along
    a = np.arange(n - 1)
    index = np.column_stack([a, a + n, a + 1, a + 1, a + n, a + n + 1])
    return rows.reshape(-1, FLOATS), index.ravel().astype(np.uint16)


def _sides(left: Side, right: Side) -> tuple[float, ...]:
    reach = (left.core_dp, left.band_dp, right.core_dp, right.band_dp)
    return (*left.colour, *right.colour, *reach, 0.0, left.dash_dp, right.dash_dp)


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


def segments(ends_mm: FloatArray, side: Side) -> Mesh:
    """Return straight strokes, (n, 4) of x1, y1, x2, y2, the same on both sides."""
    step = ends_mm[:, 2:] - ends_mm[:, :2]
    unit = step / np.maximum(np.hypot(*step.T), 1e-12)[:, None]
    normal = np.column_stack([unit[:, 1], -unit[:, 0]])
    n = len(ends_mm)
    rows = np.zeros((n, 4, FLOATS), np.float32)
    for corner, (at, sign) in enumerate((((0, 1), 1), ((0, 1), -1), ((2, 3), 1), ((2, 3), -1))):
        rows[:, corner, 0:2] = ends_mm[:, at]
        rows[:, corner, 2:4] = sign * side.edge_dp * normal
        rows[:, corner, 4] = sign * side.edge_dp
    rows[:, :, 5:] = _sides(side, side)
    index = 4 * np.arange(n)[:, None] + np.array([0, 1, 2, 2, 1, 3])
    return rows.reshape(-1, FLOATS), index.ravel().astype(np.uint16)


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

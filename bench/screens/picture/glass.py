"""The glass itself: all tesserae in their true colours, in as few meshes as 16-bit indices allow."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.screens.picture.triangles import Triangles

MOST = 65_000

GlassMesh = tuple[NDArray[np.float32], NDArray[np.uint16]]  # rows of x, y, red, green, blue


def glass_meshes(panel: Panel, triangles: Triangles) -> Iterator[GlassMesh]:
    """Yield vertices and indices; tesserae keep their order, so later ones lie on top."""
    count = np.diff(triangles.point)
    vertices = np.empty((len(triangles.points_mm), 5), np.float32)
    vertices[:, :2] = triangles.points_mm
    vertices[:, 2:] = np.repeat(panel.colour, count, axis=0) / np.float32(255)
    begin = 0
    while begin < panel.tessera_count:
        end = _last_that_fits(triangles, begin)
        a, b = triangles.point[begin], triangles.point[end]
        corner = triangles.corner[triangles.first[begin] : triangles.first[end]] - a
        if len(corner):
            yield np.ascontiguousarray(vertices[a:b]), np.ascontiguousarray(corner.ravel(), np.uint16)
        begin = end


def _last_that_fits(triangles: Triangles, begin: int) -> int:
    """Return the end of the longest run of tesserae from `begin` within one mesh, at least one long."""
    by_point = np.searchsorted(triangles.point, triangles.point[begin] + MOST, side="right") - 1
    by_corner = np.searchsorted(triangles.first, triangles.first[begin] + MOST // 3, side="right") - 1
    return max(begin + 1, int(min(by_point, by_corner)))

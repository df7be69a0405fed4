"""Which tessera a finger means: a grid over the panel, and some slack for gloves."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.screens.picture.raster import contains

FloatArray = NDArray[np.float64]


class Picker:
    """Find the tessera at a place of the panel.

    Each cell of the grid lists the tesserae whose bounding box meets it; a cell is about two pieces wide,
    so a pick looks at a handful of outlines however large the panel is.
    """

    def __init__(self, panel: Panel) -> None:
        self._panel = panel
        first = panel.ring_start[panel.tessera_ring[:-1]]
        low = np.minimum.reduceat(panel.points_mm, first, axis=0)
        high = np.maximum.reduceat(panel.points_mm, first, axis=0)
        self.low_mm, self.high_mm = low, high
        wide_mm = np.sort(np.maximum(*(high - low).T))
        self._cell_mm = max(2.0 * float(wide_mm[len(wide_mm) // 2]), 1.0)
        self._origin_mm = low.min(axis=0)
        a, b = self._cell(low), self._cell(high)
        self._columns = int(b[:, 0].max()) + 1
        self._rows = int(b[:, 1].max()) + 1
        self._fill(a, b)

    def _cell(self, points_mm: FloatArray) -> NDArray[np.int_]:
        return ((points_mm - self._origin_mm) // self._cell_mm).astype(int)

    def _fill(self, a: NDArray[np.int_], b: NDArray[np.int_]) -> None:
        wide, high = (b - a + 1).T
        count = wide * high
        tessera = np.repeat(np.arange(len(count)), count)
        k = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
        column = a[tessera, 0] + k % wide[tessera]
        row = a[tessera, 1] + k // wide[tessera]
        cell = row * self._columns + column
        order = np.argsort(cell, kind="stable")
        self._tessera = tessera[order]
        self._start = np.searchsorted(cell[order], np.arange(self._rows * self._columns + 1))

    def pick(self, x_mm: float, y_mm: float, *, slack_mm: float = 0.0) -> int | None:
        """Return the tessera under a point, or else the nearest within `slack_mm`, or None.

        Where tesserae overlap the later one is meant: it is drawn on top.
        """
        near = self._near(x_mm, y_mm, slack_mm)
        for i in near[::-1]:
            if self._holds(int(i), x_mm, y_mm):
                return int(i)
        if slack_mm <= 0 or len(near) == 0:
            return None
        distance_mm = np.array([self._distance_mm(int(i), x_mm, y_mm) for i in near])
        best = int(distance_mm.argmin())
        return int(near[best]) if distance_mm[best] <= slack_mm else None

    def _near(self, x: float, y: float, slack: float) -> NDArray[np.int_]:
        a = np.clip(self._cell(np.array([x - slack, y - slack])), 0, [self._columns - 1, self._rows - 1])
        b = np.clip(self._cell(np.array([x + slack, y + slack])), 0, [self._columns - 1, self._rows - 1])
        rows = np.arange(a[1], b[1] + 1) * self._columns
        first, last = self._start[rows + a[0]], self._start[rows + b[0] + 1]
        lists = [self._tessera[i:j] for i, j in zip(first, last, strict=True)]
        near = np.unique(np.concatenate(lists))
        at = np.array([x, y])
        reach = ((self.low_mm[near] - slack <= at) & (at <= self.high_mm[near] + slack)).all(axis=1)
        return near[reach]

    def _holds(self, tessera: int, x: float, y: float) -> bool:
        inside = False
        for ring in self._panel.rings_mm(tessera):
            inside ^= contains(ring, x, y)
        return inside

    def _distance_mm(self, tessera: int, x: float, y: float) -> float:
        return min(_to_ring_mm(ring, x, y) for ring in self._panel.rings_mm(tessera))


def _to_ring_mm(ring: FloatArray, x: float, y: float) -> float:
    """Return the distance of a point from the nearest edge of a closed ring."""
    step = np.roll(ring, -1, axis=0) - ring
    to = np.array([x, y]) - ring
    part = (to * step).sum(axis=1) / np.maximum((step**2).sum(axis=1), 1e-18)
    off = to - np.clip(part, 0.0, 1.0)[:, None] * step
    return float(np.hypot(*off.T).min())

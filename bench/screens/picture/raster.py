"""Which tessera lies where: a coarse map of the panel, the joints given to the nearest piece.

Section outlines and hatching are read off this map, so that they run down the middle of the joints however
the panel is divided, and dividing it again costs milliseconds.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel

MOST_PX = 3_000_000
MOST_PX_PER_MM = 4.0
REACH_MM = 1.25
NOTHING = -1


@dataclass(frozen=True, eq=False)
class TesseraMap:
    """at: (rows, columns) index of the tessera there, or NOTHING; its rim is always NOTHING.

    Row r, column c covers the square from ((c − 1), (r − 1)) / px_per_mm on.
    """

    at: NDArray[np.int32]
    px_per_mm: float

    def to_mm(self, row_column: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return (x, y) in mm for corners of the map's squares, given as (row, column)."""
        return (row_column[:, ::-1] - 1.0) / self.px_per_mm


def tessera_map(panel: Panel, *, most_px: int = MOST_PX) -> TesseraMap:
    """Draw the panel's tesserae into a map and let each grow into the joints round it."""
    from PIL import Image, ImageDraw

    area_mm2 = max(panel.width_mm * panel.height_mm, 1.0)
    px_per_mm = min(MOST_PX_PER_MM, float(np.sqrt(most_px / area_mm2)))
    size = (int(panel.width_mm * px_per_mm) + 3, int(panel.height_mm * px_per_mm) + 3)
    image = Image.new("I", size, NOTHING)
    draw = ImageDraw.Draw(image)
    points_px = np.rint(panel.points_mm * px_per_mm + 0.5).astype(int).tolist()
    start, first = panel.ring_start.tolist(), panel.tessera_ring.tolist()
    for i in np.argsort(-panel.area_mm2, kind="stable").tolist():  # small pieces lie in holes of large ones
        for k in range(first[i], first[i + 1]):
            ring = [tuple(p) for p in points_px[start[k] : start[k + 1]]]
            if len(ring) >= 2:
                draw.polygon(ring, fill=NOTHING if _is_hole(panel, i, k) else i)
    at = np.array(image, dtype=np.int32)
    for _ in range(max(1, round(REACH_MM * px_per_mm))):
        _grow(at)
    at[[0, -1], :] = NOTHING
    at[:, [0, -1]] = NOTHING
    return TesseraMap(at, px_per_mm)


def _is_hole(panel: Panel, tessera: int, ring: int) -> bool:
    """Tell whether a ring starts inside an odd number of the tessera's rings before it."""
    inside = False
    x, y = panel.points_mm[panel.ring_start[ring]]
    for k in range(int(panel.tessera_ring[tessera]), ring):
        outer = panel.points_mm[panel.ring_start[k] : panel.ring_start[k + 1]]
        inside ^= contains(outer, x, y)
    return inside


def contains(ring: NDArray[np.float64], x: float, y: float) -> bool:
    """Tell whether a point lies within one closed ring, by the even-odd rule."""
    x1, y1 = ring[:, 0], ring[:, 1]
    x2, y2 = np.roll(x1, -1), np.roll(y1, -1)
    crosses = (y1 > y) != (y2 > y)
    at_x = x1[crosses] + (y - y1[crosses]) / (y2[crosses] - y1[crosses]) * (x2[crosses] - x1[crosses])
    return bool(np.count_nonzero(at_x > x) % 2)


def _grow(at: NDArray[np.int32]) -> None:
    """Let every piece take the empty squares beside it, in place; where two meet the first one has it."""
    before = at.copy()
    for to, source in (
        (np.s_[1:, :], np.s_[:-1, :]),
        (np.s_[:-1, :], np.s_[1:, :]),
        (np.s_[:, 1:], np.s_[:, :-1]),
        (np.s_[:, :-1], np.s_[:, 1:]),
    ):
        there = at[to]
        np.copyto(there, before[source], where=(there == NOTHING))

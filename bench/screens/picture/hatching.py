"""Hatching over worked sections, read off the map of tesserae; the glass shows between the lines."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.screens.picture.raster import NOTHING, TesseraMap

FloatArray = NDArray[np.float64]


def diagonals_mm(
    tesserae: TesseraMap, chosen: NDArray[np.bool_], pitch_mm: float, *, falling: bool
) -> FloatArray:
    """Return the diagonals at a pitch that run over chosen tesserae, (n, 4) of x1, y1, x2, y2. [mm]

    chosen: (tesserae,) whether a tessera is hatched. falling: from top left to bottom right, else rising.
    Nothing chosen gives no line.
    """
    rows, columns = tesserae.at.shape
    step = max(2, round(pitch_mm * np.sqrt(2) * tesserae.px_per_mm))
    offset = np.arange(-rows, columns, step)[:, None]
    row = np.arange(rows)[None, :]
    column = offset + row if falling else offset + (rows - 1 - row)
    inside = (column >= 0) & (column < columns)
    tessera = tesserae.at[row, np.clip(column, 0, columns - 1)]
    lit = inside & (tessera != NOTHING) & chosen[np.maximum(tessera, 0)]
    edge = np.diff(np.pad(lit, ((0, 0), (1, 1))).astype(np.int8), axis=1)
    line, begin = np.nonzero(edge == 1)
    _, end = np.nonzero(edge == -1)
    x1, x2 = (_column(offset, line, at, rows, falling) for at in (begin, end))
    ends = np.column_stack([x1, begin, x2, end]).astype(float)
    return (ends - 1.0) / tesserae.px_per_mm


def _column(
    offset: NDArray[np.int_], line: NDArray[np.int_], row: NDArray[np.int_], rows: int, falling: bool
) -> NDArray[np.int_]:
    return offset[line, 0] + (row if falling else rows - row)

"""Points of a grid that lie within outlines, row by row: exact, a painter swells them by a pixel."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.boxes import spread_out
from bench.drawing.panel import FloatArray

Index = NDArray[np.int64]


def spans(
    rings: Sequence[FloatArray], owner: Index, shape: tuple[int, int], step_mm: float
) -> list[tuple[int, int, int, int]]:
    """Return the points within each owner's rings as (row, first column, column after the last, owner).

    Points stand in the middle of squares of `step_mm`, shape: (rows, columns) of them.
    """
    start = np.concatenate(rings) / step_mm - 0.5
    end = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings]) / step_mm - 0.5
    whose = np.repeat(owner, [len(ring) for ring in rings])
    low, high = np.minimum(start[:, 1], end[:, 1]), np.maximum(start[:, 1], end[:, 1])
    first = np.clip(np.ceil(low), 0, shape[0]).astype(np.int64)
    last = np.clip(np.ceil(high), 0, shape[0]).astype(np.int64)
    edge, k = spread_out(last - first)
    row = first[edge] + k
    way = (end - start)[edge]
    x = start[edge, 0] + (row - start[edge, 1]) * way[:, 0] / way[:, 1]
    order = np.lexsort((x, row, whose[edge]))
    column = np.clip(np.ceil(x[order]), 0, shape[1]).astype(np.int64)
    table = np.stack([row[order][::2], column[::2], column[1::2], whose[edge][order][::2]], axis=1)
    return [(a, b, c, d) for a, b, c, d in table[table[:, 1] < table[:, 2]].tolist()]

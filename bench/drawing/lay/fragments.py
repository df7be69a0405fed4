"""Pieces in one piece: a scrap of a cell cut off from the rest goes to whatever lies beside it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

IntGrid = NDArray[np.int32]


def in_one_piece(cell: IntGrid, area: IntGrid) -> IntGrid:
    """Return the cells with each one connected: only its largest part stays, the rest joins its neighbours.

    cell: (rows, columns) 0 for none, k for piece k. area: (rows, columns) a scrap never joins a piece of
    another area; one with no neighbour in its own is dropped.
    """
    part = _parts(cell)
    size = np.bincount(part.ravel())
    of = np.zeros(len(size), np.int64)
    of[part.ravel()] = cell.ravel()
    order = np.lexsort((size, of))
    last = np.flatnonzero(np.diff(of[order], append=-1))
    main = np.zeros(len(size), bool)
    main[order[last]] = True
    scrap = ~main[part] & (cell > 0)
    out = np.where(scrap, 0, cell)
    for _ in range(int(max(cell.shape))):
        rim = scrap & (out == 0)
        if not rim.any():
            break
        before = out.copy()
        _grow(out, rim, area)
        if np.array_equal(out, before):
            break
    return out


def _grow(out: IntGrid, rim: NDArray[np.bool_], area: IntGrid) -> None:
    """Give each pixel of the rim the piece of a pixel beside it, of the same area."""
    y, x = np.nonzero(rim)
    rows, columns = out.shape
    found = np.zeros(len(y), out.dtype)
    for dy, dx in ((0, 1), (1, 0), (0, -1), (-1, 0)):
        ny, nx = y + dy, x + dx
        inside = (ny >= 0) & (ny < rows) & (nx >= 0) & (nx < columns)
        ny, nx = np.where(inside, ny, y), np.where(inside, nx, x)
        beside = np.where(area[ny, nx] == area[y, x], out[ny, nx], 0)
        found = np.where(found == 0, beside, found)
    out[y, x] = found


def _parts(cell: IntGrid) -> NDArray[np.int64]:
    """Return the connected part of each pixel, neighbours along edges: (rows, columns)."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    n = cell.size
    here = np.arange(n, dtype=np.int32).reshape(cell.shape)
    right, down = cell[:, :-1] == cell[:, 1:], cell[:-1] == cell[1:]
    one = np.concatenate([here[:, :-1][right], here[:-1][down]])
    other = np.concatenate([here[:, 1:][right], here[1:][down]])
    graph = coo_array((np.ones(len(one), np.int8), (one, other)), shape=(n, n))
    found: NDArray[np.int64] = connected_components(graph, directed=False)[1].astype(np.int64)
    return found.reshape(cell.shape)

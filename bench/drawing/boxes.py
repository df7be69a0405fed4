"""Which of many upright boxes overlap: a grid, so that the work grows with the boxes and their pairs."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import FloatArray

Index = NDArray[np.int64]

_MOST_LOOKS = 100_000_000  # pairs of boxes that share a cell of the grid
_MOST_PAIRS = 20_000_000  # of them that overlap
_AT_ONCE = 500_000


class TooManyPairs(Exception):
    """So many boxes lie on one another that looking at each pair would take minutes."""


class Grid:
    """Boxes sorted into the cells of a grid: cell k holds box[first[k]:first[k + 1]].

    Each cell is about as large as a box; where most boxes are small against the space between them, large
    enough that there are no more cells than boxes. Boxes far off the others fall into the outermost cells.
    """

    def __init__(self, low: FloatArray, high: FloatArray) -> None:
        self.low, self.high = low, high
        middle = (low + high) / 2
        self.origin, far = np.quantile(middle, (0.01, 0.99), axis=0)
        spread = np.maximum(far - self.origin, 1e-9)
        mean = (high - low).mean(axis=0)
        sparse = np.sqrt(spread[0] * spread[1] / len(low)), spread.max() / len(low)
        self.cell = float(max(*mean, *sparse, 1e-9))
        self.cells = np.maximum(np.ceil(spread / self.cell), 1).astype(np.int64)
        box, key = self._entries(low, high)
        self.box = box[np.argsort(key, kind="stable")]
        self.first = np.concatenate([[0], np.cumsum(np.bincount(key, minlength=int(self.cells.prod())))])

    def _place(self, points: FloatArray) -> Index:
        cell = np.floor((points - self.origin) / self.cell)
        placed: Index = np.clip(cell, 0, self.cells - 1).astype(np.int64)
        return placed

    def _entries(self, low: FloatArray, high: FloatArray) -> tuple[Index, Index]:
        """Return (box, cell) for each cell that each box reaches into."""
        first, last = self._place(low), self._place(high)
        wide, tall = (last - first + 1).T
        if int((wide * tall).sum()) > _MOST_LOOKS // 4:
            raise TooManyPairs
        box, k = spread_out(wide * tall)
        x, y = first[box, 0] + k // tall[box], first[box, 1] + k % tall[box]
        return box, x * self.cells[1] + y

    def pairs(self, low: FloatArray, high: FloatArray) -> Iterator[tuple[Index, Index]]:
        """Yield (asked, found): which of the given boxes overlaps which box of the grid, each pair once.

        Boxes that touch overlap. Raises TooManyPairs.
        """
        asked, key = self._entries(low, high)
        start = self.first[key]
        counts = self.first[key + 1] - start
        total = np.cumsum(counts)
        if len(total) and total[-1] > _MOST_LOOKS:
            raise TooManyPairs
        found = 0
        for chunk in chunks(total, _AT_ONCE):
            entry, k = spread_out(counts[chunk])
            entry += chunk.start
            a, b = asked[entry], self.box[start[entry] + k]
            cell = key[entry]
            for axis in (0, 1):
                here, there = low[:, axis][a], self.low[:, axis][b]
                meet = (here <= self.high[:, axis][b]) & (there <= high[:, axis][a])
                # of the cells that both reach into, the pair counts in that where their overlap begins
                begins = np.floor((np.maximum(here, there) - self.origin[axis]) / self.cell)
                begins = np.minimum(np.maximum(begins, 0), self.cells[axis] - 1)
                meet &= begins == (cell // self.cells[1] if axis == 0 else cell % self.cells[1])
                a, b, cell = a[meet], b[meet], cell[meet]
            found += len(a)
            if found > _MOST_PAIRS:
                raise TooManyPairs
            yield a, b


def spread_out(counts: Index) -> tuple[Index, Index]:
    """Return (item, k): each item as often as it counts, and its running number k from 0."""
    item = np.repeat(np.arange(len(counts)), counts)
    return item, np.arange(len(item)) - np.repeat(np.cumsum(counts) - counts, counts)


def chunks(total: Index, at_once: int) -> Iterator[slice]:
    """Cut a running total into slices that grow by about `at_once` each; one item may be more."""
    start, before = 0, 0
    while start < len(total):
        stop = max(start + 1, int(np.searchsorted(total, before + at_once, side="right")))
        yield slice(start, stop)
        start, before = stop, int(total[stop - 1])

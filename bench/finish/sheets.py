"""Sheets to buy: the least glass that covers the need, and of equals the fewest sheets."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.finish.faults import BadSheet, TooManySizes

MOST_SIZES = 8
LEAST_MM, MOST_MM = 20, 5000
_MOST_UNITS = 4_000_000
_NEVER = np.iinfo(np.int32).max // 4
_SIZE = re.compile(r"(\d{1,5}) ?[xX×] ?(\d{1,5})", re.ASCII)

Counts = NDArray[np.int32]


@dataclass(frozen=True, order=True)
class Sheet:
    """A sheet of glass, whole mm, the longer side first."""

    long_mm: int
    short_mm: int

    def __post_init__(self) -> None:
        if not LEAST_MM <= self.short_mm <= self.long_mm <= MOST_MM:
            raise BadSheet(f"{self.long_mm}x{self.short_mm}")

    def __str__(self) -> str:
        return f"{self.long_mm} × {self.short_mm}"

    @property
    def area_mm2(self) -> int:
        return self.long_mm * self.short_mm

    def holds(self, narrow_mm: float, long_mm: float) -> bool:
        """Tell whether a piece of this least width and length can be cut from it, lying along a side."""
        return narrow_mm <= self.short_mm and long_mm <= self.long_mm


def sheet_of(text: str, *, where: str = "") -> Sheet:
    """Return the sheet that '300x200' or '300 × 200' names, in mm. Raises BadSheet."""
    found = _SIZE.fullmatch(text.strip())
    if not found:
        raise BadSheet(text, where=where)
    sides = sorted(int(side) for side in found.groups())
    if not LEAST_MM <= sides[0] <= sides[1] <= MOST_MM:
        raise BadSheet(text, where=where)
    return Sheet(sides[1], sides[0])


class Purchase:
    """Find the sheets to buy of some sizes for any need up to the greatest.

    Exact: over all totals that the sizes can make, in units of the areas' greatest common measure. Only
    where that takes more than 4 million units (mixed odd sizes and square metres of one glass) is the bulk
    taken in the largest size first, and the rest found exactly.
    """

    def __init__(self, sizes: Sequence[Sheet], most_need_mm2: float) -> None:
        self.sizes = sorted(set(sizes), key=lambda s: (-s.area_mm2, s))
        if not self.sizes:
            raise BadSheet("")
        if len(self.sizes) > MOST_SIZES:
            raise TooManySizes(len(self.sizes), MOST_SIZES)
        self._unit = math.gcd(*(s.area_mm2 for s in self.sizes))
        self._units = [s.area_mm2 // self._unit for s in self.sizes]
        self._length = min(self._units_for(most_need_mm2), _MOST_UNITS) + self._units[0]
        self._fewest = _fewest(self._units, self._length + 1)
        place = np.where(self._fewest < _NEVER, np.arange(self._length + 1), self._length + 1)
        self._next = np.minimum.accumulate(place[::-1])[::-1]

    def _units_for(self, need_mm2: float) -> int:
        return math.ceil(need_mm2 / self._unit - 1e-9)

    def buy(self, need_mm2: float) -> dict[Sheet, int]:
        """Return how many of each size to buy, sizes that are not bought left out; none for no need."""
        need = self._units_for(need_mm2) if need_mm2 > 0 else 0
        largest = self._units[0]
        bulk = max(0, -(-(need + largest - self._length) // largest))
        total = int(self._next[max(0, need - bulk * largest)])
        counts = [bulk, *[0] * (len(self.sizes) - 1)]
        while total:
            for k, units in enumerate(self._units):
                if units <= total and self._fewest[total - units] + 1 == self._fewest[total]:
                    counts[k] += 1
                    total -= units
                    break
        return {size: count for size, count in zip(self.sizes, counts, strict=True) if count}


def _fewest(units: Sequence[int], length: int) -> Counts:
    """Return the fewest sheets that make each total exactly, from 0 to length − 1; _NEVER for none."""
    fewest = np.full(length, _NEVER, np.int32)
    fewest[0] = 0
    for one in units:
        rows = -(-length // one)
        table = np.full(rows * one, _NEVER, np.int32)
        table[:length] = fewest
        row = np.arange(rows, dtype=np.int32)[:, None]
        best = np.minimum.accumulate(table.reshape(rows, one) - row, axis=0) + row
        fewest = np.minimum(best.ravel()[:length], _NEVER)
    return fewest

"""How far the shades within one glass lie apart, and whether one sheet may hold them all."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.drawing.colour import delta_e_2000
from bench.drawing.panel import FloatArray, IntArray

# What a sheet whose shade varies can hold from end to end: common practice, no source.
ONE_SHEET_DE = 5.0
_COMPARED = 40  # colours that are compared each with each


@dataclass(frozen=True)
class Shades:
    """Least and most of L*, a* and b* within a glass, and the largest ΔE00 found between two pieces.

    Of more than 40 pieces those farthest out along 13 directions are compared: `spread_de` may then be a
    little too small.
    """

    light: tuple[float, float]
    a: tuple[float, float]
    b: tuple[float, float]
    spread_de: float

    @property
    def one_sheet_may_hold(self) -> bool:
        """Whether the shades lie no farther apart than one varied sheet can hold."""
        return self.spread_de <= ONE_SHEET_DE


_WAYS = np.array(
    [(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1) if (x, y, z) > (0, 0, 0)],
    float,
)


def shades_of(lab: FloatArray, start: IntArray) -> list[Shades]:
    """Return the shades of each glass, whose pieces' colours lie one after the other. (n, 3), (g,)"""
    low, high = np.minimum.reduceat(lab, start), np.maximum.reduceat(lab, start)
    varied = np.flatnonzero((low != high).any(axis=1))
    ends = np.append(start[1:], len(lab))
    spread = np.zeros(len(start))
    for k in varied.tolist():
        spread[k] = _spread_de(lab[start[k] : ends[k]])
    return [
        Shades((lo[0], hi[0]), (lo[1], hi[1]), (lo[2], hi[2]), s)
        for lo, hi, s in zip(low.tolist(), high.tolist(), spread.tolist(), strict=True)
    ]


def _spread_de(lab: FloatArray) -> float:
    if len(lab) > _COMPARED:
        out = lab @ _WAYS.T
        lab = lab[np.unique([out.argmin(axis=0), out.argmax(axis=0)])]
    return float(delta_e_2000(lab[:, None], lab[None]).max())

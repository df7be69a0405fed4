"""The outline of an empty panel: rectangle, round or oval, L, or ring; which pixels lie within it."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.study.faults import CutTooLarge, RingTooWide
from bench.drawing.study.propose import LONG_SIDE_PX

Shape = Literal["rectangle", "oval", "l", "ring"]

_CUT_SHARE, _RING_SHARE = 0.5, 0.25  # of the sides, of the shorter side: until something else is said


class Outline(BaseModel):
    """The shape of a panel, within its width and height.

    cut_width_mm, cut_height_mm: what is cut out of an L at its top right; None for half of the side.
    ring_mm: width of a ring, from its outer to its inner edge; None for a quarter of the shorter side.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    shape: Shape = "rectangle"
    cut_width_mm: float | None = Field(default=None, gt=0)
    cut_height_mm: float | None = Field(default=None, gt=0)
    ring_mm: float | None = Field(default=None, gt=0)

    def cut_mm(self, size_mm: tuple[float, float]) -> tuple[float, float]:
        """Return width and height of what is cut out of an L."""
        return self.cut_width_mm or _CUT_SHARE * size_mm[0], self.cut_height_mm or _CUT_SHARE * size_mm[1]

    def ring_width_mm(self, size_mm: tuple[float, float]) -> float:
        """Return how wide a ring is."""
        return self.ring_mm or _RING_SHARE * min(size_mm)


def outline_labels(
    outline: Outline, size_mm: tuple[float, float], name: str = "", long_side_px: int = LONG_SIDE_PX
) -> NDArray[np.int32]:
    """Return 1 where the panel is and 0 beyond, (rows, columns), so many pixels on the longer side.

    A pixel belongs to the panel where its middle does. A ring of width w lies between the ellipses of
    semi-axes (a, b) and (a − w, b − w). Raises CutTooLarge or RingTooWide where no such shape is left.
    """
    width, height = size_mm
    scale = long_side_px / max(size_mm)
    rows, columns = max(1, round(height * scale)), max(1, round(width * scale))
    x = (np.arange(columns) + 0.5) * width / columns
    y = ((np.arange(rows) + 0.5) * height / rows)[:, None]
    if outline.shape == "rectangle":
        return np.ones((rows, columns), np.int32)
    if outline.shape == "l":
        cut = outline.cut_mm(size_mm)
        if cut[0] >= width or cut[1] >= height:
            raise CutTooLarge(name, cut, size_mm)
        return ((x < width - cut[0]) | (y >= cut[1])).astype(np.int32)
    half_wide, half_high = width / 2, height / 2
    inside = _within(x - half_wide, y - half_high, half_wide, half_high)
    if outline.shape == "ring":
        ring = outline.ring_width_mm(size_mm)
        if ring >= min(half_wide, half_high):
            raise RingTooWide(name, ring, min(half_wide, half_high))
        inside &= ~_within(x - half_wide, y - half_high, half_wide - ring, half_high - ring)
    return inside.astype(np.int32)


def _within(x: NDArray[np.float64], y: NDArray[np.float64], a: float, b: float) -> NDArray[np.bool_]:
    found: NDArray[np.bool_] = (x / a) ** 2 + (y / b) ** 2 <= 1
    return found

"""How large a tessera is to the hand: small, medium or large."""

from __future__ import annotations

import numpy as np

from bench.drawing.panel import FloatArray, IntArray

SMALL_BELOW_MM2 = 30.0
LARGE_ABOVE_MM2 = 90.0


def size_class(area_mm2: FloatArray) -> IntArray:
    """Return 0 for small (< 30 mm²), 1 for medium, 2 for large (> 90 mm²), shaped like the areas."""
    area = np.asarray(area_mm2, float)
    return ((area >= SMALL_BELOW_MM2).astype(np.int32) + (area > LARGE_ABOVE_MM2)).astype(np.int32)

"""Where a section's number stands: on a tessera of its own, near its middle, even where it is bent."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import FloatArray, Panel


def number_spot_mm(panel: Panel, members: NDArray[np.intp]) -> FloatArray:
    """Return the centroid of the tessera that is nearest to the section's own, (2,). [mm]"""
    area, centroid = panel.area_mm2[members], panel.centroid_mm[members]
    middle = (centroid * area[:, None]).sum(axis=0) / area.sum()
    nearest: FloatArray = centroid[np.argmin(np.hypot(*(centroid - middle).T))]
    return nearest

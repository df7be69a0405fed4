"""The bare board under the glass, and marks on single tesserae."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from bench.drawing.panel import Panel
from bench.screens.picture.looks import BLACK, WHITE, Strip
from bench.screens.picture.strokes import Mesh, merged, ribbon, segments

_FRAME: list[Strip] = [(-1.0, 2.0, WHITE, 0.0), (2.0, 4.0, BLACK, 0.0)]


def board(panel: Panel) -> list[Mesh]:
    """Return a thin line round the panel; the board keeps the neutral grey, so that it tints nothing."""
    page = np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]]) * [panel.width_mm, panel.height_mm]
    strips: list[Strip] = [(0.0, 1.5, BLACK, 0.0)]
    return merged(ribbon(ring, strips, side=1.0, closed=True) for ring in panel.outline_mm or (page,))


def crosses(panel: Panel, tesserae: Iterable[int]) -> list[Mesh]:
    """Return a frame round each tessera and a cross on it, light and dark so that they show on any glass."""
    chosen = list(tesserae)
    if not chosen:
        return []
    frames = [ribbon(panel.rings_mm(i)[0], _FRAME, side=1.0, closed=True) for i in chosen]
    reach = 0.3 * np.sqrt(np.maximum(panel.area_mm2[chosen], 0.0))[:, None]
    centre = panel.centroid_mm[chosen]
    slant = np.hstack([centre - reach, centre + reach])
    ends = np.vstack([slant, slant[:, [0, 3, 2, 1]]])
    bars = [segments(ends[k : k + 5000], dark_dp=1.5, light_dp=2.5) for k in range(0, len(ends), 5000)]
    return merged([*frames, *bars])

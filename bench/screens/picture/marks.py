"""The bare board under the glass, and marks on single tesserae."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from bench.drawing.panel import Panel
from bench.screens.picture.looks import NO_SIDE, WHITE, Side
from bench.screens.picture.strokes import Mesh, merged, ribbon, segments

_OUTSIDE = Side(core_dp=0.0, band_dp=2.0, edge_dp=4.0, colour=WHITE)
_INSIDE = Side(core_dp=0.0, band_dp=1.0, edge_dp=1.0, colour=WHITE)
_BAR = Side(core_dp=0.0, band_dp=1.25, edge_dp=2.75, colour=WHITE)


def board(panel: Panel) -> list[Mesh]:
    """Return a thin line round the panel; the board keeps the neutral grey, so that it tints nothing."""
    page = np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]]) * [panel.width_mm, panel.height_mm]
    return merged(ribbon(ring, NO_SIDE, NO_SIDE, closed=True) for ring in panel.outline_mm or (page,))


def crosses(panel: Panel, tesserae: Iterable[int]) -> list[Mesh]:
    """Return a frame round each tessera and a cross on it, light and dark so that they show on any glass."""
    chosen = list(tesserae)
    if not chosen:
        return []
    frames = [_frame(panel.rings_mm(i)[0]) for i in chosen]
    reach = 0.3 * np.sqrt(np.maximum(panel.area_mm2[chosen], 0.0))[:, None]
    centre = panel.centroid_mm[chosen]
    slant = np.hstack([centre - reach, centre + reach])
    ends = np.vstack([slant, slant[:, [0, 3, 2, 1]]])
    bars = [segments(ends[k : k + 5000], _BAR) for k in range(0, len(ends), 5000)]
    return merged([*frames, *bars])


def _frame(ring: np.ndarray) -> Mesh:
    """Return a frame whose dark edge is on the outside, whichever way the ring turns."""
    x, y = ring.T
    turns_left = np.dot(x, np.roll(y, -1)) < np.dot(y, np.roll(x, -1))  # y runs down
    left, right = (_INSIDE, _OUTSIDE) if turns_left else (_OUTSIDE, _INSIDE)
    return ribbon(ring, left, right, closed=True)

"""Where a large region, or the paper outside, goes on through a narrow neck into what may be a piece."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.lines.regions import Regions

Labels = NDArray[np.int32]
Floats = NDArray[np.float64]

_LARGE = 2.5  # times the median piece: a region that may be two
_PART = 0.25  # of the median piece: smaller ends beyond a neck are none
_FINE = 7.0  # places across a neck that is looked for


def necks(regions: Regions, neck_px: float) -> tuple[Floats, Floats]:
    """Return x and y of each neck up to neck_px wide in a region much larger than its peers, and its width.

    The region without a rim of half a neck falls into parts (opening by a disc, Serra 1982); what is left
    of it goes to the nearest part, and a neck is where two parts that came out large enough meet. [px]
    Right at the edge of the picture there is none, since paper goes on there.
    """
    from scipy.ndimage import distance_transform_edt, label

    median = float(np.median(regions.area_px))
    large = np.flatnonzero(regions.area_px > _LARGE * median) + 1
    which = [*large.tolist(), *([regions.count + 1] if regions.outside else [])]
    every = max(1, int(neck_px / _FINE))
    if not which or neck_px < 2:
        return np.empty((0, 2)), np.empty(0)
    wanted = np.zeros(regions.count + 2, np.int32)
    wanted[which] = which
    own = np.pad(wanted[regions.labels[every // 2 :: every, every // 2 :: every]], 1, mode="edge")
    rim = np.pad(np.zeros_like(own[1:-1, 1:-1], bool), 1, constant_values=True)
    own[rim & (own <= regions.count)] = 0  # paper alone goes on beyond the picture
    off = distance_transform_edt(own > 0) - 0.5  # from the edge of the next place, not its middle
    core = off > neck_px / 2 / every
    part, count = label(core, np.ones((3, 3)))
    if count < 2:
        return np.empty((0, 2)), np.empty(0)
    share = np.bincount(part.ravel(), minlength=count + 1) >= _PART * median / every**2 / 2
    y, x = distance_transform_edt(part == 0, return_distances=False, return_indices=True)
    nearest = np.where(own[y, x] == own, part[y, x], 0)
    place, wide = _meetings(nearest, own, share, off, every)
    rows, columns = regions.labels.shape
    inner = (np.minimum(place, (columns, rows) - place) > neck_px).all(axis=1)
    return place[inner], wide[inner]


def _meetings(
    nearest: Labels, own: Labels, share: NDArray[np.bool_], off: Floats, every: int
) -> tuple[Floats, Floats]:
    """Return one place for each pair of parts that meet: the middle of where they do, and how wide it is."""
    found: list[tuple[Floats, Floats, Floats]] = []
    for dy, dx in ((0, 1), (1, 0)):
        one, other = nearest[: -dy or None, : -dx or None], nearest[dy:, dx:]
        same = own[: -dy or None, : -dx or None] == own[dy:, dx:]
        y, x = np.nonzero((one != other) & (one > 0) & (other > 0) & same)
        low, high = np.minimum(one[y, x], other[y, x]), np.maximum(one[y, x], other[y, x])
        real = share[low] & share[high]
        place = np.stack([x + dx / 2, y + dy / 2], axis=1)[real]
        found.append((low[real] * float(len(share)) + high[real], place, off[y, x][real]))
    key, place, wide = (np.concatenate([one[k] for one in found]) for k in range(3))
    pair, first = np.unique(key, return_inverse=True)
    counts = np.maximum(np.bincount(first, minlength=len(pair)), 1)
    middle = np.stack([np.bincount(first, place[:, k], minlength=len(pair)) / counts for k in (0, 1)], axis=1)
    across = np.zeros(len(pair))
    np.maximum.at(across, first, wide)
    return (middle - 1 + 0.5) * every, 2 * across * every

"""Contours as a hand draws them: the wander of single pixels evened out, specks given to what is around."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

IntGrid = NDArray[np.int32]
_SMOOTHINGS = 2
_WIDE = 3  # a Gaussian has faded beyond three of its sigmas


def drawn_smooth(labels: IntGrid, sigma_px: float, least_px: float) -> IntGrid:
    """Return regions 0 to k − 1, (rows, columns), with their contours smoothed and specks gone.

    Each pixel goes to the region that weighs most around it by a Gaussian of sigma_px, so that what is
    narrower than about that vanishes; connected scraps below least_px join the region around them. A region
    that nothing is left of is still counted: the numbers stay.
    """
    out = labels
    for _ in range(_SMOOTHINGS if sigma_px > 0 else 0):
        out = _voted(out, sigma_px)
    return _without_specks(out, least_px)


def _voted(labels: IntGrid, sigma_px: float) -> IntGrid:
    from scipy.ndimage import find_objects, gaussian_filter

    most = np.zeros(labels.shape, np.float32)
    out = labels.copy()
    reach = int(_WIDE * sigma_px) + 1
    for k, box in enumerate(find_objects(labels + 1)):
        if box is None:
            continue
        near = tuple(slice(max(0, side.start - reach), side.stop + reach) for side in box)
        weight = gaussian_filter((labels[near] == k).astype(np.float32), sigma_px, truncate=_WIDE)
        more = weight > most[near]
        most[near][more] = weight[more]
        out[near][more] = k
    return out


def _without_specks(labels: IntGrid, least_px: float) -> IntGrid:
    from scipy.ndimage import distance_transform_edt, find_objects
    from scipy.ndimage import label as connected

    speck = np.zeros(labels.shape, bool)
    for k, box in enumerate(find_objects(labels + 1)):
        if box is None:
            continue
        parts, _ = connected(labels[box] == k)
        small = np.bincount(parts.ravel()) < least_px
        small[0] = False
        speck[box] |= small[parts]
    if not speck.any() or speck.all():
        return labels
    nearest = distance_transform_edt(speck, return_distances=False, return_indices=True)
    found: IntGrid = labels[tuple(nearest)]
    return found

"""Pieces that touch, taken apart: a mask of glass → a label for each piece."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Bools = NDArray[np.bool_]
Labels = NDArray[np.int32]
Floats = NDArray[np.float64]

NECK = 0.7  # of the narrower side's own width: what is no narrower belongs together


def parted(glass: Bools, least_px: float) -> Labels:
    """Return the pieces of a mask, 1 … n; parts that hang together by a neck only are apart.

    The watershed of the distance from the glass's edge (Vincent & Soille, IEEE PAMI 13 (1991) 583): each
    pixel belongs to the summit to which it climbs. Two basins are one piece again where the pass between
    them lies at least NECK times as far from the edge as the lower of their summits. What is nowhere
    least_px from the edge is no piece, and 0.
    """
    from scipy.ndimage import distance_transform_edt, gaussian_filter

    padded = np.pad(glass, 1)  # what the picture's edge cuts off ends there
    far = np.asarray(distance_transform_edt(padded), np.float64)
    far = np.where(padded, gaussian_filter(far, 1.0), -1.0)
    basin, count = _basins(far)
    return _joined(basin, far, count, least_px)[1:-1, 1:-1]


def _basins(far: Floats) -> tuple[Labels, int]:
    """Return the summit to which each pixel climbs, 1 … n, 0 where far is below 0; far's rim is below 0."""
    from scipy.ndimage import label, maximum_filter

    columns = far.shape[1]
    place = np.arange(far.size).reshape(far.shape)
    steps = [dy * columns + dx for dy in (0, -1, 1) for dx in (0, -1, 1)]  # staying comes first
    inner = place[1:-1, 1:-1].ravel()
    flat = far.ravel()
    best = np.argmax(np.stack([flat[inner + step] for step in steps]), axis=0)
    goes = place.ravel().copy()
    goes[inner] = inner + np.array(steps)[best]
    while not np.array_equal(goes, onward := goes[goes]):
        goes = onward
    summit, count = label((far >= 0) & (far == maximum_filter(far, 3)), np.ones((3, 3)))
    basin = np.where(far >= 0, summit.ravel()[goes].reshape(far.shape), 0)
    return basin.astype(np.int32), int(count)


def _joined(basin: Labels, far: Floats, count: int, least_px: float) -> Labels:
    """Return the basins as pieces, the widest passes joined first."""
    top = np.zeros(count + 1)
    np.maximum.at(top, basin.ravel(), np.maximum(far.ravel(), 0))
    lead = np.arange(count + 1)

    def find(k: int) -> int:
        while lead[k] != k:
            lead[k] = lead[lead[k]]
            k = int(lead[k])
        return k

    for one, other, width in _passes(basin, far):
        a, b = find(one), find(other)
        if a != b and width >= NECK * min(top[a], top[b]):
            low, high = (a, b) if top[a] < top[b] else (b, a)
            lead[low] = high
    group = np.array([find(k) for k in range(count + 1)])
    piece = (group == np.arange(count + 1)) & (top >= least_px)
    piece[0] = False
    number = np.where(piece, np.cumsum(piece), 0).astype(np.int32)
    joined: Labels = number[group[basin]]
    return joined


def _passes(basin: Labels, far: Floats) -> list[tuple[int, int, float]]:
    """Return pairs of basins that touch, with how far from the edge their pass lies, widest first."""
    pairs, widths = [], []
    for one, other, here, there in (
        (basin[:, 1:], basin[:, :-1], far[:, 1:], far[:, :-1]),
        (basin[1:], basin[:-1], far[1:], far[:-1]),
    ):
        touch = (one != other) & (one > 0) & (other > 0)
        pairs.append(np.sort(np.stack([one[touch], other[touch]], axis=1), axis=1))
        widths.append(np.minimum(here, there)[touch])
    pair, width = np.concatenate(pairs), np.concatenate(widths)
    if not len(pair):
        return []
    unique, which = np.unique(pair, axis=0, return_inverse=True)
    widest = np.zeros(len(unique))
    np.maximum.at(widest, which.ravel(), width)
    order = np.argsort(-widest, kind="stable")
    return [(int(unique[k, 0]), int(unique[k, 1]), float(widest[k])) for k in order]

"""What bare ground looks like in a photo of a dry lay: its colour, and the light that falls on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import FloatArray

Bools = NDArray[np.bool_]

_RIM_MM, _RIM_SHARE = 1.5, 0.04  # how wide the strip is along the picture's edge, of its shorter side
_BIN, _LOW, _BINS = (2.0, 2.0, 2.0), (0.0, -50.0, -50.0), (50, 50, 60)
_SPREAD = (3.0, 1.0, 1.0)  # bins: light varies more than hue
_HUE_APART = 6.0  # of ground from ground, in a* and b*
_DARKEST, _BRIGHTER = 0.45, 4.0  # shadow leaves at least so much lightness; no ground is so much lighter
_SHARE = 0.15  # of a cell that must look like ground for it to tell of it
_LIT = 40.0  # CIELAB: the most that a lamp makes one edge lighter than the other
_UPPER, _WINDOW, _SMOOTH = 80, 9, 2.0  # per cent; cells
_DARKER, _CLOSE, _HUE_CLOSE = 2.5, 5.0, 3.0  # ground is the lightest of its hue: less may it fall below
_NEAR_CELLS, _ROUNDS = 3.0, 2  # each round follows a shadow by so many cells more


@dataclass(frozen=True, eq=False)
class Ground:
    """lab: (rows, columns, 3) CIELAB of bare ground at each place, as it is lit there. noise: how far single
    pixels of it are off, as a standard deviation in CIELAB units."""

    lab: FloatArray
    noise: float


def ground_of(lab: FloatArray, mm_per_px: float) -> Ground:
    """Return what the ground looks like; lab: (rows, columns, 3) of the photo.

    Its colour is the most common pale one along the picture's edge. Its light follows what has that hue: in
    cells of a millimetre, the upper part of their neighbourhood, so that joints count for more than dull
    glass; never lighter than the edge lets expect, so that white glass is no ground. The mean of what
    lies close to that is taken around each place, a few times (normalised convolution: Knutsson & Westin
    1993).
    """
    rim = _rim(lab.shape, mm_per_px)
    colour = _common(lab[rim])
    most = _lightest(lab[..., 0], rim & _of_hue(lab, colour), colour[0])
    field = np.empty(lab.shape)
    field[..., 0] = _light(lab, colour, most, mm_per_px)
    field[..., 1:] = colour[1:] * (field[..., :1] / max(colour[0], 1.0))
    for _ in range(_ROUNDS):
        field = _followed(lab, field, mm_per_px)
    off = lab - field
    close = _close(off)
    noise = 1.4826 * float(np.median(np.abs(off[..., 0][close]))) if close.any() else 1.0
    return Ground(field, noise)


def _close(off: FloatArray) -> Bools:
    close: Bools = (off[..., 0] < _CLOSE) & (off[..., 0] > -_DARKER)
    return close & (np.hypot(off[..., 1], off[..., 2]) < _HUE_CLOSE)


def _rim(shape: tuple[int, ...], mm_per_px: float) -> Bools:
    wide = max(1, round(max(_RIM_MM / mm_per_px, _RIM_SHARE * min(shape[:2]))))
    rim = np.ones(shape[:2], bool)
    rim[wide:-wide, wide:-wide] = False
    return rim


def _common(lab: FloatArray) -> FloatArray:
    """Return the most common colour, (3,), pale ones and light ones counting for more."""
    from scipy.ndimage import gaussian_filter

    place = np.floor((lab - _LOW) / _BIN).astype(np.int64)
    place = np.clip(place, 0, np.array(_BINS) - 1)
    counts = np.bincount(np.ravel_multi_index(place.T, _BINS), minlength=int(np.prod(_BINS)))
    counts = gaussian_filter(counts.reshape(_BINS).astype(float), _SPREAD)
    middle = [low + (np.arange(n) + 0.5) * step for low, n, step in zip(_LOW, _BINS, _BIN, strict=True)]
    light, a, b = np.meshgrid(*middle, indexing="ij")
    score = counts * (light / 100) ** 2 * np.exp(-np.hypot(a, b) / 30)
    best = np.array(np.unravel_index(np.argmax(score), _BINS))
    mode = np.array([m[k] for m, k in zip(middle, best, strict=True)])
    near = (np.abs(lab[:, 0] - mode[0]) < 12) & (np.hypot(*(lab[:, 1:] - mode[1:]).T) < 5)
    found: FloatArray = np.median(lab[near], axis=0) if near.any() else mode
    return found


def _of_hue(lab: FloatArray, colour: FloatArray) -> Bools:
    """Tell which pixels have the ground's hue, in whatever light: a* and b* fade with L*."""
    fade = np.clip(lab[..., 0] / max(colour[0], 1.0), 0.3, 1.2)
    apart: Bools = (
        np.hypot(lab[..., 1] - colour[1] * fade, lab[..., 2] - colour[2] * fade) < _HUE_APART
    )
    return apart


def _lightest(light: FloatArray, of_ground: Bools, common: float) -> FloatArray:
    """Return the most lightness that ground has at each place, by a surface of second order through the rim.

    Fitted by least squares with Tukey's weights; what remains at the rim is allowed for.
    """
    rows, columns = light.shape
    y, x = np.nonzero(of_ground & (light > _DARKEST * common) & (light < common + _LIT))
    if len(y) < 50:
        return np.full(light.shape, common + _BRIGHTER)
    step = max(1, len(y) // 20_000)
    y, x = y[::step], x[::step]
    value = light[y, x]
    terms = _terms(x / columns, y / rows)
    weight = np.ones(len(value))
    for _ in range(8):
        root = np.sqrt(weight)[:, None]
        fit = np.linalg.lstsq(terms * root, value * root[:, 0], rcond=None)[0]
        off = value - terms @ fit
        spread = max(1.0, 1.4826 * float(np.median(np.abs(off))))
        weight = np.clip(1 - (off / (4.685 * spread)) ** 2, 0, None) ** 2
    v, u = np.mgrid[:rows, :columns]
    surface = _terms(u.ravel() / columns, v.ravel() / rows) @ fit
    return surface.reshape(light.shape) + max(_BRIGHTER, 3 * spread)


def _terms(x: FloatArray, y: FloatArray) -> FloatArray:
    return np.stack([np.ones_like(x, float), x, y, x * x, x * y, y * y], axis=1)


def _light(lab: FloatArray, colour: FloatArray, most: FloatArray, mm_per_px: float) -> FloatArray:
    """Return the lightness of ground at each place, smooth."""
    from scipy.ndimage import distance_transform_edt, gaussian_filter, percentile_filter

    light = lab[..., 0]
    like = _of_hue(lab, colour) & (light < most) & (light > _DARKEST * most)
    cells = _cells(np.where(like, light, np.nan), mm_per_px)
    known = np.count_nonzero(~np.isnan(cells), axis=2) >= _SHARE * cells.shape[2]
    if not known.any():
        return np.full(light.shape, colour[0])
    value = np.zeros(known.shape)
    value[known] = np.nanpercentile(cells[known], _UPPER, axis=1)
    nearest = distance_transform_edt(~known, return_distances=False, return_indices=True)
    value = percentile_filter(value[tuple(nearest)], _UPPER, _WINDOW, mode="nearest")
    return _spread_out(gaussian_filter(value, _SMOOTH, mode="nearest"), light.shape)


def _followed(lab: FloatArray, field: FloatArray, mm_per_px: float) -> FloatArray:
    """Return the mean around each place of what lies close to the field; the field where little does."""
    from scipy.ndimage import gaussian_filter

    weight = _close(lab - field).astype(float)

    def around(values: FloatArray) -> FloatArray:
        summed = _cells(values, mm_per_px).mean(axis=2)
        return np.asarray(gaussian_filter(summed, _NEAR_CELLS, mode="nearest"), np.float64)

    share = around(weight)
    trust = _spread_out(share / (share + 0.02), weight.shape)
    followed = np.empty_like(field)
    for k in range(3):
        mean = _spread_out(around(lab[..., k] * weight) / np.maximum(share, 1e-6), weight.shape)
        followed[..., k] = field[..., k] + trust * (mean - field[..., k])
    return followed


def _cells(values: FloatArray, mm_per_px: float) -> FloatArray:
    """Return the pixels of each cell of a millimetre, (rows, columns, k); a rest at the far edges goes."""
    cell = max(1, min(round(1 / mm_per_px), *values.shape))
    rows, columns = (size // cell for size in values.shape)
    cut = values[: rows * cell, : columns * cell].reshape(rows, cell, columns, cell)
    return cut.swapaxes(1, 2).reshape(rows, columns, cell * cell)


def _spread_out(cells: FloatArray, shape: tuple[int, ...]) -> FloatArray:
    """Return the values of cells over all pixels, in between in a straight line."""
    from scipy.ndimage import zoom

    scale = (shape[0] / cells.shape[0], shape[1] / cells.shape[1])
    smooth: FloatArray = zoom(cells, scale, order=1, mode="nearest", grid_mode=True)
    return smooth

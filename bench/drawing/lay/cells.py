"""Pieces that settle: each pixel of an area goes to the piece nearest to it, each piece to their middle.

A centroidal Voronoi diagram whose measure follows the row at the piece: a pixel u along and v across it is

    (u / pitch along)⁸ + (v / pitch across)⁸

away, so that cells become oblong and line up (Hausner, "Simulating decorative mosaics", SIGGRAPH 2001,
573–580, with the sum of absolute values in a frame turned by 45° there; the eighth power has the same square
cells, their corners a little round, and no ties). Loose areas measure as the crow flies.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from bench.drawing.lay.flow import Mask, Rows
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts

PASSES = 12
_NEAR = 6  # pieces among which the nearest in the row's measure is sought
_FRESH = (0, 1, 3, 6, 9)  # passes before which these are sought anew: later, pieces hardly move
_SORT_OUT = (2, 5, 8)  # passes after which pieces too small go and those too large become two
_TOO_SMALL, _TOO_LARGE = 0.45, 1.65  # of the area asked for
_AT_ONCE = 1_000_000


@dataclass(frozen=True, eq=False)
class Settled:
    """place: (s, 2) middles of the pieces, x and y. [px] of_pixel: (p,) the piece of each pixel."""

    place: FloatArray
    of_pixel: Counts


def settle(
    mask: Mask,
    rows: Rows,
    place: FloatArray,
    pitch_px: tuple[float, float],
    *,
    loose: bool,
    stride: int,
    passed: Callable[[], None],
) -> Settled:
    """Return the pieces of an area once they have settled, and whose each of its pixels is.

    mask: (rows, columns); of_pixel follows its True ones in row order. place: (s, 2) to begin with. stride:
    while settling only every so manieth pixel is looked at. passed: called after each pass; may raise.
    """
    pixels = _pixels(mask, stride)
    near: Counts | None = None
    for turn in range(PASSES):
        if near is None or turn in _FRESH:
            near = _near(place, pixels)
        of = _nearest(place, rows, pixels, near, pitch_px, loose)
        place, count = _middles(place, pixels, of)
        if turn in _SORT_OUT:
            target = pitch_px[0] * pitch_px[1] / stride**2
            place = _sorted_out(place, pixels, of, count, target)
            near = None
        passed()
    every = _pixels(mask, 1)
    of = np.concatenate(
        [
            _nearest(place, rows, some, _near(place, some), pitch_px, loose)
            for some in np.array_split(every, max(1, len(every) // _AT_ONCE))
        ]
    )
    used, of = np.unique(of, return_inverse=True)
    return Settled(place[used], of)


def _pixels(mask: Mask, stride: int) -> FloatArray:
    """Return the middles of pixels, every so manieth of either way; all where that would leave none."""
    y, x = np.nonzero(mask[::stride, ::stride])
    if not len(y):
        return _pixels(mask, 1)
    return np.asarray(np.stack([x, y], axis=1) * float(stride) + 0.5, np.float64)


def _near(place: FloatArray, pixels: FloatArray) -> Counts:
    """Return the nearest pieces of each pixel as the crow flies, (p, k)."""
    from scipy.spatial import cKDTree

    found: Counts = cKDTree(place).query(pixels, k=min(_NEAR, len(place)))[1].reshape(len(pixels), -1)
    return found


def _nearest(
    place: FloatArray,
    rows: Rows,
    pixels: FloatArray,
    near: Counts,
    pitch_px: tuple[float, float],
    loose: bool,
) -> Counts:
    """Return the piece nearest to each pixel by the measure of its row, (p,)."""
    x, y = place[:, 0].astype(int), place[:, 1].astype(int)
    last_y, last_x = rows.angle_rad.shape[0] - 1, rows.angle_rad.shape[1] - 1
    angle_rad = rows.angle_rad[np.clip(y, 0, last_y), np.clip(x, 0, last_x)]
    cos, sin = np.cos(angle_rad).astype(np.float32), np.sin(angle_rad).astype(np.float32)
    base = place.astype(np.float32)
    best = np.full(len(pixels), np.inf, np.float32)
    found = np.zeros(len(pixels), np.int64)
    px, py = pixels.astype(np.float32).T
    for k in range(near.shape[1]):
        of = near[:, k]
        dx, dy = px - base[of, 0], py - base[of, 1]
        c, s = cos[of], sin[of]
        u, v = (dx * c + dy * s) / np.float32(pitch_px[0]), (dy * c - dx * s) / np.float32(pitch_px[1])
        u *= u
        v *= v
        if not loose:
            u, v = (u * u) ** 2, (v * v) ** 2
        away = u + v
        closer = away < best
        best[closer] = away[closer]
        found[closer] = of[closer]
    return found


def _middles(place: FloatArray, pixels: FloatArray, of: Counts) -> tuple[FloatArray, Counts]:
    """Return the pieces moved to the middle of their pixels, and how many pixels each has."""
    count = np.bincount(of, minlength=len(place))
    total = np.stack([np.bincount(of, pixels[:, k], minlength=len(place)) for k in (0, 1)], axis=1)
    return np.where(count[:, None] > 0, total / np.maximum(count, 1)[:, None], place), count


def _sorted_out(
    place: FloatArray, pixels: FloatArray, of: Counts, count: Counts, target: float
) -> FloatArray:
    """Return the pieces without those far too small, those far too large as two, apart along their length."""
    large = np.flatnonzero(count > _TOO_LARGE * target)
    keep = count >= min(_TOO_SMALL * target, count.max())
    if not len(large):
        return np.asarray(place[keep], np.float64)
    away = pixels - place[of]
    xx, yy, xy = (
        np.bincount(of, part, minlength=len(place)) / np.maximum(count, 1)
        for part in (away[:, 0] ** 2, away[:, 1] ** 2, away[:, 0] * away[:, 1])
    )
    turn = np.arctan2(2 * xy, xx - yy)[large] / 2
    long = np.sqrt(np.maximum(xx + yy + np.hypot(xx - yy, 2 * xy), 0.0) / 2)[large]
    step = np.stack([np.cos(turn), np.sin(turn)], axis=1) * (0.87 * long)[:, None]  # a half's own middle
    keep[large] = False
    return np.asarray(np.concatenate([place[keep], place[large] + step, place[large] - step]))

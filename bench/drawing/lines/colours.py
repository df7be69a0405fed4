"""What colour each piece has in a picture of the same proportions."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.panel import FloatArray
from bench.drawing.photo.read import Pixels

NEUTRAL = (190, 190, 186)
_SAMPLES = (250_000, 100, 2_000_000)  # at least, for each piece, at most
_UNLIKE = 8.0  # CIELAB units from paper
_ENOUGH = 20  # pieces to see how the light falls
_SOME = 0.03  # of the pieces that must be unlike for the drawing to count as coloured


def colours_of(labels: NDArray[np.int32], count: int, pixels: Pixels) -> NDArray[np.uint8]:
    """Return the median sRGB of each of the labels 1 … count, (count, 3); NEUTRAL where none is seen.

    The picture is laid over the labels whatever its size. The median of each channel is the same in linear
    light, since the one rises with the other. About a hundred places in each piece are looked at.
    """
    rows, columns = labels.shape
    low, each, high = _SAMPLES
    every = max(1, int(math.sqrt(rows * columns / min(max(low, each * count), high))))
    y, x = np.arange(every // 2, rows, every), np.arange(every // 2, columns, every)
    seen = labels[np.ix_(y, x)].ravel().astype(np.int64)
    there = np.ix_(y * pixels.shape[0] // rows, x * pixels.shape[1] // columns)
    values = pixels[there].reshape(-1, 3)
    of_piece = (seen > 0) & (seen <= count)
    seen, values = seen[of_piece] - 1, values[of_piece]
    counts = np.bincount(seen, minlength=count)
    middle = np.cumsum(counts) - counts + counts // 2
    found = np.full((count, 3), NEUTRAL, np.uint8)
    for channel in range(3):
        ranked = np.sort(seen << 8 | values[:, channel])
        found[counts > 0, channel] = ranked[middle[counts > 0]] & 255
    return found


def is_coloured(colour: NDArray[np.uint8], place: FloatArray) -> bool:
    """Tell whether pieces differ in colour beyond what uneven light does to paper.

    place: (n, 2) where each is, in any unit. Light over a page is a quadratic in x and y, fitted to CIELAB
    by least squares; of few pieces the middle one is the paper.
    """
    lab = srgb_to_lab(colour)
    off = lab - np.median(lab, axis=0)
    if len(colour) >= _ENOUGH:
        x, y = ((place - place.mean(axis=0)) / np.maximum(np.ptp(place, axis=0), 1e-9)).T
        light = np.stack([np.ones(len(x)), x, y, x * x, x * y, y * y], axis=1)
        off = lab - light @ np.linalg.lstsq(light, lab, rcond=None)[0]
    unlike = np.count_nonzero(np.sqrt((off**2).sum(axis=1)) > _UNLIKE)
    return bool(unlike >= max(1, _SOME * len(colour)))

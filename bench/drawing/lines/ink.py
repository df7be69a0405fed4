"""Which pixels of a picture are line: dark, and thin against what lies around."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.photo.read import Pixels

Grey = NDArray[np.uint8]
Bools = NDArray[np.bool_]
Shares = NDArray[np.float64]

WIDEST_LINE_MM = 4.0
_SMALL_PX = 1_500  # the longer side of the picture on which widths are first measured
_BLURRED_PX = 6.0  # lines this wide lose nothing when the grain is smoothed away
_FAINTEST = 0.07  # of the brightness beside it: the faintest pencil that counts as a line
_CORE = 0.75  # of the darkness of lines lies below that of their middles, the rest being soft edges
_HIGHEST = 1.2  # times the limit between the classes, so that lines fainter than most are kept
_SOLID = 0.15  # of the way from the ink's own tone to that of the ground: as dark as ink
_PATCH = 3.0  # lines wide: no line any more
_AROUND_MM = 12.0  # over which both tones are taken
_SAMPLED_MM = 0.4


@dataclass(frozen=True, eq=False)
class Ink:
    """dark: (rows, columns) the pixels that are line; line_px: how wide lines are; patches: (rows, columns)
    of the same, those too wide to be a line, but as dark as the lines."""

    dark: Bools
    line_px: float
    patches: Bools


def ink_of(pixels: Pixels, mm_per_px: float) -> Ink | None:
    """Return the ink of a picture; None for a page without any.

    A line is what the closing of the picture by a square somewhat wider than a line fills (the top-hat of
    dark things: Meyer 1979), measured against the closing itself, so that neither uneven light nor fills
    of any colour matter. Otsu (1979) tells lines from paper; the edge is half-way between their tones.
    What is as dark as the lines around, yet too wide for one, is ink as well: blots, corners filled in.
    """
    from PIL import Image, ImageFilter

    picture = Image.fromarray(pixels).convert("L")
    shrunk = max(1, round(max(picture.size) / _SMALL_PX))
    rough = _rough_line_px(np.asarray(picture.reduce(shrunk)), mm_per_px * shrunk)
    if rough is None:
        return None
    if rough * shrunk >= _BLURRED_PX:
        picture = picture.filter(ImageFilter.BoxBlur(1))
    grey = np.asarray(picture)
    found = _lines(grey, _odd((3 * rough + 1) * shrunk))
    if found is None or not found.any():
        return None
    wide = _as_dark(grey, found, mm_per_px) & ~found
    return Ink(found | wide, line_px(found), wide)


def line_px(dark: Bools) -> float:
    """Return the mean width of lines: twice their area by the length of both their edges. [px]"""
    return float(2 * np.count_nonzero(dark) / max(1.0, edges_px(dark)))


def edges_px(dark: Bools) -> float:
    """Return how long the edges of what is dark are: π/8 (n₀ + n₉₀ + (n₄₅ + n₁₃₅)/√2), right within 6 %. [px]

    n: how often dark meets light along all rows, columns and diagonals (Crofton's formula for four
    directions; Serra 1982). The picture's own edge is none.
    """
    straight = np.count_nonzero(dark[1:] != dark[:-1]) + np.count_nonzero(dark[:, 1:] != dark[:, :-1])
    slanting = np.count_nonzero(dark[1:, 1:] != dark[:-1, :-1])
    slanting += np.count_nonzero(dark[1:, :-1] != dark[:-1, 1:])
    return math.pi / 8 * (straight + slanting / math.sqrt(2))


def patches_in(ink: Ink) -> int:
    """Return how many patches as dark as lines are at least three lines wide both ways."""
    from scipy.ndimage import label, minimum_filter

    every = max(1, int(ink.line_px / 3))
    wide = minimum_filter(ink.patches[::every, ::every], max(3, int(_PATCH * ink.line_px / every)))
    _, count = label(wide)
    return int(count)


def _odd(size: float) -> int:
    return 2 * int(size / 2) + 1


def _rough_line_px(grey: Grey, mm_per_px: float) -> float | None:
    """Return how wide a line is: the median of runs, with an ever smaller square until it fits. [px]"""
    size = max(5, min(_odd(WIDEST_LINE_MM / mm_per_px), _odd(min(grey.shape) / 8)))
    while True:
        found = _lines(grey, size)
        if found is None or not found.any():
            return None
        wide = _run_px(found)
        smaller = max(5, _odd(3 * wide + 1))
        if smaller >= size:
            return wide
        size = smaller


def _run_px(dark: Bools) -> float:
    """Return the median length of the runs of dark pixels, along rows and columns."""
    runs = []
    for way in (dark, dark.T):
        padded = np.zeros((way.shape[0], way.shape[1] + 1), np.int8)
        padded[:, :-1] = way
        step = np.diff(padded.ravel(), prepend=0)
        runs.append(np.flatnonzero(step < 0) - np.flatnonzero(step > 0))
    return float(np.median(np.concatenate(runs)))


def _lines(grey: Grey, size: int) -> Bools | None:
    """Return what is darker than its closing by a square of that size; None where nothing stands out."""
    from scipy.ndimage import grey_closing

    ground = grey_closing(grey, (size, size))
    least = _limit(grey[::3, ::3], ground[::3, ::3])
    if least is None:
        return None
    darkest = np.floor(np.arange(256) * (1 - least)).astype(np.uint8)
    dark: Bools = grey < darkest[ground]
    return dark


def _limit(grey: Grey, ground: Grey) -> float | None:
    """Return from what share of missing brightness on a pixel is line; None where there is none."""
    missing = 1 - grey / np.maximum(ground, 1.0)
    counts, edges = np.histogram(missing, 256, (0.0, 1.0))
    middles = (edges[:-1] + edges[1:]) / 2
    best = otsu(counts.astype(float))
    on = np.arange(256) > best
    if not counts[on].any():
        return None
    rest = float(middles[~on] @ counts[~on] / max(1, counts[~on].sum()))
    spread = float(np.sqrt((middles[~on] - rest) ** 2 @ counts[~on] / max(1, counts[~on].sum())))
    apart = float(middles[on] @ counts[on] / counts[on].sum() - rest)
    if apart < _FAINTEST or apart < 4 * spread:
        return None
    core = float(middles[np.searchsorted(np.cumsum(counts * on), _CORE * counts[on].sum())])
    return min((rest + core) / 2, _HIGHEST * float(edges[best + 1]))


def otsu(counts: Shares) -> int:
    """Return the last bin of the lower of the two classes that a histogram falls into most clearly.

    Greatest variance between classes, w0·w1·(m0 − m1)²; of equals the middle one.
    Otsu, IEEE Trans. SMC 9 (1979) 62.
    """
    weight, moment = np.cumsum(counts), np.cumsum(counts * np.arange(len(counts)))
    other = weight[-1] - weight
    with np.errstate(divide="ignore", invalid="ignore"):
        between = (moment[-1] * weight / weight[-1] - moment) ** 2 / (weight * other)
    between = np.nan_to_num(between[:-1], nan=0.0, posinf=0.0)
    best = np.flatnonzero(between >= between.max() * (1 - 1e-12))
    return int(best[len(best) // 2])


def _as_dark(grey: Grey, lines: Bools, mm_per_px: float) -> Bools:
    """Return which pixels are as dark as the lines around them."""
    from PIL import Image
    from scipy.ndimage import uniform_filter

    every = max(1, min(min(grey.shape) // 64, int(_SAMPLED_MM / mm_per_px)))
    tone, on = grey[::every, ::every].astype(np.float32), lines[::every, ::every].astype(np.float32)
    size = [max(1, int(_AROUND_MM / mm_per_px / every))] * 2
    share, inked, all_of_it = (uniform_filter(one, size, mode="nearest") for one in (on, on * tone, tone))
    ink = inked / np.maximum(share, 1e-3)
    ground = (all_of_it - inked) / np.maximum(1 - share, 1e-3)
    most = np.where(share > 1e-3, ink + _SOLID * (ground - ink), 0)
    limit = Image.fromarray(np.clip(most, 0, 255).astype(np.uint8)).resize(
        (grey.shape[1], grey.shape[0]), Image.Resampling.BILINEAR
    )
    as_dark: Bools = grey < np.asarray(limit)
    return as_dark

"""Breaks in lines: loose ends are carried on to the line or end that they point at, if it is near."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.lines.thin import loose_ends, thinned

Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]

WIDEST_TURN = 1.25  # to either side of where a line was heading, in radians
_RAYS = 25
_PER_LINE_PX = 4.0  # a line this wide is wide enough to be thinned
_BURR = 0.75  # times a line's width: shorter branches are none


@dataclass(frozen=True, eq=False)
class Breaks:
    """from_px, to_px: (n, 2) x and y of each stroke that closes a break; width_px: (n,) the break itself."""

    from_px: Floats
    to_px: Floats
    width_px: Floats

    def take(self, which: NDArray[np.intp] | Bools) -> Breaks:
        return Breaks(self.from_px[which], self.to_px[which], self.width_px[which])


def finely_closed(dark: Bools, line_px: float, gap_px: float) -> Bools:
    """Return the lines with breaks and slits closed up to half a line's width or gap_px (binary closing)."""
    size = 2 * _shrunk(line_px, gap_px) - 1
    if size == 1:
        return dark
    grown = np.pad(dark, size - 1)
    for op in (np.logical_or, np.logical_and):
        for _ in range(2):  # rows, then columns
            grown = _slid(grown.T, size, op)
    return grown


def _slid(mask: Bools, size: int, op: np.ufunc) -> Bools:
    """Return `op` over each run of `size` rows; the runs double, so that there are few steps."""
    have = 1
    while have < size:
        step = min(have, size - have)
        mask = op(mask[:-step], mask[step:])
        have += step
    return mask


def _shrunk(line_px: float, gap_px: float) -> int:
    """Return how much smaller lines may be looked at, so that no break wider than gap_px is lost."""
    return max(1, min(int(line_px / _PER_LINE_PX), int(gap_px / 2) + 1))


def shrink(dark: Bools, factor: int) -> Bools:
    """Return a smaller picture, dark where any of factor × factor pixels is; a rest at the far edge goes."""
    rows, columns = dark.shape[0] // factor * factor, dark.shape[1] // factor * factor
    out = np.zeros((rows // factor, columns // factor), bool)
    for y in range(factor):
        for x in range(factor):
            out |= dark[y:rows:factor, x:columns:factor]
    return out


def breaks_of(dark: Bools, line_px: float, gap_px: float, watch_px: float) -> Breaks:
    """Return the breaks up to watch_px wide where a loose end faces a line, one for each end, narrow first.

    From each loose end (`thin.loose_ends`) rays go out to either side of where the line was heading: the
    first dark met beyond the end's own is where the line is carried on to. Of the rays the best is the
    shortest, a turn counting as longer. Two ends that face one another count once.
    """
    factor = _shrunk(line_px, gap_px)
    small = shrink(dark, factor)
    wide = line_px / factor
    ends, way = loose_ends(thinned(small), int(np.ceil(_BURR * wide)) + 1)
    if not len(ends):
        return Breaks(np.empty((0, 2)), np.empty((0, 2)), np.empty(0))
    turn = np.linspace(-WIDEST_TURN, WIDEST_TURN, _RAYS)
    cos, sin = np.cos(turn), np.sin(turn)
    ray = np.stack(
        [way[:, :1] * cos + way[:, 1:] * sin, way[:, 1:] * cos - way[:, :1] * sin], axis=2
    )  # (ends, rays, 2) y, x
    along = _half_steps(float(watch_px / factor + 2 * wide))
    middle = (ends + 0.5).astype(np.float64)
    first, hit = _met(small, middle, ray, along)
    met = np.isfinite(hit) & (first <= 1.5 * wide)
    bare: Floats = _between(first, np.where(met, hit, np.inf))
    best = np.argmin(bare + (1 - cos) * wide, axis=1)[:, None]
    near = np.take_along_axis(met, best, axis=1)[:, 0]
    start: Floats = middle[near] * factor
    way = np.take_along_axis(ray, best[..., None], axis=1)[near]
    first, hit = _met(dark, start, way, _half_steps(float(along[-1]) * factor))
    bare = _between(first, hit)[:, 0]
    to: Floats = start + way[:, 0] * (hit + line_px / 2)
    real = bare <= watch_px
    return _once(Breaks(start[real][:, ::-1], to[real][:, ::-1], bare[real]), line_px)


def _met(dark: Bools, start: Floats, ray: Floats, along: Floats) -> tuple[Floats, Floats]:
    """Return how far along each ray the first bare pixel lies, and the first dark one after it."""
    rows, columns = dark.shape
    first, hit = np.full((2, *ray.shape[:2]), np.inf)
    for far in along:
        at = np.floor(start[:, None] + ray * far).astype(np.int64)
        inside = ((at >= 0) & (at < (rows, columns))).all(axis=2)
        at = np.clip(at, 0, (rows - 1, columns - 1))
        on = dark[at[..., 0], at[..., 1]] & inside
        first[~on & inside & ~np.isfinite(first)] = far
        hit[on & np.isfinite(first) & ~np.isfinite(hit)] = far
    return first, hit


def _half_steps(far: float) -> Floats:
    steps: Floats = np.arange(1, int(2 * far) + 2) / 2
    return steps


def _between(first: Floats, hit: Floats) -> Floats:
    """Return how much lies between the two; infinity where nothing was hit."""
    met = np.isfinite(hit)
    found: Floats = np.where(met, hit, np.inf) - np.where(met, first, 0.0)
    return found


def _once(breaks: Breaks, line_px: float) -> Breaks:
    """Return the breaks, narrow first, without those whose middle lies on that of a narrower one."""
    from scipy.spatial import cKDTree

    breaks = breaks.take(np.argsort(breaks.width_px, kind="stable"))
    if len(breaks.width_px) < 2:
        return breaks
    middle = (breaks.from_px + breaks.to_px) / 2
    pairs = cKDTree(middle).query_pairs(1.5 * line_px, output_type="ndarray")
    keep = np.ones(len(middle), bool)
    keep[pairs.max(axis=1)] = False
    return breaks.take(keep)


def drawn(dark: Bools, lines_px: list[tuple[Floats, float]]) -> Bools:
    """Return the lines with more drawn in: each (points, 2) x and y, and its width. [px]"""
    from PIL import Image, ImageDraw

    if not lines_px:
        return dark
    image = Image.fromarray(dark.view(np.uint8))
    pen = ImageDraw.Draw(image)
    for points, width in lines_px:
        for x, y in points.tolist():
            pen.ellipse((x - width / 2, y - width / 2, x + width / 2, y + width / 2), fill=1)
        if len(points) > 1:
            pen.line(points.ravel().tolist(), fill=1, width=max(1, round(width)))
    return np.array(image, np.uint8).view(bool)

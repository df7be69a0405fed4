"""Which glass of its region's mix each piece is cut from: in the shares asked for, as light as the paint."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts
from bench.drawing.study.model import Region

_LOOSE_L = 6.0  # of lightness: how far chance may move a piece in the order, so that no edge of shades shows
_HANDFUL = 12
_PINCH = 0.08  # a share below it is strewn, whatever the paint


def glass_of(
    region: Region, place_mm: FloatArray, light: FloatArray | None, rng: np.random.Generator
) -> Counts:
    """Return the glass of each of a region's n pieces, (n,) index into its mix.

    place_mm: (n, 2) where they lie. light: (n,) lightness L* of the paint under each; None: no paint, and
    the glasses are mixed evenly.
    Each share is met to within a piece (largest remainder). The lightest glass goes where the paint is
    lightest; a glass of a very small share is strewn, its pieces well apart.
    """
    count = len(place_mm)
    wanted = _whole(np.array([glass.share for glass in region.mix]), count)
    rank = rng.random(count) if light is None else light + rng.normal(0.0, _LOOSE_L, count)
    free = np.ones(count, bool)
    out = np.zeros(count, np.int64)
    for k, glass in enumerate(region.mix):
        if glass.share < _PINCH and wanted[k]:
            strewn = _strewn(place_mm, np.flatnonzero(free), int(wanted[k]), rng)
            out[strewn], free[strewn] = k, False
    rest = [k for k, glass in enumerate(region.mix) if glass.share >= _PINCH or not wanted[k]]
    depth = srgb_to_lab(np.array([region.mix[k].colour for k in rest]))[:, 0] if rest else np.empty(0)
    places = np.flatnonzero(free)[np.argsort(rank[free], kind="stable")]
    ends = np.cumsum([wanted[rest[k]] for k in np.argsort(depth, kind="stable")])
    for k, some in zip(np.argsort(depth, kind="stable").tolist(), np.split(places, ends[:-1]), strict=True):
        out[some] = rest[k]
    return out


def _strewn(place_mm: FloatArray, free: Counts, count: int, rng: np.random.Generator) -> Counts:
    """Return some of the free pieces, well apart: each the farthest of a handful drawn by chance."""
    chosen: list[int] = []
    far = np.full(len(place_mm), np.inf)
    for _ in range(count):
        left = free[far[free] > 0]
        few = rng.choice(left, min(_HANDFUL, len(left)), replace=False)
        one = int(few[np.argmax(far[few])])
        chosen.append(one)
        far = np.minimum(far, ((place_mm - place_mm[one]) ** 2).sum(axis=1))
        far[one] = -1.0
    return np.array(chosen, np.int64)


def _whole(share: FloatArray, count: int) -> NDArray[np.int64]:
    """Return whole numbers that sum to count, as near to the shares as can be (largest remainder)."""
    exact = share * count
    found: NDArray[np.int64] = np.floor(exact + 1e-9).astype(np.int64)
    short = count - int(found.sum())
    found[np.argsort(-(exact - found), kind="stable")[:short]] += 1
    return found

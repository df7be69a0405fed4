"""From the pixels of the pieces to their outlines in mm, and that of the whole."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.lines.how import LineHow
from bench.drawing.lines.regions import Regions
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts, Rings, holds, moments
from bench.drawing.trace import traced

_LEAST_TOLERANCE_MM = 0.05
_AT_ONCE = 64


@dataclass(frozen=True)
class Scale:
    """Millimetres of a pixel, across and down."""

    x_mm: float
    y_mm: float

    @property
    def mm(self) -> float:
        return math.sqrt(self.x_mm * self.y_mm)

    def to_mm(self, points_px: FloatArray) -> FloatArray:
        scaled: FloatArray = points_px * (self.x_mm, self.y_mm)
        return scaled


def tolerance_px(how: LineHow, wide_px: float, mm_per_px: float) -> float:
    if how.tolerance_mm is not None:
        return how.tolerance_mm / mm_per_px
    return min(max(1.0, _LEAST_TOLERANCE_MM / mm_per_px), max(0.5, wide_px / 3))


def outlines_of(
    regions: Regions, off_px: float, scale: Scale
) -> tuple[Rings, Counts, tuple[FloatArray, ...]]:
    """Return the outlines of the pieces and their owners, and of the whole where paper goes around it.

    A hole in which no piece lies is a stroke or a speck within a piece, and is filled.
    """
    rings, owner = traced(regions.labels, mm_per_px=1.0, tolerance_mm=off_px)
    area, _ = moments(rings)
    first = rings.points_mm[rings.start[np.searchsorted(owner, np.arange(regions.count))]]
    smallest = float(regions.area_px.min())
    keep = area > 0
    for k in np.flatnonzero(area <= -smallest / 2).tolist():
        keep[k] = _holds_any(rings.points_mm[rings.start[k] : rings.start[k + 1]], first)
    paper = owner == regions.count
    whole, around = rings, paper & keep & (area < 0)
    if not around.any():
        whole, around = _beside_paper(regions, off_px)
    of_whole = whole.take(np.flatnonzero(around))
    outline_mm = tuple(scale.to_mm(one) for one in np.split(of_whole.points_mm, of_whole.start[1:-1]))
    pieces = np.flatnonzero(keep & ~paper)
    kept = rings.take(pieces)
    return Rings(scale.to_mm(kept.points_mm), kept.start), owner[pieces], outline_mm if around.any() else ()


def _holds_any(ring: FloatArray, points: FloatArray) -> bool:
    """Tell whether the ring goes around any of the points; a few are looked at at a time."""
    near = points[((points > ring.min(axis=0)) & (points < ring.max(axis=0))).all(axis=1)]
    return any(holds(ring, near[k : k + _AT_ONCE]).any() for k in range(0, len(near), _AT_ONCE))


def _beside_paper(regions: Regions, off_px: float) -> tuple[Rings, NDArray[np.bool_]]:
    """Return the outlines of all that is not paper, and which go around so much that they count.

    Without paper there are none: the page is the outline.
    """
    if not regions.outside:
        return Rings(np.empty((0, 2)), np.zeros(1, np.int64)), np.zeros(0, bool)
    rest = (regions.labels <= regions.count).astype(np.int32)
    rings, _ = traced(rest, mm_per_px=1.0, tolerance_mm=off_px)
    area, _ = moments(rings)
    return rings, area > regions.area_px.min()

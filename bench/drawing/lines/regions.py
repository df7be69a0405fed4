"""What the lines enclose: which regions are pieces, and which are paper around them or specks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import LeftOut
from bench.speech import say

Bools = NDArray[np.bool_]
Labels = NDArray[np.int32]
Counts = NDArray[np.int64]

_NEAR_EDGE = 0.1  # of the picture's shorter side
_FAR_LARGER = 10.0  # than the median of the regions that the lines enclose
_ENOUGH = 4  # regions to have a median that tells anything
_SLIVER = 0.3  # of a median region's side: thinner at the picture's edge is no piece


@dataclass(frozen=True, eq=False)
class Regions:
    """labels: (rows, columns) 0 line, 1 … count the pieces, count + 1 the paper outside if there is any.

    area_px: (count,) of the pieces. specks: how many regions were too small. at_edge: how many
    pieces the picture's edge bounds. left_out: what else was told apart.
    """

    labels: Labels
    area_px: Counts
    outside: bool
    specks: int
    at_edge: int
    left_out: tuple[LeftOut, ...]

    @property
    def count(self) -> int:
        return len(self.area_px)


def regions_of(dark: Bools, least_px: float) -> Regions:
    """Return the regions between lines, pixels that meet at a corner only being apart."""
    from scipy.ndimage import label

    labels, count = label(~dark)
    area = _areas(labels, count)
    large = area >= max(1.0, least_px)
    along = np.bincount(_edge(labels), minlength=count + 1)[1:]
    paper, sliver = _outside(labels, area, large, along)
    piece = large & ~paper & ~sliver
    number = np.zeros(count + 1, np.int32)
    number[1:][piece] = np.arange(1, int(piece.sum()) + 1)
    number[1:][paper] = piece.sum() + 1
    left_out = [
        LeftOut("paper", int(paper.sum()), say("it lies around the drawing, at the edge of the picture")),
        LeftOut("sliver", int((sliver & large).sum()), say("it lies between a line and the picture's edge")),
    ]
    return Regions(
        labels=number[labels],
        area_px=area[piece],
        outside=bool(paper.any()),
        specks=int((~large & ~paper).sum()),
        at_edge=int((piece & (along > 0)).sum()),
        left_out=tuple(one for one in left_out if one.count),
    )


def _areas(labels: Labels, count: int) -> Counts:
    """Return how many pixels each region has, run by run along the rows."""
    flat = labels.ravel()
    begins = np.concatenate([[0], np.flatnonzero(flat[1:] != flat[:-1]) + 1])
    long = np.diff(begins, append=flat.size)
    return np.bincount(flat[begins], long, minlength=count + 1)[1:].astype(np.int64)


def _edge(labels: Labels) -> Labels:
    return np.concatenate([labels[0], labels[-1], labels[1:-1, 0], labels[1:-1, -1]])


def _outside(labels: Labels, area: Counts, large: Bools, along: Counts) -> tuple[Bools, Bools]:
    """Return which regions are paper outside, and which are slivers.

    Paper comes near three or four sides of the picture and fills less than half of its own box, as a frame
    does; or it touches the edge, and comes near all four sides or is far larger than the pieces. A sliver
    touches the edge and is thin along it. Every other region is a piece, at the edge too.
    """
    near = max(1, int(_NEAR_EDGE * min(labels.shape)))
    sides = np.zeros(len(area) + 1, np.int64)
    for strip in (labels[:near], labels[-near:], labels[:, :near], labels[:, -near:]):
        reached = np.zeros(len(sides), bool)
        reached[strip] = True
        sides += reached
    sides = sides[1:]
    touches = along > 0
    own = large & ~touches
    median = float(np.median(area[own])) if own.sum() >= _ENOUGH else np.inf
    far_larger = area > _FAR_LARGER * median
    fill = np.ones(len(area))
    for k in np.flatnonzero(sides >= 3).tolist():
        fill[k] = area[k] / _box_px(labels == k + 1)
    framing = (sides >= 3) & (fill < 0.5)
    paper = framing | (touches & (far_larger | (sides == 4)))
    typical = median if np.isfinite(median) else float(np.median(area[large])) if large.any() else 0.0
    sliver = touches & ~paper & (area < _SLIVER * np.sqrt(typical) * along)
    return paper, sliver


def _box_px(mask: Bools) -> int:
    """Return how many pixels the upright box around a region has."""
    return int(np.prod([np.ptp(np.flatnonzero(mask.any(axis=axis))) + 1 for axis in (0, 1)]))

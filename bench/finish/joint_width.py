"""How wide the joints are in truth, and whether their grout holds sand.

Half-way between two pieces runs the line on which both are equally far (the medial axis of the joint). At
points of it the distances to the two outlines add up to the joint's width there, at a crossing to a little
more. The points are found on a grid; the distances are exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from bench.drawing.boxes import spread_out
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.calipers import calipers
from bench.finish.faults import JointsWiderThanPieces
from bench.finish.zones import JointGrid
from bench.speech import length, say

# ANSI A118.6 and A108.10, a summary of them: unsanded up to an eighth of an inch, sanded from there on
SANDED_ABOVE_MM = 3.0
_MOST_SAMPLES = 40_000

Sand = Literal["unsanded", "sanded"]


@dataclass(frozen=True)
class Widths:
    """Widths of joints by length: a tenth is narrower than p10, half than p50, a tenth wider than p90."""

    p10_mm: float
    p50_mm: float
    p90_mm: float


@dataclass(frozen=True, eq=False)
class WidthSamples:
    """Widths at points that lie evenly along the joints: the two pieces, (s, 2), and the width. (s,) [mm]"""

    pair: IntArray
    width_mm: FloatArray

    def widths(self, members: Sequence[int] | None = None) -> Widths | None:
        """Return the widths of the joints round some tesserae, all if none are named; None without any."""
        chosen = self.width_mm
        if members is not None:
            chosen = chosen[np.isin(self.pair, members).any(axis=1)]
        if not len(chosen):
            return None
        p10, p50, p90 = np.percentile(chosen, (10, 50, 90)).tolist()
        return Widths(p10, p50, p90)


def width_samples(panel: Panel, grid: JointGrid | None) -> WidthSamples:
    """Return the widths between pieces; none where pieces touch, or joints are finer than the grid."""
    if grid is None:
        return WidthSamples(np.zeros((0, 2), np.int32), np.zeros(0))
    parts = [_between(grid, axis) for axis in (0, 1)]
    pair = np.concatenate([p for p, _ in parts])
    at_mm = np.concatenate([a for _, a in parts])
    some = slice(None, None, max(1, len(pair) // _MOST_SAMPLES))
    pair, at_mm = pair[some], at_mm[some]
    width_mm = _off_mm(panel, pair[:, 0], at_mm) + _off_mm(panel, pair[:, 1], at_mm)
    return WidthSamples(pair, width_mm)


def check_widths(panel: Panel, widths: Widths | None) -> None:
    """Raise JointsWiderThanPieces where the usual joint is wider than the usual piece."""
    if widths is None:
        return
    piece_mm = float(np.median(calipers(panel)[0]))
    if widths.p50_mm > piece_mm:
        raise JointsWiderThanPieces(widths.p50_mm, piece_mm)


def sand_for(widths: Widths | None, *, scratches: bool) -> tuple[Sand, str]:
    """Return whether grout is to hold sand, and why. scratches: the glass takes scratches from sand."""
    if widths is None:
        return "unsanded", say("no joint is wide enough for sand")
    wide = length(widths.p90_mm, 1)
    if widths.p90_mm <= SANDED_ABOVE_MM:
        return "unsanded", say("nine tenths of the joints are at most {wide} wide", wide=wide)
    if scratches:
        return "unsanded", say(
            "joints up to {wide} ask for sand, which scratches this glass: "
            "fill them in two passes, and try an offcut",
            wide=wide,
        )
    return "sanded", say("a tenth of the joints is wider than {wide}; try it on an offcut first", wide=wide)


def sand_said(sand: Sand) -> str:
    """Say whether grout holds sand."""
    return say("sanded") if sand == "sanded" else say("unsanded")


def _between(grid: JointGrid, axis: int) -> tuple[IntArray, FloatArray]:
    """Return where joint points side by side belong to two pieces: which, (s, 2), and half-way. (s, 2)"""
    near, joint = np.moveaxis(grid.nearest, axis, 0), np.moveaxis(grid.joint, axis, 0)
    here, there = np.nonzero((near[1:] != near[:-1]) & (joint[1:] | joint[:-1]))
    pair = np.stack([near[1:][here, there], near[:-1][here, there]], axis=1)
    along, across = (here + 1.0) * grid.step_mm, (there + 0.5) * grid.step_mm
    x_y = (across, along) if axis == 0 else (along, across)
    return pair.astype(np.int32), np.stack(x_y, axis=1)


def _off_mm(panel: Panel, tessera: IntArray, at_mm: FloatArray) -> FloatArray:
    """Return how far each point is from the outlines of a tessera. (s,), (s, 2) → (s,) [mm]"""
    first = panel.ring_start[panel.tessera_ring[tessera]].astype(np.int64)
    last = panel.ring_start[panel.tessera_ring[tessera + 1]].astype(np.int64)
    point, k = spread_out(last - first)
    start, end = _sides(panel)
    side = first[point] + k
    way = end[side] - start[side]
    reach = at_mm[point] - start[side]
    share = (reach * way).sum(axis=1) / np.maximum((way**2).sum(axis=1), 1e-18)
    foot = reach - np.clip(share, 0.0, 1.0)[:, None] * way
    off = np.hypot(foot[:, 0], foot[:, 1])
    found: FloatArray = np.minimum.reduceat(off, np.cumsum(last - first) - (last - first))
    return found if len(off) else np.zeros(0)


def _sides(panel: Panel) -> tuple[FloatArray, FloatArray]:
    """Return where each side of an outline begins and ends, by the place of its first point."""
    start = panel.points_mm
    after = np.arange(1, len(start) + 1)
    after[panel.ring_start[1:] - 1] = panel.ring_start[:-1]
    return start, start[after]

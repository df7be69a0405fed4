"""A finger over a trial lay: pieces smaller, larger or in another flow there, and nowhere else."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from bench.drawing.lay.areas import MOST_PIECES, check_region, pitch_mm
from bench.drawing.lay.fragments import in_one_piece
from bench.drawing.lay.laid import Lay, Mask, Progress, Told, Way, fill, numbered
from bench.drawing.panel import FloatArray
from bench.drawing.rings import Counts
from bench.drawing.study.faults import NothingTouched, TooManyPieces
from bench.drawing.study.model import Flow, Region, pixel_mm


def relaid(
    lay: Lay,
    stroke_mm: ArrayLike,
    radius_mm: float,
    change: Callable[[Region], Region],
    *,
    seed: int = 0,
    progress: Progress | None = None,
) -> Lay:
    """Return the lay with the pieces under a stroke laid again as `change` makes of their region.

    stroke_mm: (p, 2) along the panel. A piece is under it where half of it lies within radius_mm of the
    stroke. All other pieces stay as they are, to the pixel. Raises NothingTouched, PieceTooLarge,
    JointTooWide or TooManyPieces; LayStopped where progress says so.
    """
    touched = touched_pieces(lay, np.asarray(stroke_mm, float), radius_mm)
    if not len(touched):
        raise NothingTouched(lay.name)
    under = np.zeros(lay.piece_count + 1, bool)
    under[touched + 1] = True
    area = np.where(under[lay.cell], lay.area, 0)
    ways = _ways(lay, touched, change)
    _check(lay, area, ways)
    cell = np.where(area > 0, 0, lay.cell).astype(np.int32)
    told = Told(progress, [int((area == k).sum()) for k in ways])
    count, of_piece, board = lay.piece_count, [lay.of_piece], [lay.board]
    for turn, (k, way) in enumerate(ways.items(), start=1):
        rng = np.random.default_rng(np.random.SeedSequence((lay.seed, seed, k)))
        more = fill(cell, area == k, way, count, rng, told.passed(turn))
        of_piece.append(np.full(more, len(lay.regions) + turn - 1, np.int32))
        board.append(np.full(more, lay.board[lay.cell[area == k][0] - 1], np.int32))
        count += more
    room = np.where(area > 0, area, -1).astype(np.int32)  # a scrap joins what is laid anew, or nothing
    cell, kept = numbered(in_one_piece(cell, room), np.arange(count, dtype=np.int32))
    return dataclasses.replace(
        lay,
        cell=cell,
        of_piece=np.concatenate(of_piece)[kept],
        board=np.concatenate(board)[kept],
        regions=(*lay.regions, *(way.region for way in ways.values())),
    )


def touched_pieces(lay: Lay, stroke_mm: FloatArray, radius_mm: float) -> Counts:
    """Return the pieces of which half lies within radius_mm of a stroke, from 0."""
    near = _near(lay, stroke_mm, radius_mm)
    size = np.bincount(lay.cell.ravel(), minlength=lay.piece_count + 1)
    within = np.bincount(lay.cell[near], minlength=lay.piece_count + 1)
    found: Counts = np.flatnonzero(2 * within[1:] >= np.maximum(size[1:], 1))
    return found


def along(stroke_mm: ArrayLike) -> Flow:
    """Return the flow of straight rows along a stroke, as it runs as a whole."""
    stroke = np.asarray(stroke_mm, float)
    away = stroke - stroke.mean(axis=0)
    xx, yy, xy = (away[:, 0] ** 2).sum(), (away[:, 1] ** 2).sum(), (away[:, 0] * away[:, 1]).sum()
    return Flow(kind="straight", angle_deg=float(np.degrees(np.arctan2(2 * xy, xx - yy) / 2)))


def _near(lay: Lay, stroke_mm: FloatArray, radius_mm: float) -> Mask:
    """Tell which pixels lie within a radius of a stroke, (rows, columns)."""
    out = np.zeros(lay.cell.shape, bool)
    stroke = stroke_mm[np.isfinite(stroke_mm).all(axis=1)] if stroke_mm.ndim == 2 else np.empty((0, 2))
    if not len(stroke) or not radius_mm > 0:
        return out
    edge = pixel_mm(lay.size_mm, lay.cell.shape)
    for one, other in pairwise([stroke[0], *stroke]):  # a tap is a stroke of no length
        low, high = np.minimum(one, other) - radius_mm, np.maximum(one, other) + radius_mm
        first = np.clip(np.floor(low / edge), 0, lay.cell.shape[::-1]).astype(int)
        last = np.clip(np.ceil(high / edge), 0, lay.cell.shape[::-1]).astype(int)
        x = (np.arange(first[0], last[0]) + 0.5) * edge[0] - one[0]
        y = (np.arange(first[1], last[1]) + 0.5)[:, None] * edge[1] - one[1]
        way = other - one
        run = np.clip((x * way[0] + y * way[1]) / max(float(way @ way), 1e-12), 0.0, 1.0)
        near = np.hypot(x - run * way[0], y - run * way[1]) <= radius_mm
        out[first[1] : last[1], first[0] : last[0]] |= near
    return out


def _ways(lay: Lay, touched: Counts, change: Callable[[Region], Region]) -> dict[int, Way]:
    """Return how each area is to be laid where it was touched, as the piece touched first there lies."""
    flat = lay.cell.ravel()
    first = np.zeros(lay.piece_count + 1, np.int64)
    first[flat] = lay.area.ravel()
    out: dict[int, Way] = {}
    for piece in touched.tolist():
        k = int(first[piece + 1])
        if k not in out:
            out[k] = Way(change(lay.regions[int(lay.of_piece[piece])]), lay.joint_mm, lay.mm_per_px)
    return out


def _check(lay: Lay, area: Counts, ways: dict[int, Way]) -> None:
    more = 0.0
    for k, way in ways.items():
        check_region(way.region, lay.joint_mm, min(lay.size_mm), lay.name)
        pitch = pitch_mm(way.region, lay.joint_mm)
        more += float((area == k).sum()) * lay.mm_per_px**2 / (pitch[0] * pitch[1])
    if lay.piece_count + more > MOST_PIECES:
        raise TooManyPieces(lay.name, round(lay.piece_count + more), MOST_PIECES)

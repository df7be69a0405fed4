"""A study's regions on a grid fine enough to lay in, their contours smoothed: what is laid by itself.

An area is a region on one board. No piece ever lies across two of them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.study.faults import JointTooWide, NothingToLay, PieceTooLarge, TooManyPieces
from bench.drawing.study.model import Region, Study, edge_mm

MOST_PIECES = 150_000
MOST_PX = 12_000_000
_PX_A_PIECE = 14.0  # across the smallest piece
_AT_ONCE = 200_000  # pixels
_REACH = 2  # of the vote over a contour, in pixels of the study

IntGrid = NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class Areas:
    """label: (rows, columns) 0 where nothing is laid, else the number of the area, from 1. mm_per_px: of
    the grid. region: (areas,) each one's region, from 1; board: (areas,) its board, 0 for the only one.
    """

    label: IntGrid
    mm_per_px: float
    region: NDArray[np.int32]
    board: NDArray[np.int32]


def pitch_mm(region: Region, joint_mm: float) -> tuple[float, float]:
    """Return how far pieces lie apart along and across their row, joint included. [mm]"""
    return float(region.piece_mm * region.aspect + joint_mm), float(region.piece_mm + joint_mm)


def expected_count(study: Study, joint_mm: float) -> int:
    """Return about how many pieces the study asks for: Σ area / (pitch along · pitch across)."""
    each = [math.prod(pitch_mm(region, joint_mm)) for region in study.regions]
    return round(float((study.area_mm2() / np.array(each)).sum()))


def check(study: Study, joint_mm: float) -> None:
    """Raise NothingToLay, PieceTooLarge, JointTooWide or TooManyPieces for what cannot be laid."""
    lies = study.area_mm2() > 0
    if not lies.any():
        raise NothingToLay(study.name)
    for k in np.flatnonzero(lies).tolist():
        check_region(study.regions[k], joint_mm, min(study.size_mm), study.name)
    count = expected_count(study, joint_mm)
    if count > MOST_PIECES:
        raise TooManyPieces(study.name, count, MOST_PIECES)


def check_region(region: Region, joint_mm: float, shorter_mm: float, name: str) -> None:
    """Raise PieceTooLarge or JointTooWide for what cannot be laid; shorter_mm: the panel's shorter side."""
    if region.piece_mm * max(1.0, region.aspect) > shorter_mm:
        raise PieceTooLarge(name, region.name, region.piece_mm, shorter_mm)
    if not 0 <= joint_mm <= region.piece_mm * min(1.0, region.aspect) / 2:
        raise JointTooWide(name, joint_mm, region.name, region.piece_mm)


def areas_of(study: Study, joint_mm: float) -> Areas:
    """Return the areas on a grid of about 14 pixels across the smallest piece, at most 12 million in all."""
    used = [study.regions[k - 1] for k in np.unique(study.labels).tolist() if k]
    least_mm = min(min(pitch_mm(region, joint_mm)) for region in used)
    most = math.sqrt(math.prod(study.size_mm) / MOST_PX)
    rows, columns = study.labels.shape
    px_mm = min(max(least_mm / _PX_A_PIECE, most), study.mm_per_px)
    factor = study.mm_per_px / px_mm
    shape = (max(1, round(rows * factor)), max(1, round(columns * factor)))
    region = finer(study.labels, shape)
    board = np.zeros_like(region) if study.board is None else finer(study.board, shape)
    boards = int(board.max()) + 1
    key, label = np.unique(np.where(region > 0, region * boards + board, -1), return_inverse=True)
    label = label.reshape(shape)
    if key[0] >= 0:
        label, key = label + 1, np.concatenate([[-1], key])
    return Areas(
        label.astype(np.int32),
        edge_mm(study.size_mm, shape),
        (key[1:] // boards).astype(np.int32),
        (key[1:] % boards).astype(np.int32),
    )


def finer(labels: IntGrid, shape: tuple[int, int]) -> IntGrid:
    """Return a label grid on a finer one of the given shape, the steps of its contours smoothed.

    Near a contour each pixel takes the label that weighs most around it, by a Gaussian of one of the old
    pixels over 5 × 5 of them; elsewhere the only one there is.
    """
    rows, columns = labels.shape
    y = (np.arange(shape[0]) + 0.5) * rows / shape[0] - 0.5
    x = (np.arange(shape[1]) + 0.5) * columns / shape[1] - 0.5
    padded = np.pad(labels, _REACH, mode="edge")
    near_y, near_x = np.rint(y).astype(int), np.rint(x).astype(int)
    out: IntGrid = labels[np.clip(near_y, 0, rows - 1)[:, None], np.clip(near_x, 0, columns - 1)]
    mixed = _mixed(padded)[np.clip(near_y, 0, rows - 1)[:, None], np.clip(near_x, 0, columns - 1)]
    at_y, at_x = np.nonzero(mixed)
    for first in range(0, len(at_y), _AT_ONCE):
        some = slice(first, first + _AT_ONCE)
        out[at_y[some], at_x[some]] = _voted(padded, y[at_y[some]], x[at_x[some]])
    return out


def _mixed(padded: IntGrid) -> NDArray[np.bool_]:
    """Tell which pixels have more than one label within reach."""
    from scipy.ndimage import maximum_filter, minimum_filter

    size = 2 * _REACH + 1
    inner = (slice(_REACH, -_REACH),) * 2
    differs = maximum_filter(padded, size) != minimum_filter(padded, size)
    return np.asarray(differs, np.bool_)[inner]


def _voted(padded: IntGrid, y: NDArray[np.float64], x: NDArray[np.float64]) -> NDArray[np.int32]:
    reach = np.arange(-_REACH, _REACH + 1)
    row, column = np.rint(y).astype(int), np.rint(x).astype(int)
    down = np.exp(-(((row - y)[:, None] + reach) ** 2) / 2)
    across = np.exp(-(((column - x)[:, None] + reach) ** 2) / 2)
    weight = (down[:, :, None] * across[:, None, :]).reshape(len(y), -1)
    rows, columns = (row[:, None] + reach + _REACH), (column[:, None] + reach + _REACH)
    rows, columns = np.clip(rows, 0, padded.shape[0] - 1), np.clip(columns, 0, padded.shape[1] - 1)
    label = padded[rows[:, :, None], columns[:, None, :]].reshape(len(y), -1)
    total = np.zeros_like(weight)
    for k in range(weight.shape[1]):
        total[:, k] = np.where(label == label[:, k : k + 1], weight, 0.0).sum(axis=1)
    return np.asarray(label[np.arange(len(y)), total.argmax(axis=1)], np.int32)

"""The outlines between sections, as smooth lines with a section on either side."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

SMOOTHING = 6
TOLERANCE_PX = 0.8

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class Outline:
    """A line of (row, column) corners between two labels; `closed`: its first point follows its last.

    Walking along it, `right` lies on the right hand and `left` on the left, seen with rows running down.
    """

    points: FloatArray
    left: int
    right: int
    closed: bool


def outlines(label: IntArray) -> list[Outline]:
    """Trace every line on which two labels of a map meet; a map of one label has none."""
    start, end, left, right = _edges(label)
    order = np.lexsort((right, left))
    start, end, left, right = start[order], end[order], left[order], right[order]
    change = np.flatnonzero((np.diff(left) != 0) | (np.diff(right) != 0)) + 1
    bounds = [0, *change.tolist(), len(start)] if len(start) else [0]
    width = label.shape[1] + 1
    found = []
    for a, b in pairwise(bounds):
        for corners, closed in _chains(start[a:b].tolist(), end[a:b].tolist()):
            points = np.column_stack(np.divmod(np.array(corners), width)).astype(float)
            found.append(Outline(smooth(points, closed), int(left[a]), int(right[a]), closed))
    return found


def _edges(label: IntArray) -> tuple[IntArray, IntArray, IntArray, IntArray]:
    """Return the unit edges between unlike squares: corner numbers, and the labels left and right.

    Each is turned so that the smaller label is on the left.
    """
    width = label.shape[1] + 1
    row, column = np.nonzero(label[1:, :] != label[:-1, :])
    above, below = label[row, column], label[row + 1, column]
    start = (row + 1) * width + column  # walking right: above is left
    end = start + 1
    row, column = np.nonzero(label[:, 1:] != label[:, :-1])
    west, east = label[row, column], label[row, column + 1]
    down = row * width + column + 1  # walking down: east is left
    start, end = np.concatenate([start, down]), np.concatenate([end, down + width])
    left, right = np.concatenate([above, east]), np.concatenate([below, west])
    turn = left > right
    return (
        np.where(turn, end, start),
        np.where(turn, start, end),
        np.where(turn, right, left),
        np.where(turn, left, right),
    )


def _chains(start: list[int], end: list[int]) -> list[tuple[list[int], bool]]:
    """Join edges head to tail: open lines first, then what is left over, which must be rings."""
    following: dict[int, list[int]] = defaultdict(list)
    balance: dict[int, int] = defaultdict(int)
    for a, b in zip(start, end, strict=True):
        following[a].append(b)
        balance[a] += 1
        balance[b] -= 1
    heads = [corner for corner, surplus in balance.items() for _ in range(surplus)]
    chains = [(_walk(following, head), False) for head in heads]
    for corner in list(following):
        while following[corner]:
            chains.append((_walk(following, corner)[:-1], True))
    return chains


def _walk(following: dict[int, list[int]], head: int) -> list[int]:
    line = [head]
    while following.get(line[-1]):
        line.append(following[line[-1]].pop())
    return line


def smooth(points: FloatArray, closed: bool) -> FloatArray:
    """Take the stairs out of a line and leave out points that it does not need; open ends stay put."""
    if len(points) < 4:
        return points
    for _ in range(SMOOTHING):
        before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
        eased = 0.25 * before + 0.5 * points + 0.25 * after
        if not closed:
            eased[[0, -1]] = points[[0, -1]]
        points = eased
    return _thin(points, closed)


def _thin(points: FloatArray, closed: bool) -> FloatArray:
    """Drop every second point that lies within TOLERANCE_PX of the chord, until none does."""
    slack = np.zeros(len(points))  # how far the dropped points may already be off
    while len(points) > 4:
        inner = np.arange(1, len(points) - (0 if closed and len(points) % 2 == 0 else 1), 2)
        a, p, b = points[inner - 1], points[inner], points[(inner + 1) % len(points)]
        chord = b - a
        off = np.abs(chord[:, 0] * (p - a)[:, 1] - chord[:, 1] * (p - a)[:, 0])
        off = off / np.maximum(np.hypot(*chord.T), 1e-9) + slack[inner]
        drop = inner[off <= TOLERANCE_PX]
        if len(drop) == 0:
            return points
        neighbours = np.concatenate([drop - 1, (drop + 1) % len(points)])
        np.maximum.at(slack, neighbours, np.tile(off[off <= TOLERANCE_PX], 2))
        points, slack = np.delete(points, drop, axis=0), np.delete(slack, drop)
    return points

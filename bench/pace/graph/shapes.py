"""The shapes that marks, dashes and hatching are made of, in places of the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

import numpy as np

from bench.pace.graph.model import Mark
from bench.pace.normal import FloatArray

Point = tuple[float, float]
Segment = tuple[float, float, float, float]


@cache
def outline(mark: Mark) -> tuple[tuple[Point, ...], ...]:
    """Return the strokes of a mark of radius 1, y up: closed ones end where they begin."""
    if mark == "cross":
        return ((-0.9, -0.9), (0.9, 0.9)), ((-0.9, 0.9), (0.9, -0.9))
    if mark == "up":
        return (((-1.0, -0.75), (1.0, -0.75), (0.0, 1.1), (-1.0, -0.75)),)
    if mark == "square":
        return (((-0.85, -0.85), (0.85, -0.85), (0.85, 0.85), (-0.85, 0.85), (-0.85, -0.85)),)
    turn = [2 * math.pi * k / 16 for k in range(17)]
    return (tuple((math.cos(t), math.sin(t)) for t in turn),)


def dashes(points: Sequence[Point], on: float, off: float) -> Iterator[Segment]:
    """Yield the pieces of a line that is drawn for `on` and left out for `off`, again and again.

    The pattern goes on round the corners of the line.
    """
    along = 0.0
    for (x1, y1), (x2, y2) in pairwise(points):
        length = math.hypot(x2 - x1, y2 - y1)
        at = 0.0
        while at < length:
            phase = (along + at) % (on + off)
            rest = on - phase if phase < on else on + off - phase
            to = min(length, at + max(rest, 1e-6))
            if phase < on:
                a, b = at / length, to / length
                yield x1 + a * (x2 - x1), y1 + a * (y2 - y1), x1 + b * (x2 - x1), y1 + b * (y2 - y1)
            at = to
        along += length


def hatching(x: FloatArray, low: FloatArray, high: FloatArray, pitch: float) -> Iterator[Segment]:
    """Yield the diagonals y = x + k·pitch within a band, in places; x rises. Ends are true to a place or two.

    Fewer than two points, or a band of no height, has none.
    """
    if len(x) < 2 or pitch <= 0:
        return
    fine = np.arange(float(x[0]), float(x[-1]) + 1e-9, max(1.0, pitch / 12))
    floor, ceiling = np.interp(fine, x, low), np.interp(fine, x, high)
    first = math.floor((float(floor.min()) - float(fine[-1])) / pitch)
    last = math.ceil((float(ceiling.max()) - float(fine[0])) / pitch)
    for k in range(first, last + 1):
        y = fine + k * pitch
        inside = np.concatenate([[False], (y >= floor) & (y <= ceiling), [False]])
        change = np.flatnonzero(inside[1:] != inside[:-1])
        for start, end in zip(change[::2].tolist(), (change[1::2] - 1).tolist(), strict=True):
            if end > start:
                yield float(fine[start]), float(y[start]), float(fine[end]), float(y[end])

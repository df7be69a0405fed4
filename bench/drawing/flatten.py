"""Lay sub-paths onto the panel in mm and turn every curve into short straight pieces, all at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.drawing.numbers import Affine
from bench.drawing.panel import FloatArray
from bench.drawing.paths import Subpath
from bench.drawing.rings import Counts, Rings

TOLERANCE_MM = 0.05
_MOST_PIECES = 500  # of one curve


@dataclass(frozen=True, eq=False)
class Placed:
    """Sub-paths in mm, laid end to end as Rings are; `ends` are the points at which a cubic ends."""

    points_mm: FloatArray
    start: Counts
    ends: Counts

    @property
    def controls(self) -> FloatArray:
        """The four points of each cubic, (curves, 4, 2)."""
        four: FloatArray = self.points_mm[self.ends[:, None] + np.arange(-3, 1)]
        return four


def place(strokes: Sequence[Subpath], matrices: Sequence[Affine]) -> Placed:
    """Transform each sub-path by its matrix; the points are all kept in order."""
    counts = np.fromiter((len(stroke.flat) // 2 for stroke in strokes), np.int64, len(strokes))
    start = np.concatenate([[0], np.cumsum(counts)])
    points = np.fromiter((v for stroke in strokes for v in stroke.flat), np.float64, 2 * int(start[-1]))
    points = _transform(points.reshape(-1, 2), np.array(matrices).reshape(-1, 6), counts)
    curves = ((first, k) for stroke, first in zip(strokes, start, strict=False) for k in stroke.curve_ends)
    return Placed(points, start, np.fromiter((first + k for first, k in curves), np.int64))


def _transform(points: FloatArray, matrices: FloatArray, counts: Counts) -> FloatArray:
    a, b, c, d, e, f = np.repeat(matrices, counts, axis=0).T
    x, y = points.T
    return np.stack([a * x + c * y + e, b * x + d * y + f], axis=1)


def pieces_of(placed: Placed) -> Counts:
    """Return how many straight pieces keep each cubic within TOLERANCE_MM; at most 500.

    A chord over 1/n of the curve leaves it by at most |B''| / 8n²; the inner points' own shift is at
    most 4/3 of that where n = 2, and less beyond.
    """
    bend = np.max([np.hypot(*side.T) for side in _bend(placed.controls)], axis=0)
    n = np.ceil(np.sqrt(bend / 8 / (0.75 * TOLERANCE_MM)))
    n = np.where(bend / 8 > TOLERANCE_MM / 20, np.maximum(n, 2), 1)
    return np.minimum(n, _MOST_PIECES).astype(np.int64)


def straighten(placed: Placed, pieces: Counts) -> Rings:
    """Turn each cubic into so many straight pieces.

    Its inner points stand |B''| / 12 n(n − 1) outside of it, so that pieces and curve enclose the same
    area to second order; the two ends stay where they are. A border that two tesserae share stays shared,
    drawn in either direction.
    """
    points, ends = placed.points_mm, placed.ends
    if not len(ends):
        return Rings(points, placed.start)
    made = np.ones(len(points), np.int64)
    made[ends - 1] = made[ends - 2] = 0
    made[ends] = pieces
    total = np.concatenate([[0], np.cumsum(made)])
    out = np.empty((int(total[-1]), 2))
    straight = np.ones(len(points), bool)
    straight[ends] = straight[ends - 1] = straight[ends - 2] = False
    out[total[:-1][straight]] = points[straight]

    curve = np.repeat(np.arange(len(ends)), pieces)
    step = np.arange(len(curve)) - np.repeat(np.cumsum(pieces) - pieces, pieces) + 1
    out[total[:-1][ends][curve] + step - 1] = _on_curve(placed.controls[curve], step, pieces[curve])
    return Rings(out, total[placed.start])


def _bend(control: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return B'' of each cubic at its start and its end."""
    p0, p1, p2, p3 = (control[:, k] for k in range(4))
    return 6 * (p0 - 2 * p1 + p2), 6 * (p1 - 2 * p2 + p3)


def _on_curve(control: FloatArray, step: Counts, n: Counts) -> FloatArray:
    t = (step / n)[:, None]
    s = ((n - step) / n)[:, None]
    p0, p1, p2, p3 = (control[:, k] for k in range(4))
    on = s**3 * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t**3 * p3
    first, last = _bend(control)
    inner = ((step < n) / (12 * n * np.maximum(n - 1, 1)))[:, None]
    return on - inner * (s * first + t * last)

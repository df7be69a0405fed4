"""Lay every shape of a drawing out on the panel: closed outlines in mm, and who has open ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bench.drawing.crossings import crossing_shapes
from bench.drawing.evenodd import measure
from bench.drawing.faults import CoordinateTooFar, TooManyPoints, UnreadableNumber
from bench.drawing.flatten import pieces_of, place, straighten
from bench.drawing.numbers import Affine, Unreadable, greatest_stretch
from bench.drawing.outlines import outline_of
from bench.drawing.panel import FloatArray
from bench.drawing.paths import MOST_POINTS, Subpath
from bench.drawing.rings import Counts, Rings, clean, moments, nest
from bench.drawing.scene import Shape

FARTHEST_MM = 100_000.0
CLOSED_MM = 0.01  # a last point this near to the first closes an outline


@dataclass(frozen=True, eq=False)
class Layout:
    """The closed outlines of all shapes, in order, and what they amount to.

    rings: each shape's outer outline first, then its holes, which turn the other way.
    first: (shapes + 1,) where each shape's rings begin. depth: (r,) 0 outer, 1 hole, 2 island in a hole …
    area_mm2: (shapes,) and moment_mm3: (shapes, 2) by the even-odd rule. crosses: (shapes,) whether an
    outline crosses itself. has_open: (shapes,) whether a shape has an outline that is not closed.
    """

    rings: Rings
    first: Counts
    depth: Counts
    area_mm2: FloatArray
    moment_mm3: FloatArray
    crosses: NDArray[np.bool_]
    has_open: NDArray[np.bool_]

    def outlines(self, shape: int) -> list[FloatArray]:
        """Return the rings of one shape."""
        start = self.rings.start[self.first[shape] : self.first[shape + 1] + 1]
        return [self.rings.points_mm[a:b] for a, b in pairwise(start)]


def lay_out(shapes: Sequence[Shape], name: str) -> Layout:
    """Return the outlines of the shapes.

    Raises UnreadableNumber, CoordinateTooFar (beyond 100 m) or TooManyPoints (beyond 5 million).
    """
    strokes, matrices, owner = _strokes(shapes, name)
    placed = place(strokes, matrices)
    far = ~(np.abs(placed.points_mm).max(axis=1, initial=0.0) <= FARTHEST_MM)
    if far.any():
        ring = int(np.searchsorted(placed.start, int(np.argmax(far)), side="right")) - 1
        raise CoordinateTooFar(name, shapes[owner[ring]].told, FARTHEST_MM)
    pieces = pieces_of(placed)
    count = len(placed.points_mm) + int((pieces - 3).sum())
    if count > MOST_POINTS:
        raise TooManyPoints(name, count, MOST_POINTS)
    rings = straighten(placed, pieces)
    first, last = rings.points_mm[rings.start[:-1]], rings.points_mm[rings.start[1:] - 1]
    closed = np.fromiter((stroke.closed for stroke in strokes), bool, len(strokes))
    closed |= (np.hypot(*(last - first).T) <= CLOSED_MM) & (np.diff(rings.start) > 2)
    has_open = np.zeros(len(shapes), bool)
    has_open[owner[~closed]] = True
    rings = clean(rings)
    real = np.flatnonzero(closed & (np.diff(rings.start) > 2))
    return _nested(rings.take(real), owner[real], has_open)


def _nested(rings: Rings, owner: Counts, has_open: NDArray[np.bool_]) -> Layout:
    rings, depth = nest(rings, owner)
    area, moment = moments(rings)
    shapes = len(has_open)
    first = np.concatenate([[0], np.cumsum(np.bincount(owner, minlength=shapes))])
    crosses, touches = crossing_shapes(rings, owner, shapes)
    sums = [np.bincount(owner, part, minlength=shapes).astype(float) for part in (area, *moment.T)]
    layout = Layout(rings, first, depth, sums[0], np.stack(sums[1:], axis=1), crosses, has_open)
    for shape in np.flatnonzero(touches).tolist():
        layout.area_mm2[shape], layout.moment_mm3[shape] = measure(layout.outlines(shape))
    return layout


def _strokes(shapes: Sequence[Shape], name: str) -> tuple[list[Subpath], list[Affine], Counts]:
    strokes: list[Subpath] = []
    matrices: list[Affine] = []
    owners: list[int] = []
    points = 0
    for k, shape in enumerate(shapes):
        scene = shape.scene
        try:
            found = outline_of(shape.node.tag, shape.look, scene.whole_px, greatest_stretch(scene.matrix))
        except Unreadable as error:
            raise UnreadableNumber(name, shape.told, error.attribute, error.text) from None
        strokes += found
        matrices += [scene.matrix] * len(found)
        owners += [k] * len(found)
        points += sum(len(stroke.flat) // 2 for stroke in found)
        if points > MOST_POINTS:
            raise TooManyPoints(name, points, MOST_POINTS)
    return strokes, matrices, np.array(owners, np.int64)

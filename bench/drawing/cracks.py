"""The cracks between pixels of unlike label, strung to borders between two labels.

A crack is an edge between two pixels. It is followed with the higher label on its right, so that a border
runs one way from end to end whichever of its two sides asks. A border ends where three labels meet. Where
the pixels on a diagonal are alike and the other two differ from them, the border bends around the corners
of those two, and the like ones are joined; if both diagonals are alike, the lower label's are, so that
pieces touching at a corner stay apart.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.rings import Counts
from bench.drawing.strings import Strings, strung

Labels = NDArray[np.int32]

STEP_X = np.array([1, 0, -1, 0])  # right, down, left, up: each a turn to the right of the one before
STEP_Y = np.array([0, 1, 0, -1])


@dataclass(frozen=True, eq=False)
class Cracks:
    """n cracks of a label image, each from (x, y) one pixel on in its heading; label `right` on its right.

    key: (n,) sorted, by which a crack is found. padded: the image with a rim of nothing around it.
    """

    x: Counts
    y: Counts
    heading: Counts
    left: Labels
    right: Labels
    key: Counts
    padded: Labels

    def end(self, of: Counts) -> tuple[Counts, Counts]:
        """Return x and y of where the given cracks end."""
        return self.x[of] + STEP_X[self.heading[of]], self.y[of] + STEP_Y[self.heading[of]]

    def ahead(self, x: Counts, y: Counts, heading: Counts) -> tuple[Labels, Labels]:
        """Return the labels ahead on the left and on the right of whoever comes to (x, y) so."""
        wide = self.padded.shape[1]
        beside = np.array([1, wide + 1, wide, 0])
        flat, base = self.padded.ravel(), y * wide + x
        return flat[base + beside[heading]], flat[base + beside[(heading + 1) % 4]]

    def leaving(self, x: Counts, y: Counts, heading: Counts) -> Counts:
        """Return the crack that leaves (x, y) in a heading, whichever way it is followed itself."""
        rows, columns = self.padded.shape
        x, y = x - (heading == 2), y - (heading == 3)
        key = (heading % 2) * ((rows - 1) * (columns - 1)) + y * (columns - 1) + x
        found: Counts = np.searchsorted(self.key, key)
        return found


def cracks_of(labels: Labels) -> Cracks:
    """Return all cracks of a label image (rows, columns), those along its edge with it."""
    padded = np.pad(labels, 1)
    rows, columns = labels.shape
    above, below = padded[:-1, 1:-1], padded[1:, 1:-1]
    y, x = np.divmod(np.flatnonzero(above != below), columns)
    way_h, left_h, right_h = _sided(above[y, x], below[y, x], (2, 0))
    west, east = padded[1:-1, :-1], padded[1:-1, 1:]
    v, u = np.divmod(np.flatnonzero(west != east), columns + 1)
    way_v, left_v, right_v = _sided(west[v, u], east[v, u], (1, 3))
    heading = np.concatenate([way_h, way_v])
    return Cracks(
        x=np.concatenate([x, u]) + (heading == 2),
        y=np.concatenate([y, v]) + (heading == 3),
        heading=heading,
        left=np.concatenate([left_h, left_v]),
        right=np.concatenate([right_h, right_v]),
        key=np.concatenate([y * (columns + 1) + x, (rows + 1) * (columns + 1) + v * (columns + 1) + u]),
        padded=padded,
    )


def _sided(one: Labels, other: Labels, ways: tuple[int, int]) -> tuple[Counts, Labels, Labels]:
    """Return heading, left and right: the first way where `one` is the higher label, else the second."""
    heading: Counts = np.where(one > other, *ways)
    return heading, np.minimum(one, other), np.maximum(one, other)


def borders(cracks: Cracks) -> Strings:
    """Return the cracks strung to borders between two labels each."""
    every = np.arange(len(cracks.key))
    x, y = cracks.end(every)
    left, right = cracks.left, cracks.right
    on_left, on_right = cracks.ahead(x, y, cracks.heading)
    turn = np.full(len(every), -1)  # three labels meet
    turn[(on_left == left) & (on_right == right)] = 0
    turn[(on_left == right) & (on_right != left)] = 3
    turn[on_right == left] = 1
    after = cracks.leaving(x, y, (cracks.heading + turn) % 4)
    return strung(np.where(turn >= 0, after, -1))


def onward(cracks: Cracks, x: Counts, y: Counts, heading: Counts, keep: Counts) -> Counts:
    """Return the crack that goes on with label `keep` on the right from where borders end."""
    on_left, on_right = cracks.ahead(x, y, heading)
    turn = np.where(on_right != keep, 1, np.where(on_left != keep, 0, 3))
    return cracks.leaving(x, y, (heading + turn) % 4)

"""A painted study → patches of like colour, and the order in which they grow into fewer and larger ones.

Patches begin as connected areas of one of a few dozen colours, found in CIELAB after a median filter. Then
two neighbours at a time become one, the pair first that a border between them is worth the least to:

    λ = a·b / (a + b) · |u − v|² / ℓ        [mm·ΔE²]

with areas a, b, mean colours u, v and the length ℓ of their common border (Koepfler, Lopez & Morel, "A
multiscale algorithm for image segmentation by variational method", SIAM J. Numer. Anal. 31 (1994) 282:
the merging criterion of the piecewise constant Mumford–Shah model). Kept as a tree, so that any number of
regions is only a cut through it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.panel import FloatArray
from bench.drawing.study.borders import Borders, Node

IntGrid = NDArray[np.int32]

_COLOURS = 24
_SAMPLE = 20_000
_PASSES = 12
_LEAST_FORM_MM = 12.0  # a painted form narrower than two pieces is a line or a speck: common practice
_MOST_GAP = 3.0  # of a factor e³; between wider ones than that there is nothing to choose
_LEAST_DELTA_E = 12.0  # and one that differs less from what is around it is a shade of it


@dataclass(frozen=True, eq=False)
class Patches:
    """The tree of patches. start: (rows, columns) index of the patch of each pixel, 0 to leaves − 1.

    pair: (leaves − 1, 2) what became one, in order; merge j makes node leaves + j. worth: (leaves − 1,)
    what the border was worth, never falling. [mm·ΔE²]
    """

    start: IntGrid
    pair: IntGrid
    worth: FloatArray

    @property
    def leaves(self) -> int:
        return len(self.pair) + 1

    def regions(self, count: int) -> IntGrid:
        """Return the region of each pixel, 0 to count − 1, the largest first; fewer where fewer there are."""
        count = min(max(1, count), self.leaves)
        root = _roots(self.leaves, self.pair[: self.leaves - count])[: self.leaves]
        _, label = np.unique(root, return_inverse=True)
        grid = label.reshape(-1)[self.start]
        order = np.argsort(-np.bincount(grid.ravel(), minlength=count), kind="stable")
        place = np.empty(count, np.int32)
        place[order] = np.arange(count)
        found: IntGrid = place[grid]
        return found

    def proposed(self, *, most: int = 40) -> int:
        """Return how many regions the study seems to have, at most `most`.

        Between a third and three times the worth of a form of 12 mm that differs by 12 from what is around
        it, the number at which the next border to go is worth most more than the one before.
        """
        middle = _LEAST_FORM_MM / 4 * _LEAST_DELTA_E**2
        worth = np.maximum(np.concatenate([[0.0], self.worth]), 1e-9)[-most:]
        low, high = worth[:-1], worth[1:]  # what went last, and what would go next
        fits = (high >= middle / 3) & (low <= middle * 3)
        if not fits.any():
            return 1 if worth[-1] < middle / 3 else len(worth)
        gap = np.where(fits, np.minimum(np.log(high / low), _MOST_GAP), -1.0)
        return len(high) - int(np.argmax(gap)) + 1

    def halves(self, members: NDArray[np.bool_]) -> NDArray[np.bool_]:
        """Return which of some pixels (rows, columns) are one half, parted where they last became one.

        All False where they are of a single patch.
        """
        holds = np.zeros(self.leaves + len(self.pair), bool)
        holds[np.unique(self.start[members])] = True
        last = -1
        for j, (i, k) in enumerate(self.pair.tolist()):
            holds[self.leaves + j] = holds[i] or holds[k]
            last = j if holds[i] and holds[k] else last
        if last < 0:
            return np.zeros_like(members)
        root = _roots(self.leaves, self.pair[:last])[: self.leaves]
        half: NDArray[np.bool_] = members & (root[self.start] == self.pair[last, 0])
        return half


def _roots(leaves: int, pair: IntGrid) -> NDArray[np.int64]:
    """Return the topmost node above each node, after the given merges."""
    root = np.arange(leaves + len(pair))
    for j in range(len(pair) - 1, -1, -1):
        root[pair[j]] = root[leaves + j]
    return root


def patches_of(pixels: NDArray[np.uint8], mm_per_px: float, seed: int = 0) -> Patches:
    """Return the tree of patches of sRGB pixels, (rows, columns, 3)."""
    lab = smoothed_lab(pixels)
    start, count = _start(lab, seed)
    return _grown(lab, start, count, mm_per_px)


def smoothed_lab(pixels: NDArray[np.uint8]) -> FloatArray:
    """Return CIELAB after a median over 5 × 5, (rows, columns, 3): brush marks go, edges stay."""
    from scipy.ndimage import median_filter

    lab = srgb_to_lab(pixels)
    smooth = [median_filter(lab[..., k].astype(np.float32), 5) for k in range(3)]
    return np.stack(smooth, axis=-1).astype(np.float64)


def _start(lab: FloatArray, seed: int) -> tuple[IntGrid, int]:
    """Return connected areas of one colour each, and how many."""
    from scipy.ndimage import label as connected

    colour = _nearest_colour(lab, seed)
    start = np.zeros(colour.shape, np.int32)
    count = 0
    for k in np.unique(colour).tolist():
        areas, found = connected(colour == k)
        start[areas > 0] = areas[areas > 0] + (count - 1)
        count += found
    return start, count


def _nearest_colour(lab: FloatArray, seed: int) -> NDArray[np.int64]:
    """Return which of a few dozen colours each pixel is nearest to: k-means on a sample of the pixels."""
    from scipy.spatial import cKDTree

    flat = lab.reshape(-1, 3)
    rng = np.random.default_rng(seed)
    sample = flat[rng.choice(len(flat), min(_SAMPLE, len(flat)), replace=False)]
    centre = _spread(sample, rng)
    for _ in range(_PASSES):
        of = cKDTree(centre).query(sample)[1]
        size = np.bincount(of, minlength=len(centre))
        total = np.stack([np.bincount(of, sample[:, c], minlength=len(centre)) for c in range(3)], axis=1)
        centre = np.where(size[:, None] > 0, total / np.maximum(size, 1)[:, None], centre)
    found: NDArray[np.int64] = cKDTree(centre).query(flat)[1].reshape(lab.shape[:2])
    return found


def _spread(sample: FloatArray, rng: np.random.Generator) -> FloatArray:
    """Return first colours far from one another: each next one with a chance as its squared distance."""
    chosen = [sample[rng.integers(len(sample))]]
    near = ((sample - chosen[0]) ** 2).sum(axis=1)
    while len(chosen) < _COLOURS and near.sum() > 1e-6:
        chosen.append(sample[rng.choice(len(sample), p=near / near.sum())])
        near = np.minimum(near, ((sample - chosen[-1]) ** 2).sum(axis=1))
    return np.array(chosen)


def _borders(start: IntGrid) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the pairs of patches that share a border, (m, 2), and its length in pixels."""
    one = np.concatenate([start[:, :-1].ravel(), start[:-1].ravel()]).astype(np.int64)
    other = np.concatenate([start[:, 1:].ravel(), start[1:].ravel()]).astype(np.int64)
    differ = one != other
    low, high = np.minimum(one, other)[differ], np.maximum(one, other)[differ]
    n = int(start.max()) + 1
    key, length = np.unique(low * n + high, return_counts=True)
    return np.stack([key // n, key % n], axis=1), length


def _grown(lab: FloatArray, start: IntGrid, count: int, mm_per_px: float) -> Patches:
    flat = start.ravel()
    area = np.bincount(flat, minlength=count).astype(float)
    total = np.stack([np.bincount(flat, lab[..., c].ravel(), minlength=count) for c in range(3)], axis=1)
    mean = (total / area[:, None]).tolist()
    nodes: list[Node] = [(a, *m) for a, m in zip(area.tolist(), mean, strict=True)]
    pairs, length = _borders(start)
    border = Borders(nodes, pairs.tolist(), length.tolist())
    made, worth = [], [0.0]
    while (found := border.cheapest()) is not None:
        cost, i, j = found
        border.join(i, j)
        made.append((i, j))
        worth.append(max(worth[-1], cost))
    return Patches(start, np.array(made, np.int32).reshape(-1, 2), np.array(worth[1:]) * mm_per_px)

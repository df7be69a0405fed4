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

import heapq
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.panel import FloatArray

IntGrid = NDArray[np.int32]

_COLOURS = 24
_SAMPLE = 20_000
_PASSES = 12
_LEAST_FORM_MM = 12.0  # a painted form narrower than two pieces is a line or a speck: common practice
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
        last = self.worth[-min(most, self.leaves) :]  # worth of the merges that leave most − 1, …, 1
        if not len(last):
            return 1
        left = np.arange(len(last), 0, -1)
        low = np.concatenate([[max(self.worth[-len(last) - 1], 1e-9)] if len(last) < len(self.worth) else [1e-9], last[:-1]])
        gap = np.log(np.maximum(last, 1e-9) / np.maximum(low, 1e-9))
        fits = (last >= middle / 3) & (low <= middle * 3)
        if not fits.any():
            return 1 if last[-1] < middle / 3 else int(left[0]) + 1
        return int(left[np.argmax(np.where(fits, np.minimum(gap, 3.0), -1.0))]) + 1

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
    """Return CIELAB of each pixel after a median over 5 × 5, (rows, columns, 3): brush marks go, edges stay."""
    from scipy.ndimage import median_filter

    lab = srgb_to_lab(pixels)
    return np.stack([median_filter(lab[..., k].astype(np.float32), 5) for k in range(3)], axis=-1).astype(float)


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
    mean = np.stack([np.bincount(flat, lab[..., c].ravel(), minlength=count) for c in range(3)], 1) / area[:, None]
    pairs, length = _borders(start)
    nodes = [(a, *m) for a, m in zip(area.tolist(), mean.tolist(), strict=True)]
    beside: list[dict[int, float] | None] = [{} for _ in range(count)]
    for (i, j), ell in zip(pairs.tolist(), length.tolist(), strict=True):
        beside[i][j] = beside[j][i] = ell  # type: ignore[index]
    heap = [(_worth(nodes[i], nodes[j], ell), i, j) for (i, j), ell in zip(pairs.tolist(), length.tolist(), strict=True)]
    heapq.heapify(heap)
    made, worth, most = [], [], 0.0
    while heap:
        cost, i, j = heapq.heappop(heap)
        if beside[i] is None or beside[j] is None:
            continue
        k = len(nodes)
        nodes.append(_together(nodes[i], nodes[j]))
        ones, others = beside[i], beside[j]
        beside[i] = beside[j] = None
        if len(ones) < len(others):
            ones, others = others, ones
        for n, ell in others.items():
            ones[n] = ones.get(n, 0.0) + ell
        ones.pop(i, None)
        ones.pop(j, None)
        for n, ell in ones.items():
            near = beside[n]
            near.pop(i, None)
            near.pop(j, None)
            near[k] = ell
            heapq.heappush(heap, (_worth(nodes[k], nodes[n], ell), n, k))
        beside.append(ones)
        most = max(most, cost)
        made.append((i, j))
        worth.append(most)
    return Patches(start, np.array(made, np.int32).reshape(-1, 2), np.array(worth) * mm_per_px)


Node = tuple[float, float, float, float]  # area, mean L*, a*, b*


def _worth(one: Node, other: Node, border: float) -> float:
    a, b = one[0], other[0]
    return a * b / (a + b) * ((one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2 + (one[3] - other[3]) ** 2) / border


def _together(one: Node, other: Node) -> Node:
    total = one[0] + other[0]
    p, q = one[0] / total, other[0] / total
    return (total, p * one[1] + q * other[1], p * one[2] + q * other[2], p * one[3] + q * other[3])

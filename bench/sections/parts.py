"""Connected parts of a graph, in numpy alone: importing a sparse-graph library costs more than the search."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import Ground, IntArray


def components(n: int, pair: NDArray[np.integer]) -> IntArray:
    """Number the connected components of a graph 0.. in the order of their smallest member, (n,).

    Roots are hooked to the smaller root across each edge, then paths are shortened, until nothing moves.
    n = 0 gives an empty array; a vertex without edges is a component.
    """
    root = np.arange(n, dtype=np.int64)
    a, b = (pair[:, 0], pair[:, 1]) if len(pair) else (root[:0], root[:0])
    while len(a):
        ra, rb = root[a], root[b]
        apart = ra != rb
        if not apart.any():
            break
        a, b, ra, rb = a[apart], b[apart], ra[apart], rb[apart]
        np.minimum.at(root, np.maximum(ra, rb), np.minimum(ra, rb))
        while True:
            short = root[root]
            if np.array_equal(short, root):
                break
            root = short
    return np.unique(root, return_inverse=True)[1].astype(np.int32).reshape(n)


def own_joints(ground: Ground) -> NDArray[np.bool_]:
    """Say which joints a section may span: one adhesive on both sides, neither tessera oversize, (m,)."""
    if not len(ground.pair):
        return np.zeros(0, bool)
    a, b = ground.pair[:, 0], ground.pair[:, 1]
    alone = ground.expected_s > ground.cap_s
    return np.asarray((ground.adhesive[a] == ground.adhesive[b]) & ~alone[a] & ~alone[b])


def one_adhesive_parts(ground: Ground) -> IntArray:
    """Number the connected parts of one adhesive, (n,); an oversize tessera is a part of its own."""
    return components(ground.count, ground.pair[own_joints(ground)])


def part_bounds(ground: Ground, part: IntArray) -> list[int]:
    """Return the fewest sections that each part could need: ceil(sum of times / capacity), at least 1."""
    if not ground.count:
        return []
    order = np.argsort(part, kind="stable")
    times, starts = ground.expected_s[order], np.searchsorted(part[order], np.arange(part.max() + 1))
    ends = np.append(starts[1:], len(order))
    caps = ground.cap_s[order[starts]]
    return [
        1 if j - i == 1 else max(1, math.ceil(math.fsum(times[i:j]) / cap))
        for i, j, cap in zip(starts, ends, caps, strict=True)
    ]

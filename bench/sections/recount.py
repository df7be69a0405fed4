"""Change how many sections a labelling has: one more by halving, one fewer by giving it to its neighbours."""

from __future__ import annotations

import numpy as np

from bench.sections.division import in_order
from bench.sections.ground import IntArray
from bench.sections.halve import cut_in_two
from bench.sections.mesh import Mesh


def with_count(mesh: Mesh, label: IntArray, k: int, rng: np.random.Generator) -> IntArray:
    """Return a labelling with k connected sections, as much like the given one as may be, 0..k-1.

    The fullest sections are halved or the emptiest dissolved. k is held to 1..n.
    """
    label = in_order(label)
    wanted = max(1, min(k, mesh.count))
    while (have := int(label.max()) + 1) != wanted:
        load = np.bincount(label, mesh.load, have)
        if have > wanted:
            label = dissolved(mesh, label, int(np.argmin(load)))
        else:
            load[np.bincount(label, minlength=have) < 2] = -1
            label = halved(mesh, label, int(np.argmax(load)), rng)
    return label


def halved(mesh: Mesh, label: IntArray, section: int, rng: np.random.Generator) -> IntArray:
    """Return the labelling with one section cut in two; the new half takes the next free number."""
    own = np.flatnonzero(label == section).astype(np.int32)
    inner = np.full(mesh.count, -1, np.int32)
    inner[own] = np.arange(len(own), dtype=np.int32)
    joints = np.flatnonzero((label[mesh.pair] == section).all(axis=1))
    near_side, _ = cut_in_two(mesh, own, inner[mesh.pair[joints]], mesh.cost[joints], 2, rng)
    label = label.copy()
    label[own[~near_side]] = int(label.max()) + 1
    return label


def dissolved(mesh: Mesh, label: IntArray, section: int) -> IntArray:
    """Return the labelling without one section: its tesserae join what they face most, ring by ring."""
    label = label.copy()
    left = set(np.flatnonzero(label == section).tolist())
    while left:
        joined: dict[int, int] = {}
        for v in left:
            facing: dict[int, float] = {}
            for u, cost in mesh.near[v]:
                if u not in left:
                    facing[int(label[u])] = facing.get(int(label[u]), 0.0) + cost
            if facing:
                joined[v] = max(facing, key=lambda b: (facing[b], -b))
        for v, to in joined.items():
            label[v] = to
        left -= joined.keys()
    return in_order(label)

"""Change how many sections a labelling has: one more by halving, one fewer by giving it to its neighbours."""

from __future__ import annotations

import numpy as np

from bench.sections.division import in_order
from bench.sections.ground import FloatArray, IntArray
from bench.sections.halve import cut_in_two
from bench.sections.mesh import Mesh

MOST_SOLVED = 300  # sections; solving for more takes longer than a re-division may


def with_count(mesh: Mesh, label: IntArray, k: int, rng: np.random.Generator) -> IntArray:
    """Return a labelling with k connected sections, as much like the given one as may be, 0..k-1.

    Halved or dissolved is the section from which the loads then even out over the shortest ways. k is held
    to 1..n.
    """
    label = in_order(label)
    wanted = max(1, min(k, mesh.count))
    while (have := int(label.max()) + 1) != wanted:
        more = 1 if have < wanted else -1
        effort = evening_out(mesh, label, more)
        if more < 0:
            label = dissolved(mesh, label, int(np.argmin(effort)))
        else:
            effort[np.bincount(label, minlength=have) < 2] = np.inf
            label = halved(mesh, label, int(np.argmin(effort)), rng)
    return label


def evening_out(mesh: Mesh, label: IntArray, more: int) -> FloatArray:
    """Return, for each section, what it takes to even out the loads if it is halved (+1) or dissolved (-1).

    Loads flow over the section graph as current does; the effort is the flow's energy e'L⁺e up to what all
    choices share, with L the Laplacian and e the loads above the new mean m: m² L⁺ss ∓ 2m (L⁺e)s. Of more
    than MOST_SOLVED sections the fullest, or emptiest, is taken as it comes.
    """
    k = int(label.max()) + 1
    load = np.bincount(label, mesh.load, k)
    if k > MOST_SOLVED:
        return np.asarray(-more * load, float)
    beside = np.zeros((k, k))
    pairs = label[mesh.pair]
    beside[pairs[:, 0], pairs[:, 1]] = beside[pairs[:, 1], pairs[:, 0]] = 1.0
    np.fill_diagonal(beside, 0.0)
    spread = np.linalg.pinv(np.diag(beside.sum(axis=1)) - beside, hermitian=True)
    mean = float(load.sum()) / max(k + more, 1)
    return np.asarray(mean**2 * np.diag(spread) - more * 2 * mean * (spread @ (load - mean)), float)


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

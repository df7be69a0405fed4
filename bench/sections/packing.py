"""A legal division of any connected set, however awkward: fill up along a tree, never beyond the capacity."""

from __future__ import annotations

import heapq

import numpy as np

from bench.sections.division import in_order
from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh
from bench.sections.shape import CAP


def pack(mesh: Mesh, own: list[int]) -> list[list[int]]:
    """Cut a connected set into connected bundles, each within the capacity; a lone tessera always passes.

    Works from the far ends of a tree (by steps) towards its root: what hangs below a tessera is taken along
    as long as it fits, lightest first, and becomes a bundle of its own where it does not.
    """
    inside, seen = set(own), {own[0]}
    reach, parent = [own[0]], {own[0]: -1}
    for v in reach:
        for u, _ in mesh.near[v]:
            if u in inside and u not in seen:
                seen.add(u)
                parent[u] = v
                reach.append(u)
    hanging: dict[int, list[tuple[float, list[int]]]] = {v: [] for v in reach}
    bundles: list[list[int]] = []
    for v in reversed(reach):
        load, held = float(mesh.load[v]), [v]
        for weight, below in sorted(hanging.pop(v), key=lambda item: item[0]):
            if load + weight <= CAP * (1 - 1e-9):
                load += weight
                held += below
            else:
                bundles.append(below)
        if parent[v] < 0:
            bundles.append(held)
        else:
            hanging[parent[v]].append((load, held))
    return bundles


def within_capacity(mesh: Mesh, label: IntArray, full: list[int]) -> IntArray:
    """Return the labelling with every overfull section packed anew into as many as it takes."""
    fresh = int(label.max()) + 1
    order = np.argsort(label, kind="stable")
    start = np.searchsorted(label[order], np.arange(fresh + 1)).tolist()
    label = label.copy()
    for section in full:
        own = order[start[section] : start[section + 1]].tolist()
        first, *rest = sorted(pack(mesh, own), key=len, reverse=True)
        for bundle in rest:
            label[bundle] = fresh
            fresh += 1
        label[first] = section
    return label


def merged(mesh: Mesh, label: IntArray) -> IntArray:
    """Join neighbouring sections while two of them fit into one, the lightest first; labels stay 0..k-1."""
    load = np.bincount(label, mesh.load).tolist()
    beside: list[set[int]] = [set() for _ in load]
    for a, b in np.unique(np.sort(label[mesh.pair], axis=1), axis=0).tolist():
        if a != b:
            beside[a].add(b)
            beside[b].add(a)
    into = list(range(len(load)))
    heap = [(weight, s) for s, weight in enumerate(load)]
    heapq.heapify(heap)
    while heap:
        weight, s = heapq.heappop(heap)
        if into[s] != s or weight != load[s] or not beside[s]:
            continue
        other = min(beside[s], key=lambda b: (load[b], b))
        if load[s] + load[other] > CAP * (1 - 1e-9):
            continue
        into[s] = other
        load[other] += load[s]
        beside[other] |= beside[s]
        for b in beside[s]:
            beside[b].discard(s)
            beside[b].add(other)
        beside[other] -= {s, other}
        heapq.heappush(heap, (load[other], other))
    return in_order(np.array([_last(into, s) for s in range(len(load))])[label])


def _last(into: list[int], s: int) -> int:
    while into[s] != s:
        s = into[s]
    return s

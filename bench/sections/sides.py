"""Two neighbouring sections: what lies on either side of their common edge, and the best move across it."""

from __future__ import annotations

from collections.abc import Callable
from heapq import nsmallest

import numpy as np

from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh
from bench.sections.shape import Shape

SWAPS_TRIED = 12

Step = tuple[float, list[tuple[int, int]]]  # what it adds to cut and spread, and the moves: tessera, section


def section_pairs(mesh: Mesh, label: IntArray) -> IntArray:
    """List the pairs of sections that share a joint, smaller number first, each once."""
    ends = np.sort(label[mesh.pair], axis=1)
    return np.unique(ends[ends[:, 0] != ends[:, 1]], axis=0)


class Sides:
    """Find the tesserae of one section that lie beside another."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.members: list[set[int]] = [set() for _ in range(shape.k)]
        for v, section in enumerate(shape.lab[:-1]):
            self.members[section].add(v)

    def able(self, section: int, other: int) -> list[tuple[float, float, int]]:
        """List what could move from one section to the other: (what it adds, load, tessera)."""
        shape, of, facing = self.shape, self.shape.lab.__getitem__, self.shape.mesh.facing
        beside = sorted(v for v in self.members[section] if other in map(of, facing[v]))
        return [(shape.gain(v, other), shape.weight[v], v) for v in beside if shape.can_leave(v)]

    def take(self, step: Step) -> None:
        for v, to in step[1]:
            self.members[self.shape.lab[v]].discard(v)
            self.members[to].add(v)
            self.shape.move(v, to)


def best_step(
    shape: Shape,
    sides: Sides,
    section: int,
    other: int,
    missed: Callable[[float], float],
    *,
    swaps: bool,
) -> Step | None:
    """Return the move or swap between two sections that pays best, or None where none pays.

    missed: what a load of the first section costs; a step pays when it saves more of that than it adds.
    """
    load = shape.load[section]
    out, back = sides.able(section, other), sides.able(other, section)
    now = missed(load) - 1e-9 * shape.mesh.unit_mm
    singles = [(change + missed(load - t), change, v, other) for change, t, v in out]
    singles += [(change + missed(load + t), change, w, section) for change, t, w in back]
    single = min(singles, default=None)
    if swaps:
        pairs = [(gv + gw + missed(load - tv + tw), v, w) for gv, tv, v in out for gw, tw, w in back]
        swap = _first_sound(shape, section, other, missed, nsmallest(SWAPS_TRIED, pairs), now)
        if swap is not None and (single is None or swap[0] < single[0]):
            return swap[1]
    return (single[1], [single[2:]]) if single is not None and single[0] < now else None


def _first_sound(
    shape: Shape,
    section: int,
    other: int,
    missed: Callable[[float], float],
    pairs: list[tuple[float, int, int]],
    now: float,
) -> tuple[float, Step] | None:
    """Return the first of some swaps, cheapest first, that keeps both sections whole and pays."""
    for worth, v, w in pairs:
        if worth >= now:
            return None
        change = shape.gain(v, other)
        shape.move(v, other)
        sound = section in map(shape.lab.__getitem__, shape.mesh.facing[w]) and shape.can_leave(w)
        change += shape.gain(w, section) if sound else 0.0
        after = shape.load[section] + shape.weight[w]
        shape.move(v, section)
        if sound and change + missed(after) < now:
            return change + missed(after), (change, [(v, other), (w, section)])
    return None

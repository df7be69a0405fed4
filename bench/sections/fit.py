"""The exact cap: load handed on from leaf to root of a spanning tree of sections, by the cheapest moves."""

from __future__ import annotations

from collections.abc import Callable
from heapq import nsmallest

import numpy as np

from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh
from bench.sections.shape import CAP, Shape

HARD = CAP * (1 - 1e-12)  # a hair below, so that rounding never lets a section past the exact recount
TRIES = 60  # moves and swaps to bring one section into its window
SWAPS_TRIED = 12
UNDER, OVER = 4.0, 20.0  # price of missing the window by a mean tessera, in mean joints


def fit(shape: Shape, trees: int, rng: np.random.Generator) -> bool:
    """Bring every section within the capacity without adding one, if any of some random trees manages it.

    The shape is left as the best tree made it: least overload first, then least cut and spread.
    """
    start = shape.label()
    best: tuple[float, float, IntArray] | None = None
    for tree in range(trees):
        if tree:
            shape.set(start)
        added = _one_tree(shape, rng)
        over = sum(max(load - HARD, 0.0) for load in shape.load)
        if best is None or (over, added) < best[:2]:
            best = (over, added, shape.label())
    assert best is not None
    shape.set(best[2])
    return best[0] == 0.0


def section_pairs(mesh: Mesh, label: IntArray) -> IntArray:
    """List the pairs of sections that share a joint, smaller number first, each once."""
    ends = np.sort(label[mesh.pair], axis=1)
    return np.unique(ends[ends[:, 0] != ends[:, 1]], axis=0)


def _one_tree(shape: Shape, rng: np.random.Generator) -> float:
    order, parent = _random_tree(shape, rng)
    sides = _Sides(shape)
    spare, used, added = max(shape.k * HARD - sum(shape.load), 0.0), 0.0, 0.0
    for done, section in enumerate(order[:-1], start=1):
        allowed = spare * done / max(shape.k - 1, 1) - used
        added += _into_window(shape, sides, section, parent[section], HARD - max(allowed, 0.0))
        used += HARD - shape.load[section]
    return added


def _random_tree(shape: Shape, rng: np.random.Generator) -> tuple[list[int], dict[int, int]]:
    """Return the sections from the leaves to the root of a random tree, and each one's parent."""
    beside: dict[int, list[int]] = {s: [] for s in range(shape.k)}
    for a, b in rng.permutation(section_pairs(shape.mesh, shape.label())).tolist():
        beside[a].append(b)
        beside[b].append(a)
    root = int(rng.integers(shape.k))
    reach, parent = [root], {root: -1}
    for s in reach:
        for other in beside[s]:
            if other not in parent:
                parent[other] = s
                reach.append(other)
    return reach[::-1], parent


class _Sides:
    """Find the tesserae of one section that lie beside another."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.members: list[set[int]] = [set() for _ in range(shape.k)]
        for v, section in enumerate(shape.lab[:-1]):
            self.members[section].add(v)

    def beside(self, section: int, other: int) -> list[int]:
        lab, near = self.shape.lab, self.shape.mesh.near
        return sorted(v for v in self.members[section] if any(lab[u] == other for u, _ in near[v]))

    def move(self, v: int, to: int) -> None:
        self.members[self.shape.lab[v]].discard(v)
        self.members[to].add(v)
        self.shape.move(v, to)


Step = tuple[float, list[tuple[int, int]]]  # what it adds, and the moves: tessera, section


def _into_window(shape: Shape, sides: _Sides, section: int, parent: int, least: float) -> float:
    """Give to the parent, take from it, or swap, until the load lies between least and the cap."""
    added = 0.0
    for _ in range(TRIES):
        if least <= shape.load[section] <= HARD:
            break
        step = _best_step(shape, sides, section, parent, least)
        if step is None:
            break
        added += step[0]
        for v, to in step[1]:
            sides.move(v, to)
    return added


def _best_step(shape: Shape, sides: _Sides, section: int, parent: int, least: float) -> Step | None:
    """Return the move or swap that pays best: what it saves in missed window, less what it adds, or None.

    A swap is tried where the window is missed by no more than the heaviest tessera.
    """
    weight, load, unit = shape.weight, shape.load[section], shape.mesh.unit_mm
    each = unit * shape.mesh.count / max(float(shape.mesh.load.sum()), 1e-12)

    def missed(after: float) -> float:
        return each * (UNDER * max(least - after, 0.0) + OVER * max(after - HARD, 0.0))

    out = [(shape.gain(v, parent), weight[v], v) for v in sides.beside(section, parent) if shape.can_leave(v)]
    back = [
        (shape.gain(w, section), weight[w], w) for w in sides.beside(parent, section) if shape.can_leave(w)
    ]
    now = missed(load) - 1e-9 * unit
    single = min(
        [(change + missed(load - t), change, v, parent) for change, t, v in out]
        + [(change + missed(load + t), change, w, section) for change, t, w in back],
        default=None,
    )
    heaviest = max([t for _, t, _ in (*out, *back)], default=0.0)
    if least - heaviest <= load <= HARD + heaviest:
        pairs = [
            (gv + gw + missed(load - tv + tw), v, w) for gv, tv, v in out for gw, tw, w in back if tv != tw
        ]
        swap = _first_sound(shape, section, parent, missed, nsmallest(SWAPS_TRIED, pairs), now)
        if swap is not None and (single is None or swap[0] < single[0]):
            return swap[1]
    return (single[1], [single[2:]]) if single is not None and single[0] < now else None


def _first_sound(
    shape: Shape,
    section: int,
    parent: int,
    missed: Callable[[float], float],
    pairs: list[tuple[float, int, int]],
    now: float,
) -> tuple[float, Step] | None:
    """Return the first of some swaps, cheapest first, that keeps both sections whole and pays."""
    for worth, v, w in pairs:
        if worth >= now:
            return None
        change = shape.gain(v, parent)
        shape.move(v, parent)
        beside = any(shape.lab[u] == section for u, _ in shape.mesh.near[w])
        sound = beside and shape.can_leave(w)
        change += shape.gain(w, section) if sound else 0.0
        after = shape.load[section] + shape.weight[w]
        shape.move(v, section)
        if sound and change + missed(after) < now:
            return change + missed(after), (change, [(v, parent), (w, section)])
    return None

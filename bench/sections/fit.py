"""The exact cap: load handed on from leaf to root of a spanning tree of sections, by the cheapest moves."""

from __future__ import annotations

import numpy as np

from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh
from bench.sections.shape import CAP, Shape

HARD = CAP * (1 - 1e-12)  # a hair below, so that rounding never lets a section past the exact recount
TRIES = 40  # moves and swaps to bring one section into its window


def fit(shape: Shape, trees: int, rng: np.random.Generator) -> IntArray | None:
    """Bring every section within the capacity without adding one; None where no tree manages it.

    The labelling of least cut and spread among the trees that succeed is returned; shape is left with it.
    """
    start = shape.label()
    best: tuple[float, IntArray] | None = None
    failed = 0
    for _ in range(trees):
        shape.set(start)
        added = _one_tree(shape, rng)
        if max(shape.load) <= HARD:
            if best is None or added < best[0]:
                best = (added, shape.label())
        else:
            failed += 1
            if best is None and failed >= max(2, trees // 2):
                break
    if best is None:
        shape.set(start)
        return None
    shape.set(best[1])
    return best[1]


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


def _into_window(shape: Shape, sides: _Sides, section: int, parent: int, least: float) -> float:
    """Give to the parent, take from it, or swap, until the load lies between least and the cap."""
    added = 0.0
    for _ in range(TRIES):
        load = shape.load[section]
        if least <= load <= HARD:
            return added
        step = _best_step(shape, sides, section, parent, least)
        if step is None:
            return added
        change, moves = step
        added += change
        for v, to in moves:
            sides.move(v, to)
    return added


Step = tuple[float, list[tuple[int, int]]]


def _best_step(shape: Shape, sides: _Sides, section: int, parent: int, least: float) -> Step | None:
    """Return the cheapest way into the window, else the cheapest useful way towards it, else None."""
    load, unit = shape.load[section], shape.mesh.unit_mm
    giving = load > HARD
    source, target = (section, parent) if giving else (parent, section)
    able = [v for v in sides.beside(source, target) if shape.weight[v] > 0 and shape.can_leave(v)]
    singles: list[tuple[float, Step]] = []
    for v in able:
        after = load - shape.weight[v] if giving else load + shape.weight[v]
        if not giving and after > HARD:
            continue
        change = shape.gain(v, target)
        short = max(least - after, after - HARD, 0.0)
        # what is still missing is charged as boundary of that many mean tesserae
        singles.append((change + unit * short * 40, (change, [(v, target)])))
    landing = [step for worth, step in singles if least <= load + _shift(shape, step, section) <= HARD]
    if landing:
        return min(landing, key=lambda step: (step[0], step[1]))
    swap = _best_swap(shape, sides, section, parent, least) if _nearly(shape, load, least) else None
    if swap is not None:
        return swap
    if singles and (giving or not _nearly(shape, load, least)):
        return min(singles)[1]
    return None


def _shift(shape: Shape, step: Step, section: int) -> float:
    return sum(shape.weight[v] if to == section else -shape.weight[v] for v, to in step[1])


def _nearly(shape: Shape, load: float, least: float) -> bool:
    """Say whether a swap of one tessera for another could close the gap."""
    heaviest = float(shape.mesh.load.max())
    return least - heaviest <= load <= HARD + heaviest


def _best_swap(shape: Shape, sides: _Sides, section: int, parent: int, least: float) -> Step | None:
    load = shape.load[section]
    out = [(v, shape.gain(v, parent)) for v in sides.beside(section, parent) if shape.can_leave(v)]
    back = [(w, shape.gain(w, section)) for w in sides.beside(parent, section) if shape.can_leave(w)]
    pairs = [
        (gain_v + gain_w, v, w)
        for v, gain_v in out
        for w, gain_w in back
        if least <= load - shape.weight[v] + shape.weight[w] <= HARD
    ]
    for _, v, w in sorted(pairs)[:12]:
        home, change = shape.lab[v], shape.gain(v, parent)
        shape.move(v, parent)
        still = any(shape.lab[u] == home for u, _ in shape.mesh.near[w]) and shape.can_leave(w)
        change += shape.gain(w, section) if still else 0.0
        shape.move(v, home)
        if still:
            return change, [(v, parent), (w, section)]
    return None

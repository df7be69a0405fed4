"""The exact cap: load handed on from the leaves to the root of a tree of sections, by the cheapest moves."""

from __future__ import annotations

import numpy as np

from bench.sections.ground import IntArray
from bench.sections.relieve import relieve
from bench.sections.shape import HARD, Shape
from bench.sections.sides import Sides, Step, best_step, section_pairs

TRIES = 60  # moves and swaps to bring one section into its window
SWEEPS = 6  # trees one after another, each taking up what the last left over at its root
DEARER = 4.0  # times as dear is missing the window in each sweep: with little to spare all must be near full
REFUSED = 60.0  # price of any overload at all, in mean joints
UNDER, OVER = 4.0, 20.0  # of missing the window by a mean tessera; the first grows with what is in arrears


def fit(shape: Shape, trees: int, rng: np.random.Generator) -> bool:
    """Bring every section within the capacity without adding one, if any of some random trees manages it.

    The shape is left as the best tree made it: least overload first, then least cut and spread.
    """
    if max(shape.load) <= HARD or relieve(shape, rng):
        return True
    start = shape.label()
    best: tuple[float, float, IntArray] | None = None
    for tree in range(trees):
        if tree:
            shape.set(start)
        added = 0.0
        for sweep in range(SWEEPS):
            added += _one_tree(shape, UNDER * DEARER**sweep, rng)
            if max(shape.load) <= HARD:
                break
        over = sum(max(load - HARD, 0.0) for load in shape.load)
        if best is None or (over, added) < best[:2]:
            best = (over, added, shape.label())
    assert best is not None
    shape.set(best[2])
    return best[0] == 0.0


def _one_tree(shape: Shape, under: float, rng: np.random.Generator) -> float:
    order, later = _random_order(shape, rng)
    sides = Sides(shape)
    spare, used, added = max(shape.k * HARD - sum(shape.load), 0.0), 0.0, 0.0
    for done, section in enumerate(order[:-1], start=1):
        allowed = spare * done / max(shape.k - 1, 1) - used
        debt = max(-allowed, 0.0) * shape.mesh.count / max(float(shape.mesh.load.sum()), 1e-12)
        price = under * (1 + UNDER * debt)
        added += _into_window(shape, sides, section, later[section], HARD - max(allowed, 0.0), price)
        used += HARD - shape.load[section]
    return added


def _random_order(shape: Shape, rng: np.random.Generator) -> tuple[list[int], dict[int, list[int]]]:
    """Return the sections from leaves to root of a random tree, and each one's neighbours that come later."""
    beside: dict[int, list[int]] = {s: [] for s in range(shape.k)}
    for a, b in rng.permutation(section_pairs(shape.mesh, shape.label())).tolist():
        beside[a].append(b)
        beside[b].append(a)
    root = int(rng.integers(shape.k))
    reach, seen = [root], {root}
    for s in reach:
        for other in beside[s]:
            if other not in seen:
                seen.add(other)
                reach.append(other)
    turn = {s: i for i, s in enumerate(reach)}
    return reach[::-1], {s: [b for b in beside[s] if turn[b] < turn[s]] for s in reach}


def _into_window(
    shape: Shape, sides: Sides, section: int, later: list[int], least: float, under: float
) -> float:
    """Give to later neighbours, take from them, or swap, until the load lies between least and the cap.

    A swap is tried where the window is missed by no more than the heaviest tessera.
    """
    unit = shape.mesh.unit_mm
    each = unit * shape.mesh.count / max(float(shape.mesh.load.sum()), 1e-12)
    heaviest = float(shape.mesh.load.max())

    def missed(after: float) -> float:
        if after > HARD:
            return unit * REFUSED + each * OVER * (after - HARD)
        return each * under * max(least - after, 0.0)

    added = 0.0
    for _ in range(TRIES):
        load = shape.load[section]
        if least <= load <= HARD:
            break
        near = least - heaviest <= load <= HARD + heaviest
        steps = [s for b in later if (s := best_step(shape, sides, section, b, missed, swaps=near))]
        step = min(steps, key=lambda s: s[0] + missed(_after(shape, section, s)), default=None)
        if step is None:
            break
        added += step[0]
        sides.take(step)
    return added


def _after(shape: Shape, section: int, step: Step) -> float:
    """Return the load of a section once a step is taken."""
    return shape.load[section] + sum(shape.weight[v] * (1 if to == section else -1) for v, to in step[1])

"""The search within one connected part: anneal, hold to the exact cap, keep the best, begin again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bench.sections.anneal import anneal
from bench.sections.fit import fit
from bench.sections.ground import IntArray
from bench.sections.measures import ROUNDNESS_WEIGHT
from bench.sections.mesh import Mesh
from bench.sections.packing import merged, within_capacity
from bench.sections.recount import with_count
from bench.sections.shape import Shape, overfull
from bench.sections.swaps import swap

FEWEST_TREES, MOST_TREES, TREES_TIMES_TESSERAE = 2, 12, 12_000  # large panels can afford few
YIELD_EVERY = 8  # passes
PASSES_AFTER_SPLIT = 10
PASSES_OF_POLISH, ROUNDS_OF_POLISH = 3, 2
COLDEST, CLOSED = 0.03, 1e12  # temperature and price of overload of the polish, in mean joints


@dataclass(frozen=True)
class Schedule:
    """Set how hot a round begins and ends (in mean joints), the price of overload, and how many passes."""

    hot: float = 2.0
    cold: float = 0.12
    soft: float = 40.0
    stiff: float = 400.0
    passes: int = 60

    def at(self, share: float) -> tuple[float, float]:
        """Return temperature and price of overload when a share of the round is behind."""
        return self.hot * (self.cold / self.hot) ** share, self.soft * (self.stiff / self.soft) ** share


FRESH = Schedule()
AGAIN = Schedule(hot=1.0)  # later rounds start from what the last one found
GENTLE = Schedule(hot=0.1, cold=0.05, soft=100.0, passes=12)  # a re-division stays near the old one


class Part:
    """Carry one part through the search: the count of sections aimed at, and the best legal labelling."""

    def __init__(self, mesh: Mesh, start: IntArray, k: int) -> None:
        self.mesh = mesh
        self.start = start
        self.k = k
        self.best = legalised(mesh, start)
        self.cost = cost_of(mesh, self.best)

    @property
    def count(self) -> int:
        """Sections of the best labelling."""
        return int(self.best.max()) + 1

    def offer(self, label: IntArray) -> None:
        """Keep a labelling, made legal if need be, when it has fewer sections, or as many at less cost."""
        label = legalised(self.mesh, label)
        cost = cost_of(self.mesh, label)
        if (int(label.max()) + 1, cost) < (self.count, self.cost):
            self.best, self.cost = label, cost


def legalised(mesh: Mesh, label: IntArray) -> IntArray:
    """Return a labelling within the capacity: overfull sections packed anew, then small ones joined."""
    full = overfull(mesh, label)
    return merged(mesh, within_capacity(mesh, label, full)) if full else label


def cost_of(mesh: Mesh, label: IntArray) -> float:
    """Return cut and roundness of a labelling of one part, as measures.total_cost defines them. [mm]"""
    k = int(label.max()) + 1
    cut = float(mesh.cost[label[mesh.pair[:, 0]] != label[mesh.pair[:, 1]]].sum())
    room = np.maximum(np.bincount(label, mesh.area, k), 1e-12)
    centre = np.stack([np.bincount(label, mesh.area * x, k) / room for x in mesh.xy.T], axis=1)
    away = ((mesh.xy - centre[label]) ** 2).sum(axis=1)
    return cut + ROUNDNESS_WEIGHT * float(np.sqrt(np.bincount(label, mesh.area * away, k) / room).sum())


def improve(
    part: Part, budget: int, rng: np.random.Generator, first: Schedule = FRESH, then: Schedule = AGAIN
) -> Iterator[int]:
    """Work on a part until its budget is spent; yield the steps used, each time with part.best legal.

    The budget is cut into rounds of about as many passes as the schedule asks for. A round that the exact
    cap refuses is taken up again with one more section, unless the best has no more than that; after two
    refusals that count is aimed at from then on.
    """
    used, refused, plan, label = 0, 0, first, part.start
    while budget - used > 0:
        shape = Shape(part.mesh, label, part.k, ROUNDNESS_WEIGHT)
        for spent in _round(shape, plan, budget - used, rng):
            yield used + spent
        used += spent
        label, plan = shape.label(), then
        if fit(shape, _trees(part.mesh), rng):
            used += _polished(part, shape, rng)
            refused, label = 0, shape.label()
        else:
            refused += 1
            part.offer(shape.label())
            used += _with_more(part, label, rng)
            if refused >= 2 and part.k < part.count:
                part.k, refused, label = part.count, 0, part.best
        yield used


def _round(shape: Shape, plan: Schedule, budget: int, rng: np.random.Generator) -> Iterator[int]:
    """Anneal pass by pass; yield now and then, and at the end, the steps that this round has used.

    The first pass tells what a pass costs; from it the round is fitted into what is left of the budget.
    """
    used = anneal(shape, *plan.at(0.0), rng)
    affordable = budget // max(used, 1)
    rounds = max(1, round(affordable / plan.passes))
    passes = max(1, min(affordable // rounds, 4 * plan.passes))
    for i in range(1, passes):
        if i % YIELD_EVERY == 0:
            yield used
        used += anneal(shape, *plan.at(i / max(passes - 1, 1)), rng)
    yield used


def _trees(mesh: Mesh) -> int:
    return max(FEWEST_TREES, min(MOST_TREES, TREES_TIMES_TESSERAE // mesh.count))


def _polished(part: Part, shape: Shape, rng: np.random.Generator) -> int:
    """Offer a shape that fits, and again after cold passes and swaps that keep it within the capacity."""
    part.offer(shape.label())
    used = 0
    for _ in range(ROUNDS_OF_POLISH):
        used += sum(anneal(shape, COLDEST, CLOSED, rng) for _ in range(PASSES_OF_POLISH))
        used += swap(shape, rng)
    part.offer(shape.label())
    return used


def _with_more(part: Part, label: IntArray, rng: np.random.Generator) -> int:
    """Offer what a labelling becomes with a section more, or 2, 4, 8 ..: stiff passes, then the exact cap."""
    used, more = 0, 1
    while part.k + more < part.count:
        k = part.k + more
        shape = Shape(part.mesh, with_count(part.mesh, label, k, rng), k, ROUNDNESS_WEIGHT)
        for _ in range(PASSES_AFTER_SPLIT):
            used += anneal(shape, FRESH.cold * 2, FRESH.stiff, rng)
        if fit(shape, _trees(part.mesh), rng):
            used += _polished(part, shape, rng)
            break
        part.offer(shape.label())
        more *= 2
    return used

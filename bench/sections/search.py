"""The search within one connected part: anneal, hold to the exact cap, keep the best, begin again."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bench.sections.anneal import anneal
from bench.sections.fit import fit
from bench.sections.ground import IntArray
from bench.sections.levels import Begun
from bench.sections.measures import RAG
from bench.sections.mesh import Mesh
from bench.sections.packing import merged, within_capacity
from bench.sections.recount import with_count
from bench.sections.schedule import MILDER, ROUND, Schedule
from bench.sections.shape import CAP, Shape, overfull
from bench.sections.swaps import swap

FEWEST_TREES, MOST_TREES, TREES_TIMES_TESSERAE = 2, 12, 12_000  # large panels can afford few
LEAST_REFUSALS, MOST_REFUSALS, REFUSALS_TIMES_TESSERAE = 2, 30, 1500
TRIED_FOR = 0.4  # share of the budget after which, at the earliest, a refused count is given up
STEPS_TO_BEGIN = 30  # a tessera; about what it takes from coarse to fine
YIELD_EVERY = 8  # passes
PASSES_AFTER_SPLIT = 10
PASSES_OF_POLISH, ROUNDS_OF_POLISH = 3, 2
AIMED_AT = 0.6  # share of the free capacity that a section may use up while annealing
COLDEST, CLOSED = 0.03, 1e12  # temperature and price of overload of the polish, in mean joints


class Part:
    """Carry one part through the search: the count of sections aimed at, and the best legal labelling."""

    def __init__(self, mesh: Mesh, start: IntArray, k: int) -> None:
        self.mesh = mesh
        self.start = start
        self.k = k
        self.best = legalised(mesh, start)
        self.rank = _rank(mesh, self.best)

    @property
    def count(self) -> int:
        """Sections of the best labelling."""
        return int(self.best.max()) + 1

    def offer(self, label: IntArray) -> None:
        """Keep a labelling, made legal if need be, when it ranks before the best: see _rank."""
        label = legalised(self.mesh, label)
        rank = _rank(self.mesh, label)
        if rank < self.rank:
            self.best, self.rank = label, rank


def legalised(mesh: Mesh, label: IntArray) -> IntArray:
    """Return a labelling within the capacity: overfull sections packed anew, then small ones joined."""
    full = overfull(mesh, label)
    return merged(mesh, within_capacity(mesh, label, full)) if full else label


def _rank(mesh: Mesh, label: IntArray) -> tuple[int, int, float]:
    """Rank a labelling: by sections, then by rags among them, then by what cut and roundness cost."""
    load = np.bincount(label, mesh.load)
    return len(load), int((load < RAG).sum()), cost_of(mesh, label)


def cost_of(mesh: Mesh, label: IntArray) -> float:
    """Return cut and roundness of a labelling of one part, as measures.total_cost defines them. [mm]"""
    k = int(label.max()) + 1
    cut = float(mesh.cost[label[mesh.pair[:, 0]] != label[mesh.pair[:, 1]]].sum())
    room = np.maximum(np.bincount(label, mesh.area, k), 1e-12)
    centre = np.stack([np.bincount(label, mesh.area * x, k) / room for x in mesh.xy.T], axis=1)
    away = ((mesh.xy - centre[label]) ** 2).sum(axis=1)
    return cut + mesh.roundness * float(np.sqrt(np.bincount(label, mesh.area * away, k) / room).sum())


def improve(
    part: Part, budget: int, rng: np.random.Generator, plan: Schedule = ROUND, *, fresh: bool = True
) -> Iterator[int]:
    """Work on a part until its budget is spent; yield the steps used, each time with part.best legal.

    The budget is cut into rounds of about as many passes as the schedule asks for. Every other round of a
    fresh part begins anew, from coarse to fine, where that can be afforded; the others take up the best,
    less hot, so as not to lose it. A round that the exact cap refuses is taken up again with one more
    section, unless the best has no more than that; after some refusals (see _patience and TRIED_FOR) that
    count is aimed at from then on.
    """
    used, refused, rounds, label = 0, 0, 0, part.start
    while budget - used > 0:
        if fresh and rounds % 2 == 0 and budget - used >= STEPS_TO_BEGIN * part.mesh.count:
            begun = Begun(part.mesh, part.k, rng)
            for spent in begun:
                yield used + spent
            used, label = used + begun.used, begun.label
        milder = fresh and rounds % 2 == 1
        if milder and part.count == part.k:
            label = part.best
        rounds += 1
        shape = Shape(part.mesh, label, part.k)
        for spent in _round(shape, MILDER if milder else plan, budget - used, rng):
            yield used + spent
        used += spent
        label = shape.label()
        if fit(shape, _trees(part.mesh), rng):
            used += _polished(part, shape, rng)
            refused, label = 0, shape.label()
        else:
            refused += 1
            part.offer(shape.label())
            used += _with_more(part, label, rng)
            tried = refused >= _patience(part.mesh) and used >= TRIED_FOR * budget
            if tried and part.k < part.count:
                part.k, refused, label = part.count, 0, part.best
        yield used


def _round(shape: Shape, plan: Schedule, budget: int, rng: np.random.Generator) -> Iterator[int]:
    """Anneal pass by pass; yield now and then, and at the end, the steps that this round has used.

    The first pass tells what a pass costs; from it the round is fitted into what is left of the budget.
    """
    shape.cap = _aim(shape.mesh, shape.k)
    used = anneal(shape, *plan.at(0.0), rng)
    affordable = budget // max(used, 1)
    rounds = max(1, round(affordable / plan.passes))
    passes = max(1, min(affordable // rounds, 4 * plan.passes))
    for i in range(1, passes):
        if i % YIELD_EVERY == 0:
            yield used
        used += anneal(shape, *plan.at(i / max(passes - 1, 1)), rng)
    shape.cap = CAP
    yield used


def _aim(mesh: Mesh, k: int) -> float:
    """Return the load that annealing aims below: part of what k sections leave free stays free."""
    mean = float(mesh.load.sum()) / k
    return mean + AIMED_AT * max(CAP - mean, 0.0)


def _patience(mesh: Mesh) -> int:
    """Return after how many refusals a section more is aimed at: small panels are the hard ones."""
    return max(LEAST_REFUSALS, min(MOST_REFUSALS, REFUSALS_TIMES_TESSERAE // mesh.count))


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
        shape = Shape(part.mesh, with_count(part.mesh, label, k, rng), k)
        for _ in range(PASSES_AFTER_SPLIT):
            used += anneal(shape, ROUND.cold * 2, ROUND.stiff, rng)
        if fit(shape, _trees(part.mesh), rng):
            used += _polished(part, shape, rng)
            break
        part.offer(shape.label())
        more *= 2
    return used

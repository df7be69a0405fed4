"""Divide a ground into sections: a legal division at once, better ones with more steps."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from bench.sections.division import Division
from bench.sections.ground import Ground, IntArray
from bench.sections.halve import halve
from bench.sections.mesh import mesh_of
from bench.sections.parts import one_adhesive_parts, own_joints, part_bounds
from bench.sections.schedule import ROUND, Schedule
from bench.sections.search import Part, improve

# A step is one boundary tessera looked at; what else takes time counts as so many of them.
STEPS_A_TESSERA = 215
LEAST_STEPS = 250_000
MANY, LEAST_ROOM = 12, 0.0005  # sections, and the share of the capacity that must then be left free
ROOM_FOR_FORMS = 0.04  # share of the capacity left free, so that motifs can stay whole


def default_steps(ground: Ground) -> int:
    """Return the budget that divide takes when none is given: by the tessera, and at least LEAST_STEPS."""
    return max(LEAST_STEPS, STEPS_A_TESSERA * ground.count)


def wanted_sections(load: float, bound: int, prefer: str) -> int:
    """Return how many sections to aim at: the bound; for 'forms' enough to leave ROOM_FOR_FORMS free.

    load: of the part, in capacities. Many sections that would all have to be full to less than LEAST_ROOM
    are not tried for: times are estimates, and the one section saved would cost every other its shape.
    """
    if prefer == "fewest" or bound < 2:
        return bound + (bound > MANY and bound - load < LEAST_ROOM * bound)
    return min(max(bound, math.ceil(load * (1 + ROOM_FOR_FORMS))), most_sections(bound, prefer))


def most_sections(bound: int, prefer: str) -> int:
    """Return how many sections are still within the wish: for 'forms' at most a tenth above the bound."""
    return bound if prefer == "fewest" else bound + bound // 10


def divide(ground: Ground, *, seed: int = 0, steps: int | None = None, more: int = 0) -> Iterator[Division]:
    """Yield divisions, each legal and none worse than the one before; stop whenever you like.

    more: sections to aim at beyond the wish, in each part that needs several.
    steps: budget, counted in boundary tesserae looked at; the same seed and steps give the same answer.
    The first division comes before any step is counted. An empty ground yields one empty division.
    """
    rng = np.random.default_rng(seed)
    budget = default_steps(ground) if steps is None else max(0, steps)
    label = one_adhesive_parts(ground)
    joints, parts = own_joints(ground), []
    for members, bound in zip(members_of(label), part_bounds(ground, label), strict=True):
        if bound > 1:
            mesh = mesh_of(ground, members, joints)
            want = wanted_sections(float(mesh.load.sum()), bound, ground.prefer) + more
            start = halve(mesh, want, rng)
            parts.append(Part(mesh, start, int(start.max()) + 1))
    yield from searched(label, parts, budget, rng)


def best_division(ground: Ground, *, seed: int = 0, steps: int | None = None, more: int = 0) -> Division:
    """Return the last division that divide yields."""
    division = Division.of(np.zeros(0, np.int32))
    for division in divide(ground, seed=seed, steps=steps, more=more):  # noqa: B007 - the last one is the answer
        pass
    return division


def members_of(label: IntArray) -> list[IntArray]:
    """List the members of each label 0..k-1, ascending."""
    if not len(label):
        return []
    order = np.argsort(label, kind="stable").astype(np.int32)
    return np.split(order, np.searchsorted(label[order], np.arange(1, int(label.max()) + 1)))


def searched(
    one_each: IntArray,
    parts: Sequence[Part],
    budget: int,
    rng: np.random.Generator,
    plan: Schedule = ROUND,
    *,
    fresh: bool = True,
) -> Iterator[Division]:
    """Yield the whole ground's division as its parts get better; one_each numbers all connected parts."""
    yield _joined(one_each, parts, 0.0 if parts else 1.0)
    total, spent = sum(part.mesh.count for part in parts), 0
    for part in parts:
        share = math.ceil(budget * part.mesh.count / total)
        for used in improve(part, share, rng, plan, fresh=fresh):
            yield _joined(one_each, parts, min(1.0, (spent + used) / max(budget, 1)))
        spent += share
    if parts:
        yield _joined(one_each, parts, 1.0)


def _joined(one_each: IntArray, parts: Sequence[Part], done: float) -> Division:
    label, fresh = one_each.astype(np.int64), int(one_each.max(initial=-1)) + 1
    for part in parts:
        label[part.mesh.index] = part.best + fresh
        fresh += part.count
    return Division.of(label, done)

"""Bare ground under a revised drawing, divided before anything of it is written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.adhesive.product import Product
from bench.adhesive.product_file import shipped_products
from bench.drawing.panel import Panel
from bench.drawing.revised import Revision
from bench.job.bedding import products_of
from bench.job.job import Job
from bench.job.learning import learn_for
from bench.job.measuring import parts_g
from bench.job.planning import HandMade, Plan, plan_ground
from bench.job.sizing import Sizer
from bench.job.state import Section
from bench.sections.parts import components


@dataclass(frozen=True, eq=False)
class Divided:
    """plan: the sections of what is bare; let_go: those shaped by hand that could not stay as they were.

    products: of every adhesive on the panel as it would be, or in use. total_g: of the plan's batches. [g]
    """

    plan: Plan
    let_go: tuple[int, ...]
    products: Mapping[str, Product]
    total_g: float


def divide_revised(job: Job, revision: Revision, panel: Panel, *, seed: int = 0) -> Divided:
    """Divide what is bare under a new drawing; sections keep their number where their pieces are found.

    panel: as it would be. A section shaped by hand stays while every piece of it is as it was, they still
    hang together, and it keeps the promise.
    """
    bench = job.state.bench
    products = _products(job, panel)
    known = learn_for(job.store, bench, products, job.clock.utc())
    measures = Sizer(panel, bench, products, known)
    drawn = job.state.with_stage("drawn")
    made = {s.number: _as_made(revision, panel, s) for s in drawn if s.by_hand}
    bare = np.setdiff1d(np.arange(panel.tessera_count), revision.to_new[revision.kept]).astype(np.int32)
    plan = Plan((), {}, measures.expected_s, 0, ())
    if bare.size:
        plan = plan_ground(
            measures,
            keep=bare,
            before=_numbers_before(revision, panel, drawn),
            used_numbers=frozenset(job.state.used_numbers.difference(s.number for s in drawn)),
            by_hand=tuple(one for one in made.values() if one is not None),
            seed=seed,
        )
    let_go = tuple(number for number, one in made.items() if one is None)
    return Divided(plan, let_go, products, sum(parts_g(measures, plan.promises).values()))


def _products(job: Job, panel: Panel) -> dict[str, Product]:
    """Return the product of every adhesive on the panel as it would be, and of those in use."""
    in_use = dict.fromkeys(s.adhesive for s in job.state.sections.values())
    found = products_of(panel, job.state.bench, job.product, shipped_products())
    return {**job.products(tuple(in_use)), **found}


def _numbers_before(revision: Revision, panel: Panel, drawn: list[Section]) -> NDArray[np.int32]:
    """Return for each tessera of the panel as it would be the drawn section that its place was in, else 0."""
    numbers = np.zeros(panel.tessera_count, dtype=np.int32)
    for section in drawn:
        there = revision.to_new[list(section.tesserae)]
        numbers[there[there >= 0]] = section.number
    return numbers


def _as_made(revision: Revision, panel: Panel, section: Section) -> HandMade | None:
    """Return a section shaped by hand under the new drawing, None where pieces of it are not as they were."""
    old = np.asarray(section.tesserae)
    if not revision.same[old].all():
        return None
    members = np.sort(revision.to_new[old])
    inner = panel.joints.pair[np.isin(panel.joints.pair, members).all(axis=1)]
    if components(len(members), np.searchsorted(members, inner)).max(initial=0) > 0:
        return None  # something new has come between
    return HandMade(section.number, section.adhesive, tuple(members.tolist()))

"""The foreseen calendar: which section on which day of glueing up, the cure between neighbours waited for."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from bench.adhesive.cure import cure_s
from bench.adhesive.product import Product
from bench.job.advice import facts
from bench.job.bedding import working_product
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.planning import MOST_FORESEEN
from bench.job.sizing import Sizer
from bench.sections.facts import SectionFacts
from bench.sections.order import Foreseen, whole_order

# Getting cup, glass and gloves ready before a mix, and clearing up after it: common practice, no source.
ROUND_A_MIX_S = 10 * 60.0


@dataclass(frozen=True)
class Day:
    """One day of glueing up: its number from 1, its date, and the sections in their order."""

    day: int
    date: date
    sections: tuple[int, ...]


def calendar(job: Job, *, laying: bool = True) -> tuple[Day, ...]:
    """Return the days that all sections still to be set will take, at the bench's hours a day.

    Laying dry goes on beside the cure, in hours of its own, and no section is set before the day on which it
    is laid. laying: False takes all as laid already. No day where nothing is left, or beyond MOST_FORESEEN
    sections.
    """
    known = facts(job)
    bench, now = job.state.bench, job.clock.utc()
    names = {s.adhesive for s in job.state.sections.values()}
    products = {name: working_product(job.product(name), bench) for name in names}
    firm_utc = {n: job.firm_utc(n) for n in job.state.sections}
    firm_in_s = {n: max(0.0, (at - now).total_seconds()) for n, at in firm_utc.items() if at is not None}
    steps = foreseen(
        known,
        products,
        temperature_C=bench.temperature_C,
        hours_a_day=bench.hours_a_day,
        firm_in_s=firm_in_s,
    )
    if laying:
        measures = sizer(job)
        to_lay = {s.number: laying_hours(measures, s.tesserae) for s in job.state.with_stage("drawn")}
        steps = laid_first(steps, to_lay, bench.laying_hours_a_day)
    today = now.astimezone().date()
    return tuple(Day(day, today + timedelta(days=day - 1), numbers) for day, numbers in by_day(steps).items())


def foreseen(
    known: Sequence[SectionFacts],
    products: Mapping[str, Product],
    *,
    temperature_C: float,
    hours_a_day: float,
    firm_in_s: Mapping[int, float] | None = None,
) -> tuple[Foreseen, ...]:
    """Return the order of all that is left, with its days; a glue-up takes its working time and a round."""
    if len(known) > MOST_FORESEEN:
        return ()
    timed = [
        replace(f, minutes_needed=(products[f.adhesive].working_time.minutes * 60 + ROUND_A_MIX_S) / 60)
        for f in known
    ]
    firm_after_s = {name: cure_s(product, "firm", temperature_C) for name, product in products.items()}
    return whole_order(timed, firm_after_s=firm_after_s, firm_in_s=firm_in_s, hours_a_day=hours_a_day)


def laying_hours(measures: Sizer, tesserae: Sequence[int]) -> float:
    """Return how long laying these dry is likely to take. [h]"""
    return measures.known.laying.hours(float(len(tesserae)))["p50"]


def laid_first(
    steps: Sequence[Foreseen], to_lay_h: Mapping[int, float], laying_hours_a_day: float
) -> tuple[Foreseen, ...]:
    """Return the steps, none before the day on which its section is laid, and all after it as much later.

    to_lay_h: hours of laying by number, done in the order of the steps; none for what lies dry. [h]
    """
    laid_h, later, found = 0.0, 0, []
    for step in steps:
        laid_h += to_lay_h.get(step.number, 0.0)
        laid_on = math.ceil(laid_h / laying_hours_a_day - 1e-9)
        later = max(later, laid_on - step.day)
        found.append(replace(step, day=step.day + later))
    return tuple(found)


def by_day(steps: Iterable[Foreseen]) -> dict[int, tuple[int, ...]]:
    """Return the sections of each day of work, in their order; days of waiting are left out."""
    gathered: dict[int, list[int]] = {}
    for step in steps:
        gathered.setdefault(step.day, []).append(step.number)
    return {day: tuple(numbers) for day, numbers in sorted(gathered.items())}

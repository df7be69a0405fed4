"""What sections take out of the workshop's bottles, how far the bottles last, and what is past its date."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from bench.book.events import BottleTaken, Part, Promise
from bench.job.job import Job
from bench.job.measuring import parts_g
from bench.job.sizing import Sizer
from bench.job.state import Mix, Section
from bench.job.stock import Bottle, Stock, stock_of

Needs = Mapping[tuple[str, Part], float]
HAIR_G = 1e-6


@dataclass(frozen=True)
class Short:
    """A part that a bottle does not hold enough of for one section. others_g: in other bottles. [g]

    none_open: there are bottles of it, and all stand unopened.
    """

    section: int
    product: str
    part: Part
    needed_g: float
    left_g: float
    lot: str
    others_g: float = 0.0
    none_open: bool = False


@dataclass(frozen=True)
class Lasting:
    """How far a part lasts in the foreseen order: until its last section, 0 for none, None for all."""

    product: str
    part: Part
    left_g: float
    needed_g: float  # by all that is left
    until: int | None


def today_of(job: Job) -> date:
    """Return the day it is at the bench."""
    return job.clock.utc().astimezone().date()


def needs_of(measures: Sizer, sections: Sequence[Section | Promise]) -> dict[tuple[str, Part], float]:
    """Return the grams that the batches of these sections take, by product and part of its bottles. [g]"""
    return {(name, _part(part)): g for (name, part), g in parts_g(measures, sections).items()}


def _part(part: str) -> Part:
    return "hardener" if part == "hardener" else "resin" if part == "resin" else "adhesive"


def shorts_of(stock: Stock, section: int, needs: Needs, today: date) -> tuple[Short, ...]:
    """Return the parts that all bottles together hold too little of for a section.

    A part that no bottle was ever told of is taken to be there.
    """
    found = []
    for (product, part), needed_g in needs.items():
        left_g = stock.left_g(product, part)
        if left_g is not None and left_g < needed_g - HAIR_G:
            bottle = stock.bottle_for(product, part, needed_g, today)
            found.append(_short(section, product, part, needed_g, bottle, left_g))
    return tuple(found)


def _short(
    section: int, product: str, part: Part, needed_g: float, bottle: Bottle | None, left_g: float
) -> Short:
    """Return what a section lacks; left_g: of the part in all bottles together. [g]"""
    if bottle is None:
        return Short(section, product, part, needed_g, left_g, "", none_open=left_g > 0)
    rest_g = max(0.0, left_g - bottle.left_g)
    return Short(section, product, part, needed_g, bottle.left_g, bottle.lot, rest_g)


def lasting(
    stock: Stock, measures: Sizer, sections: Sequence[Section | Promise], order: Iterable[int]
) -> tuple[Lasting, ...]:
    """Return how far each part that has bottles lasts when the sections are set in this order.

    Sections that the order leaves out come last, by number.
    """
    by_number = {s.number: s for s in sections}
    named = [n for n in order if n in by_number]
    turns = [*dict.fromkeys(named), *sorted(by_number.keys() - set(named))]
    needs = {n: needs_of(measures, [by_number[n]]) for n in turns}
    parts = dict.fromkeys(key for need in needs.values() for key in need)
    found = []
    for product, part in parts:
        left_g = stock.left_g(product, part)
        if left_g is None:
            continue
        spent_g, until, fails = 0.0, 0, False
        for n in turns:
            need_g = needs[n].get((product, part), 0.0)
            spent_g += need_g
            fails = fails or spent_g > left_g + HAIR_G
            if need_g and not fails:
                until = n
        found.append(Lasting(product, part, left_g, spent_g, until if fails else None))
    return tuple(found)


@dataclass(frozen=True)
class Drawn:
    """What a mix at the cup takes out of which bottle; bottle None: nobody told of an open one.

    others: bottles that hold enough and are within their date, to be taken instead, or to be opened.
    """

    part: Part
    needed_g: float
    bottle: Bottle | None
    past: bool
    knowing: bool  # the maker knows that it is past its date
    short: Short | None
    others: tuple[Bottle, ...]


def _is_the_one(bottle: Bottle, product: str, taken: BottleTaken) -> bool:
    return (bottle.product, bottle.part, bottle.lot) == (product, taken.part, taken.lot)


def drawn_for(
    job: Job, mix: Mix, product: str, amounts_g: Mapping[Part, float], *, stock: Stock | None = None
) -> tuple[Drawn, ...]:
    """Return what a mix takes out of the workshop's bottles, a part a line."""
    stock, today = stock_of(job.store) if stock is None else stock, today_of(job)
    found = []
    for part, needed_g in amounts_g.items():
        taken = mix.taken.get(part)
        bottle = stock.bottles.get(taken.bottle) if taken is not None else None
        if bottle is not None and taken is not None and not _is_the_one(bottle, product, taken):
            bottle = None  # named on another tablet, whose bottles have numbers of their own
        lacks = None
        ready = stock.sealed(product, part)
        if (bottle is None and ready) or (bottle is not None and bottle.left_g < needed_g - HAIR_G):
            all_g = stock.left_g(product, part) or 0.0
            lacks = _short(mix.section, product, part, needed_g, bottle, all_g)
        others = tuple(
            b
            for b in (*stock.in_use(product, part), *ready)
            if b is not bottle and not b.is_past(today) and b.left_g >= needed_g - HAIR_G
        )
        past = bottle is not None and bottle.is_past(today)
        found.append(Drawn(part, needed_g, bottle, past, taken is not None and taken.knowing, lacks, others))
    return tuple(found)

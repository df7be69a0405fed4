"""Shape drawn sections by hand: join two, split one along a stroke, move pieces; first see what it comes to.

Everything is tried on a copy. What comes out keeps every rule that a division keeps, or a fault names the
one that breaks; then `shape` writes it, and later divisions leave it alone while it keeps the promise. Who
tries many times over one state of the book, as a finger does that draws, finds `bounds_now` once and hands
it in.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from bench.book.events import Promise, SectionsShaped
from bench.job.faults import AcrossASeam, ShapedTooLarge, WrongOrder, WrongStage
from bench.job.ground import IntArray, section_numbers
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.planning import Bounds
from bench.sections import byhand
from bench.sections.division import Division
from bench.sections.faults import MixedAdhesives
from bench.sections.ground import Ground
from bench.sections.match import matched_numbers
from bench.speech import say

How = Literal["joined", "split", "moved"]


@dataclass(frozen=True)
class Shaped:
    """What a change comes to: sections that are no more, and those that changed, as they are promised."""

    how: How
    gone: tuple[int, ...]
    promises: tuple[Promise, ...]


def bounds_now(job: Job) -> Bounds:
    """Return what a change is measured with, as the book stands."""
    return Bounds(sizer(job))


def try_join(job: Job, number: int, other: int, bounds: Bounds | None = None) -> Shaped:
    """Return what two neighbouring drawn sections come to as one; raises the rule that breaks."""
    if number == other:
        raise WrongOrder(
            say("section {number} is one already", number=number), say("choose one that lies beside it")
        )
    pair = (number, other)
    return _tried(job, "joined", pair, lambda g, label: byhand.join(g, label, number, other), bounds)


def try_split(job: Job, number: int, stroke_mm: ArrayLike, bounds: Bounds | None = None) -> Shaped:
    """Return what a drawn section comes to, parted along a stroke, (p, 2) in mm of the panel."""
    return _tried(job, "split", (number,), lambda g, label: byhand.split(g, label, number, stroke_mm), bounds)


def try_move(job: Job, tesserae: Sequence[int], to: int, bounds: Bounds | None = None) -> Shaped:
    """Return what some tesserae of drawn sections come to in another one.

    What would be cut off from the section that they leave goes along. Pieces that lie in `to` already, or
    in no drawn section, are passed over; none at all raises WrongOrder.
    """
    numbers = section_numbers(job)
    chosen = np.unique(np.asarray(tesserae, dtype=np.int32))
    drawn = [s.number for s in job.state.with_stage("drawn") if s.number != to]
    chosen = chosen[np.isin(numbers[chosen], drawn)]
    if not chosen.size:
        raise WrongOrder(
            say("no piece of another drawn section was touched"),
            say("stroke over pieces beside it, or tap them"),
        )
    involved = (to, *sorted(set(numbers[chosen].tolist())))

    def moved(ground: Ground, label: IntArray) -> Division:
        place = np.searchsorted(ground.tessera, chosen)
        return byhand.move(ground, label, place.tolist(), to, mend=True)

    return _tried(job, "moved", involved, moved, bounds)


def shape(job: Job, shaped: Shaped) -> None:
    """Write what was tried. Numbers that are gone are not used again while the panel lives.

    Raises WrongStage for what is no longer drawn, WrongOrder where the sections have changed since.
    """
    before: list[int] = []
    for number in (*shaped.gone, *(p.number for p in shaped.promises)):
        section = job.state.sections.get(number)
        if section is not None and section.stage != "drawn":
            raise WrongStage(number, job.life(number), "drawn", "shaped by hand")
        before += section.tesserae if section is not None else ()
    if sorted(before) != sorted(t for p in shaped.promises for t in p.tesserae):
        raise WrongOrder(say("the sections have changed since this was tried"), say("try it again"))
    job.write(SectionsShaped(how=shaped.how, gone=shaped.gone, promises=shaped.promises))


def _tried(
    job: Job,
    how: How,
    involved: tuple[int, ...],
    change: Callable[[Ground, IntArray], Division],
    bounds: Bounds | None,
) -> Shaped:
    for number in involved:
        if job.section(number).stage != "drawn":
            raise WrongStage(number, job.life(number), "drawn", "shaped by hand")
    bounds = bounds or bounds_now(job)
    numbers = section_numbers(job)
    ground = bounds.ground(np.flatnonzero(np.isin(numbers, involved)).astype(np.int32))
    label = numbers[ground.tessera]
    try:
        after = change(ground, label)
    except MixedAdhesives as fault:
        if len({bounds.names[k] for k in fault.adhesives}) > 1:
            raise
        raise AcrossASeam(fault.section, tuple(bounds.boards[k] for k in fault.adhesives)) from None
    used = job.state.used_numbers.difference(involved)
    found = matched_numbers(after.label, label.astype(np.int64), ground.area_mm2, used)
    groups = [ground.tessera[after.members(k)] for k in range(after.section_count)]
    promises = tuple(
        _promised(job, bounds, number, group)
        for number, group in sorted(zip(found, groups, strict=True), key=lambda pair: pair[0])
        if not _same(job, number, group)
    )
    return Shaped(how, tuple(sorted(set(involved).difference(found))), promises)


def _same(job: Job, number: int, group: IntArray) -> bool:
    section = job.state.sections.get(number)
    return section is not None and set(section.tesserae) == set(group.tolist())


def _promised(job: Job, bounds: Bounds, number: int, group: IntArray) -> Promise:
    """Return the section as it would be promised; one that would not keep the promise is refused."""
    sure = float(bounds.sizer.in_time(bounds.names[bounds.kind[group[0]]], [group])[0])
    promised = job.state.bench.sure
    if sure < promised - 1e-9 and len(group) > 1:
        raise ShapedTooLarge(number, sure, promised)
    return bounds.promise(number, group, sure, by_hand=True)

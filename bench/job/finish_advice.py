"""The one next act of finishing, and why: read by the screen and by the command line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from bench.fault import Fault
from bench.job import drying
from bench.job.acts import grouting, inking
from bench.job.finish_days import finish_steps, step_words
from bench.job.finish_state import Zone
from bench.job.finish_words import opened, zone_words
from bench.job.job import Job
from bench.job.zones import grout_days, hardness_of, laid_zones, unlike_beside

Act = Literal["sun", "choose", "mask", "grout", "try_ink", "ink", "try_dry", "seal", "hang", "wait", "done"]


@dataclass(frozen=True)
class FinishNext:
    """What is next, for which zone (0: the rest, or the panel), in words."""

    act: Act
    zone: int
    headline: str
    why: str


def finish_next(job: Job) -> FinishNext:
    """Return the next act: what begins to dry soonest goes first, and the sun is asked about once."""
    finish = job.state.finish
    if finish.hung is not None:
        return FinishNext("done", 0, "It hangs", f"Hung {finish.hung.where}; the book has it all.")
    if finish.sun is None:
        why = "Inks fade in the sun, reds first. It decides between grout and ink."
        return FinishNext("sun", 0, "Where will it hang?", why)
    for found in (*_grouting(job), *_inking(job), *_unsure(job), *_ending(job)):
        return found
    return _waiting(job)


def _grouting(job: Job) -> Iterator[FinishNext]:
    """Yield what can be chosen, masked or grouted, in the order of days."""
    laid = laid_zones(job)
    zones = job.state.finish.zones
    order = [n for day in grout_days(job, laid) for n in day]
    for number in order:
        name = zone_words(laid.names[laid.numbers.index(number)])
        if number not in zones or zones[number].grout is None:
            yield FinishNext("choose", number, f"Choose a grout for {name}", "By the name on its bag.")
    for number in order:
        one = zones.get(number)
        if one is None or one.grout is None or not hardness_of(job, one.tesserae).is_hard:
            continue
        if drying.wet_beside(job, one):
            continue
        tape_mm = sum(unlike_beside(job, number).values())
        if tape_mm and not one.masked:
            why = f"{tape_mm / 10:.0f} cm of tape along what lies beside it."
            yield FinishNext("mask", number, f"Mask {zone_words(one.name)}", why)
        try:
            grouting.may_grout(job, number)
        except Fault as fault:
            if one.masked or not tape_mm:
                yield FinishNext("wait", number, "Grouting waits", f"{opened(fault.what)}; {fault.todo}.")
            continue
        headline = f"Grout {zone_words(one.name)}"
        yield FinishNext("grout", number, headline, f"{one.grout.name}: all of it is hard.")


def _inking(job: Job) -> Iterator[FinishNext]:
    for one in _to_ink(job):
        ink, grout = one.ink, one.grout
        assert ink is not None
        if grout is not None and (ink.name, grout.name) not in job.state.finish.tried:
            why = f"{ink.name} on an offcut of {grout.name}, wet and dry, before it goes on the panel."
            yield FinishNext("try_ink", one.number, "Try the ink on an offcut", why)
        elif one.grouted is not None and drying.may_tint(job, one).done:
            why = f"{ink.name}: its grout is dry, and no ink takes after the seal."
            yield FinishNext("ink", one.number, f"Ink {zone_words(one.name)}", why)


def _unsure(job: Job) -> Iterator[FinishNext]:
    """Yield a zone whose clock cannot be trusted: only a hand can tell."""
    for one in job.state.finish.in_order:
        if one.grouted is None or one.sealed:
            continue
        waits_for_ink = one.ink is not None and one.inked is None
        dry = drying.may_tint(job, one) if waits_for_ink else drying.may_seal(job, one)
        if dry.unsure and (waits_for_ink or one.dry_by_hand != "seal"):
            name = zone_words(one.name)
            why = "The clock changed, so it counts as wet. Press a nail into it: hard and pale is dry."
            yield FinishNext("try_dry", one.number, f"Try the grout of {name}", why)


def _ending(job: Job) -> Iterator[FinishNext]:
    finish = job.state.finish
    try:
        if finish.sealed is None:
            inking.may_seal(job)
            yield FinishNext("seal", 0, "Seal the panel", "All grout and ink is dry; no ink takes after it.")
        else:
            inking.may_hang(job, "outdoors")
            yield FinishNext("hang", 0, "Hang it", "The seal is dry. Fixings rated for its weight.")
    except Fault:
        return


def _waiting(job: Job) -> FinishNext:
    """Say the soonest moment from which something may be done."""
    steps = [s for s in finish_steps(job, foresee=False) if s.kind != "harden"]
    timed = sorted((s for s in steps if s.at_utc), key=lambda s: s.at_utc or job.clock.utc())
    unset = [s for s in steps if s.at_utc is None]
    if timed:
        headline = "Let it dry" if timed[0].kind != "grout" else "Let it harden"
        return FinishNext("wait", timed[0].of, headline, step_words(job, timed[0]))
    why = step_words(job, unset[0]) if unset else "Nothing can be done now."
    return FinishNext("wait", 0, "Wait for the cure", why)


def _to_ink(job: Job) -> list[Zone]:
    return [z for z in job.state.finish.in_order if z.ink and z.inked is None and not z.sealed]

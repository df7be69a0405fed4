"""The one next act of finishing, and why: read by the screen and by the command line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from bench.fault import Fault
from bench.finish.beheld import tint_said
from bench.job import drying
from bench.job.acts import grouting, inking
from bench.job.finish_days import finish_steps, step_words
from bench.job.finish_state import Zone
from bench.job.finish_words import zone_words
from bench.job.job import Job
from bench.job.zones import grout_days, hardness_of, laid_zones, unlike_beside
from bench.speech import line_length, say

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
        why = say("Hung indoors; the book has it all.")
        if finish.hung.where == "outdoors":
            why = say("Hung outdoors; the book has it all.")
        return FinishNext("done", 0, say("It hangs"), why)
    if finish.sun is None:
        why = say("Inks fade in the sun, reds first. That decides between grout and ink.")
        return FinishNext("sun", 0, say("Where will it hang?"), why)
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
            headline = say("Choose a grout for {zone}", zone=name)
            yield FinishNext("choose", number, headline, say("By the name on its bag."))
    for number in order:
        one = zones.get(number)
        if one is None or one.grout is None or not hardness_of(job, one.tesserae).is_hard:
            continue
        if drying.wet_beside(job, one):
            continue
        tape_mm = sum(unlike_beside(job, number).values())
        if tape_mm and not one.masked:
            why = say("{length} of tape along what lies beside it.", length=line_length(tape_mm))
            yield FinishNext("mask", number, say("Mask {zone}", zone=zone_words(one.name)), why)
        try:
            grouting.may_grout(job, number)
        except Fault as fault:
            if one.masked or not tape_mm:
                why = fault.sentence
                yield FinishNext("wait", number, say("Grouting waits"), why)
            continue
        headline = say("Grout {zone}", zone=zone_words(one.name))
        why = say("{grout}: all of it is hard.", grout=tint_said(one.grout.name))
        yield FinishNext("grout", number, headline, why)


def _inking(job: Job) -> Iterator[FinishNext]:
    for one in _to_ink(job):
        ink, grout = one.ink, one.grout
        assert ink is not None
        if grout is not None and (ink.name, grout.name) not in job.state.finish.tried:
            why = say(
                "{ink} on an offcut of {grout}, wet and dry, before it goes on the panel.",
                ink=tint_said(ink.name),
                grout=tint_said(grout.name),
            )
            yield FinishNext("try_ink", one.number, say("Try the ink on an offcut"), why)
        elif one.grouted is not None and drying.may_tint(job, one).done:
            why = say("{ink}: its grout is dry, and no ink takes after the seal.", ink=tint_said(ink.name))
            yield FinishNext("ink", one.number, say("Ink {zone}", zone=zone_words(one.name)), why)


def _unsure(job: Job) -> Iterator[FinishNext]:
    """Yield a zone whose clock cannot be trusted: only a hand can tell."""
    for one in job.state.finish.in_order:
        if one.grouted is None or one.sealed:
            continue
        waits_for_ink = one.ink is not None and one.inked is None
        dry = drying.may_tint(job, one) if waits_for_ink else drying.may_seal(job, one)
        if dry.unsure and (waits_for_ink or one.dry_by_hand != "seal"):
            why = say("The clock changed, so it counts as wet. Press a nail into it: hard and pale is dry.")
            headline = say("Try the grout of {zone}", zone=zone_words(one.name))
            yield FinishNext("try_dry", one.number, headline, why)


def _ending(job: Job) -> Iterator[FinishNext]:
    finish = job.state.finish
    try:
        if finish.sealed is None:
            inking.may_seal(job)
            why = say("All grout and ink is dry; no ink takes after it.")
            yield FinishNext("seal", 0, say("Seal the panel"), why)
        else:
            inking.may_hang(job, "outdoors")
            why = say("The seal is dry. Fixings rated for its weight.")
            yield FinishNext("hang", 0, say("Hang it"), why)
    except Fault:
        return


def _waiting(job: Job) -> FinishNext:
    """Say the soonest moment from which something may be done."""
    steps = [s for s in finish_steps(job, foresee=False) if s.kind != "harden"]
    timed = sorted((s for s in steps if s.at_utc), key=lambda s: s.at_utc or job.clock.utc())
    unset = [s for s in steps if s.at_utc is None]
    if timed:
        headline = say("Let it dry") if timed[0].kind != "grout" else say("Let it harden")
        return FinishNext("wait", timed[0].of, headline, step_words(job, timed[0]))
    why = step_words(job, unset[0]) if unset else say("Nothing can be done now.")
    return FinishNext("wait", 0, say("Wait for the cure"), why)


def _to_ink(job: Job) -> list[Zone]:
    return [z for z in job.state.finish.in_order if z.ink and z.inked is None and not z.sealed]

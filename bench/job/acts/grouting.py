"""Mask a zone, read the cautions, grout it, and try by hand whether it is dry: never in the wrong order."""

from __future__ import annotations

import math
from typing import Literal

from bench.adhesive.workshop import workshop_cautions
from bench.book.events import GroutCautionsRead, GroutTried, ZoneGrouted, ZoneMasked
from bench.finish.batches import MOST_WATER_SHARE
from bench.finish.drying import LEAST_GROUT_C
from bench.finish.faults import TooColdForGrout
from bench.finish.joint_width import check_widths, width_samples
from bench.job import drying
from bench.job.advice import clock_words
from bench.job.finish_faults import NotHardYet, OutOfTurn, PowderOutOfRange, StillWet, WaterOutOfRange
from bench.job.finish_state import Zone, grout_key
from bench.job.finish_words import zone_words
from bench.job.job import Job
from bench.job.lots import check_lot
from bench.job.zones import grid_of, hardness_of, unlike_beside, zone
from bench.speech import say

MOST_POWDER_G = 50_000.0


def mask(job: Job, number: int) -> None:
    """Say that the ground beside a zone is taped and covered.

    Raises NotHardYet, StillWet where tape would lift what was just grouted, OutOfTurn where nothing is to be
    masked.
    """
    one = _not_grouted(job, number)
    _refuse_soft(job, one)
    _refuse_wet_beside(job, one)
    tape_mm = sum(unlike_beside(job, number).values())
    if not tape_mm:
        raise OutOfTurn(one.name, say("no other grout lies beside it"), say("grout it without tape"))
    job.write(ZoneMasked(zone=number, tape_mm=round(tape_mm, 1)))


def caution_words() -> tuple[str, ...]:
    """Return the cautions of cement grout as they are shown."""
    told: list[str] = []
    for group in workshop_cautions("grout"):
        told += [f"{group.title}:", *group.lines] if group.codes else group.lines
    return tuple(told)


def read_cautions(job: Job, number: int) -> None:
    """Say that the cautions were read, for the next mix of a zone's grout; they are kept as they stood."""
    _not_grouted(job, number)
    job.write(GroutCautionsRead(zone=number, shown=caution_words()))


def grout(job: Job, number: int, *, powder_g: float, water_g: float, lot: str = "") -> None:
    """Say that a zone was grouted with so much powder and water, in all.

    Raises what stands in the way: see `may_grout`; and grams, water or a lot that cannot be.
    """
    one = may_grout(job, number)
    if not one.shown:
        what = say("the cautions for this mix have not been read")
        raise OutOfTurn(one.name, what, say("read them before you mix"))
    if not (math.isfinite(powder_g) and 0 < powder_g <= MOST_POWDER_G):
        raise PowderOutOfRange(powder_g, MOST_POWDER_G)
    share = water_g / powder_g
    if not 0 < share <= MOST_WATER_SHARE:
        raise WaterOutOfRange(share, MOST_WATER_SHARE)
    check_lot(lot)
    assert one.grout is not None
    event = ZoneGrouted(
        zone=number,
        name=one.grout.name,
        colour=one.grout.colour,
        powder_g=powder_g,
        water_g=water_g,
        lot=lot.strip(),
    )
    hours = drying.times(job).seal_h
    job.write(event, marks=[drying.dries(job, grout_key(number), hours)])


def may_grout(job: Job, number: int) -> Zone:
    """Return a zone that may be grouted now, cautions apart.

    Raises OutOfTurn where it is grouted, has no grout chosen or is not masked; NotHardYet; StillWet where
    another grout beside it has not set; TooColdForGrout; JointsWiderThanPieces.
    """
    one = _not_grouted(job, number)
    if one.grout is None:
        raise OutOfTurn(one.name, say("no grout is chosen for it"), say("choose one by its name"))
    room_C = job.state.bench.temperature_C
    if room_C < LEAST_GROUT_C:
        raise TooColdForGrout(room_C, LEAST_GROUT_C)
    _refuse_soft(job, one)
    check_widths(job.panel, width_samples(job.panel, grid_of(job.panel)).widths())
    _refuse_wet_beside(job, one)
    if unlike_beside(job, number) and not one.masked:
        raise OutOfTurn(one.name, say("another grout lies beside it"), say("mask it first"))
    return one


def try_dry(job: Job, number: int, dry_to: Literal["tint", "seal"]) -> None:
    """Say that a grouted zone was tried by hand and is dry; the way out of a clock that is unsure."""
    one = zone(job, number)
    if one.grouted is None:
        raise OutOfTurn(one.name, say("it is not grouted"), say("grout it first"))
    job.write(GroutTried(zone=number, dry_to=dry_to))


def _not_grouted(job: Job, number: int) -> Zone:
    one = zone(job, number)
    if one.grouted is not None:
        raise OutOfTurn(one.name, say("it is grouted already"), say("take that back first, if it is not so"))
    return one


def _refuse_soft(job: Job, one: Zone) -> None:
    hard = hardness_of(job, one.tesserae)
    if hard.is_hard:
        return
    at = clock_words(job, hard.at_utc) if hard.at_utc else ""
    raise NotHardYet(one.name, hard.unsure or hard.to_set or hard.soft, at, unsure=bool(hard.unsure))


def _refuse_wet_beside(job: Job, one: Zone) -> None:
    """Two grouts that meet are never wet together."""
    for other, dry in drying.wet_beside(job, one):
        what = say("the grout of {zone} beside it is still wet", zone=zone_words(other.name))
        raise StillWet(one.name, what, clock_words(job, dry.at_utc), dry.at_utc, unsure=dry.unsure)

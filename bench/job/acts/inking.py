"""After the grout: try an ink on an offcut, ink, seal, hang: never in the wrong order."""

from __future__ import annotations

from typing import Literal

from bench.book.events import InkTried, PanelHung, PanelSealed, ZoneInked
from bench.finish.beheld import tint_said
from bench.job import drying
from bench.job.advice import clock_words
from bench.job.drying import Dry
from bench.job.finish_faults import OutOfTurn, StillWet
from bench.job.finish_state import SEAL_KEY, Chosen, Zone, ink_key
from bench.job.job import Job
from bench.job.lots import check_lot
from bench.job.zones import rest_of, zone
from bench.speech import say


def try_ink(job: Job, number: int) -> None:
    """Say that a zone's ink was tried on an offcut of its grout."""
    one, ink, grout = _to_ink(job, number)
    if (ink.name, grout.name) in job.state.finish.tried:
        raise OutOfTurn(
            one.name,
            say("{ink} was tried on {grout}", ink=tint_said(ink.name), grout=tint_said(grout.name)),
            say("go on to the panel"),
        )
    job.write(InkTried(name=ink.name, grout=grout.name))


def ink(job: Job, number: int, *, lot: str = "") -> None:
    """Say that a zone's joints were inked. Raises as `may_ink` does."""
    check_lot(lot)
    chosen = may_ink(job, number)
    event = ZoneInked(zone=number, name=chosen.name, colour=chosen.colour, lot=lot.strip())
    job.write(event, marks=[drying.dries(job, ink_key(number), drying.times(job).ink_h)])


def may_ink(job: Job, number: int) -> Chosen:
    """Return the ink that may go on a zone now.

    Raises OutOfTurn where none is chosen, it is inked or sealed, not grouted, or its ink was not tried on an
    offcut; StillWet where the grout is not dry for certain.
    """
    one, chosen, grout = _to_ink(job, number)
    if one.grouted is None:
        raise OutOfTurn(one.name, say("it is not grouted"), say("grout it, and let it dry before the ink"))
    if (chosen.name, grout.name) not in job.state.finish.tried:
        what = say(
            "{ink} was not tried on {grout}", ink=tint_said(chosen.name), grout=tint_said(grout.name)
        )
        raise OutOfTurn(one.name, what, say("try it on an offcut first"))
    _refuse_wet(job, one, drying.may_tint(job, one), say("its grout is not dry, and no ink takes on it"))
    return chosen


def seal(job: Job, name: str = "") -> None:
    """Say that the whole panel was sealed. Raises as `may_seal` does."""
    may_seal(job)
    event = PanelSealed(name=" ".join(name.split())[:60])
    job.write(event, marks=[drying.dries(job, SEAL_KEY, drying.times(job).outdoors_h)])


def may_seal(job: Job) -> None:
    """Raise what stands in the way of the seal.

    OutOfTurn where it is sealed, a zone is not grouted, or a chosen ink is not on; StillWet where grout or
    ink is not dry for certain.
    """
    if job.state.finish.sealed is not None:
        todo = say("take that back first, if it is not so")
        raise OutOfTurn(say("panel"), say("it is sealed already"), todo)
    refuse_unfinished(job)
    for one in job.state.finish.in_order:
        _refuse_wet(job, one, drying.may_seal(job, one), say("it is not dry enough to be sealed"))


def hang(job: Job, where: Literal["outdoors", "indoors"]) -> None:
    """Say that the panel hangs. Raises as `may_hang` does."""
    may_hang(job, where)
    job.write(PanelHung(where=where))


def may_hang(job: Job, where: Literal["outdoors", "indoors"]) -> None:
    """Raise what stands in the way: indoors dry grout is enough, outdoors it takes a seal that has dried."""
    if job.state.finish.hung is not None:
        raise OutOfTurn(say("panel"), say("it hangs already"), say("take that back first, if it is not so"))
    refuse_unfinished(job)
    for one in job.state.finish.in_order:
        _refuse_wet(job, one, drying.may_seal(job, one), say("it is not dry enough to be hung"))
    if where == "indoors":
        return
    if job.state.finish.sealed is None:
        what = say("it is not sealed, as it must be outdoors")
        raise OutOfTurn(say("panel"), what, say("seal it, or hang it indoors"))
    dry = drying.may_hang_outdoors(job)
    if not dry.done:
        what, at = say("its seal is not dry enough for outdoors"), clock_words(job, dry.at_utc)
        raise StillWet(say("panel"), what, at, dry.at_utc, unsure=dry.unsure)


def refuse_unfinished(job: Job) -> None:
    """Raise OutOfTurn while anything is not grouted, or an ink that was chosen is not on."""
    if not job.state.finish.zones or rest_of(job):
        what = say("some of it is in no zone and not grouted")
        raise OutOfTurn(say("panel"), what, say("grout all of it first"))
    for one in job.state.finish.in_order:
        if one.grouted is None:
            raise OutOfTurn(one.name, say("it is not grouted"), say("grout all of the panel first"))
        if one.ink is not None and one.inked is None and not one.sealed:
            what = say("its ink, {ink}, is not on", ink=tint_said(one.ink.name))
            raise OutOfTurn(one.name, what, say("ink it, or leave the ink away"))


def _to_ink(job: Job, number: int) -> tuple[Zone, Chosen, Chosen]:
    one = zone(job, number)
    if one.sealed:
        raise OutOfTurn(one.name, say("it is sealed, and no ink takes on a seal"), say("leave it as it is"))
    if one.inked is not None:
        raise OutOfTurn(one.name, say("it is inked already"), say("take that back first, if it is not so"))
    if one.ink is None:
        raise OutOfTurn(one.name, say("no ink is chosen for it"), say("choose one by its name"))
    if one.grout is None:
        raise OutOfTurn(one.name, say("no grout is chosen for it"), say("choose one by its name"))
    return one, one.ink, one.grout


def _refuse_wet(job: Job, one: Zone, dry: Dry, what: str) -> None:
    if not dry.done:
        raise StillWet(one.name, what, clock_words(job, dry.at_utc), dry.at_utc, unsure=dry.unsure)

"""When each part of the panel may be grouted, inked, sealed and hung: since when, or from when on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from bench.adhesive.cure import cure_s
from bench.fault import Fault
from bench.job import drying
from bench.job.advice import clock_words
from bench.job.calendar import calendar
from bench.job.finish_state import Zone
from bench.job.finish_words import zone_words
from bench.job.job import Job
from bench.job.step_words import Kind, foreseen_said, from_said, now_said, once_said, unsure_said
from bench.job.zones import Laid, grout_days, hardness_of, laid_zones
from bench.speech import clock_time, large_first, say, short_day

DAY_ENDS = time(18)  # of glueing up, on a day that is only foreseen
MOST_FORESEEN = 60  # sections


@dataclass(frozen=True)
class Step:
    """One thing that may be done from a moment on.

    of: the section's or the zone's number, 0 for the panel or the rest. at_utc: None where nobody can say
    yet. now: it may be done. unsure: a clock cannot be trusted, so it counts as not yet. foreseen: the
    moment rests on work that is not done.
    """

    kind: Kind
    of: int
    name: str
    at_utc: datetime | None
    now: bool = False
    unsure: bool = False
    foreseen: bool = False


def finish_steps(job: Job, *, foresee: bool = True) -> tuple[Step, ...]:
    """Return all steps that are left, in the order of their kinds; none once the panel hangs.

    foresee: reckon on with what is not set, grouted or sealed yet; it goes by the foreseen calendar.
    """
    finish = job.state.finish
    if finish.hung is not None:
        return ()
    laid = laid_zones(job)
    grouted = [*_hardening(job)]
    done_utc: dict[int, datetime | None] = {}  # when each zone is, or may be, grouted
    turn = {n: day for day, numbers in enumerate(grout_days(job, laid)) for n in numbers}
    sections = _foreseen_hard(job) if foresee else {}
    for number, name in zip(laid.numbers, laid.names, strict=True):
        one = finish.zones.get(number)
        if one is not None and one.grouted is not None:
            done_utc[number] = one.grouted_utc
            continue
        step = _grout_step(job, laid, number, name, sections)
        grouted.append(step)
        later = timedelta(days=turn.get(number, 0))
        done_utc[number] = None if step.at_utc is None else max(step.at_utc, job.clock.utc()) + later
    inked = [_ink_step(job, one, done_utc[one.number]) for one in finish.in_order if _wants_ink(one)]
    steps = [*grouted, *inked, *_last_steps(job, done_utc, inked)]
    return tuple(step for step in steps if foresee or not step.foreseen)


def step_words(job: Job, step: Step, *, dated: bool = False) -> str:
    """Say a step: 'From Tuesday 10:00 the blue zone may be tinted.' dated: with its date in any case."""
    zone = zone_words(step.name)
    if step.unsure:
        return unsure_said(step.kind, step.of, zone)
    if step.now:
        return large_first(now_said(step.kind, step.of, zone))
    if step.at_utc is None:
        return large_first(once_said(step.kind, step.of, zone))
    near = _within_a_week(job, step.at_utc) and not dated
    at = clock_words(job, step.at_utc) if near else _date_words(step.at_utc)
    said = foreseen_said if step.foreseen else from_said
    return said(step.kind, step.of, zone, at)


def when_lines(job: Job) -> tuple[str, ...]:
    """Return what may be done now, then what from when, a line each; of sections only the last to harden."""
    steps = finish_steps(job)
    hardening = [s for s in steps if s.kind == "harden"]
    now = job.clock.utc()
    last = max(hardening, key=lambda s: (s.unsure, s.at_utc or now), default=None)
    shown = [s for s in steps if s.kind != "harden" or s is last]
    shown.sort(key=lambda s: (not s.now, s.foreseen, s.at_utc is None, s.at_utc or now))
    return tuple(step_words(job, s) for s in shown)


def _within_a_week(job: Job, at: datetime) -> bool:
    return abs((at - job.clock.utc()).total_seconds()) < 6 * 86400


def _date_words(at: datetime) -> str:
    local = at.astimezone()
    return say("{day}, {time}", day=short_day(local), time=clock_time(local))


def _hardening(job: Job) -> Iterable[Step]:
    for section in job.state.with_stage("set"):
        number = section.number
        if job.life(number) != "hard":
            unsure = job.cure_unsure(number)
            yield Step("harden", number, str(number), job.hard_utc(number), unsure=unsure)


def _foreseen_hard(job: Job) -> dict[int, datetime]:
    """Return when each section that is not set yet will be hard, in the order that is foreseen."""
    if len(job.state.sections) > MOST_FORESEEN:
        return {}
    found = {}
    try:
        for day in calendar(job):
            ends = datetime.combine(day.date, DAY_ENDS).astimezone(job.clock.utc().astimezone().tzinfo)
            for n in day.sections:
                product = job.product(job.section(n).adhesive)
                found[n] = ends + timedelta(seconds=cure_s(product, "grout", job.state.bench.temperature_C))
    except Fault:
        return {}  # too cold, or no adhesive for it: the panel says so
    return found


def _grout_step(job: Job, laid: Laid, number: int, name: str, sections: dict[int, datetime]) -> Step:
    hard = hardness_of(job, laid.members(number).tolist())
    at_utc, foreseen = hard.at_utc, False
    if hard.to_set and all(n in sections for n in hard.to_set):
        soft = [at for at in map(job.hard_utc, hard.soft) if at is not None]
        at_utc, foreseen = max([*soft, *(sections[n] for n in hard.to_set)]), True
    now, unsure = hard.is_hard, bool(hard.unsure)
    mine = job.state.finish.zones.get(number)
    for _, wet in drying.wet_beside(job, mine) if mine is not None else ():
        now, unsure = False, unsure or wet.unsure
        at_utc = None if at_utc is None else max(at_utc, wet.at_utc)
    return Step("grout", number, name, at_utc, now=now, unsure=unsure, foreseen=foreseen)


def _wants_ink(zone: Zone) -> bool:
    return zone.ink is not None and zone.inked is None and not zone.sealed


def _ink_step(job: Job, zone: Zone, grouted_utc: datetime | None) -> Step:
    if zone.grouted is not None:
        dry = drying.may_tint(job, zone)
        return Step("ink", zone.number, zone.name, dry.at_utc, now=dry.done, unsure=dry.unsure)
    return Step("ink", zone.number, zone.name, _after(grouted_utc, drying.times(job).tint_h), foreseen=True)


def _last_steps(job: Job, grouted_utc: dict[int, datetime | None], inks: list[Step]) -> Iterable[Step]:
    """Return when the panel may be sealed, and hang outdoors."""
    finish, hours = job.state.finish, drying.times(job)
    if finish.sealed is not None:
        dry = drying.may_hang_outdoors(job)
        yield Step("hang", 0, "", dry.at_utc, now=dry.done, unsure=dry.unsure)
        return
    waits = [_after(at, hours.seal_h) for n, at in grouted_utc.items() if n not in finish.zones]
    dries = [drying.may_seal(job, z) for z in finish.in_order if z.grouted is not None]
    open_ = [z for z in finish.in_order if z.grouted is None]
    waits += [_after(grouted_utc[z.number], hours.seal_h) for z in open_]
    waits += [_after(step.at_utc, hours.ink_h) for step in inks]
    foreseen = bool(waits)
    waits += [dry.at_utc for dry in dries]
    known = [at for at in waits if at is not None]
    at_utc = max(known) if known and len(known) == len(waits) else None
    unsure = any(dry.unsure for dry in dries)
    now = not foreseen and all(dry.done for dry in dries)
    yield Step("seal", 0, "", at_utc, now=now, unsure=unsure and not now, foreseen=foreseen)
    yield Step("hang", 0, "", _after(at_utc, hours.outdoors_h), foreseen=True)


def _after(at: datetime | None, hours: float) -> datetime | None:
    return None if at is None else at + timedelta(hours=hours)

"""What to do next and why: read by the screens and by the command line alike."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

import numpy as np

from bench.job.ground import borders_mm, section_numbers
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.sizing import Sizer
from bench.job.state import Life, Mix, Section
from bench.job.stock import stock_of
from bench.job.stock_need import Short, needs_of, shorts_of, today_of
from bench.job.stock_words import short_words
from bench.sections.facts import SectionFacts, facts_of
from bench.sections.order import Choice, next_section
from bench.speech import clock_time, say, tongue, weekday_and_time
from bench.speech.measures import MM2_PER_CM2

NextAct = Literal["watch", "mix", "set", "lay", "wait", "finish"]


@dataclass(frozen=True)
class Advice:
    """The one obvious next act, the section it is for, and a sentence that says why."""

    act: NextAct
    section: int | None
    mix: int | None
    headline: str
    why: str


def advise(job: Job, *, time_left_today_s: float | None = None) -> Advice:
    """Return the next act. A running mix goes before all; then the cup, then what lies dry, then laying."""
    running = job.state.running_mixes
    if running:
        mix = min(running, key=lambda m: job.reading(m.number).left_s)
        headline = say("Set section {section}", section=mix.section)
        return Advice("watch", mix.section, mix.number, headline, _watch_why(job, mix))
    at_cup = job.state.mix_at_cup
    if at_cup is not None:
        headline = say("Mix for section {section}", section=at_cup.section)
        why = say("The cup is being made ready for it.")
        return Advice("mix", at_cup.section, at_cup.number, headline, why)
    choice = _choose(job, time_left_today_s)
    if choice.number is None:
        return _nothing_now(job, choice.why)
    if job.section(choice.number).stage == "dry":
        headline = say("Go to the cup for section {section}", section=choice.number)
        return Advice("set", choice.number, None, headline, choice.why)
    headline = say("Lay out section {section}", section=choice.number)
    return Advice("lay", choice.number, None, headline, choice.why)


def _choose(job: Job, time_left_today_s: float | None) -> Choice:
    """Choose the next section, one that the bottles suffice for before others; say what runs out.

    Stock bars nothing: the bottles may hold more than was reckoned, or a new one stands ready.
    """
    measures = sizer(job)
    known = facts(job, measures)
    first = next_section(known, time_left_today_s=time_left_today_s)
    lacking = shorts(job, measures)
    if first.number not in lacking:
        return first
    lack = lacking[first.number][0]
    stocked = [replace(f, adhesive_in_stock=f.number not in lacking) for f in known]
    instead = next_section(stocked, time_left_today_s=time_left_today_s)
    if instead.number is None:
        return replace(first, why=short_words(lack))
    why = lower_first(short_words(lack))
    return replace(instead, why=say("Next is section {number}: {why}", number=instead.number, why=why))


def section_at_dry(job: Job, asked: int) -> Section | None:
    """Return the section to lay or count: the one asked for, else the next one, else what lies dry."""
    section = job.state.sections.get(asked)
    if section is not None and section.stage in ("drawn", "dry"):
        return section
    advice = advise(job)
    if advice.act in ("lay", "set"):
        return job.state.sections[advice.section or 0]
    return next(iter(job.state.with_stage("dry")), None)


def lower_first(text: str) -> str:
    """Return a sentence as it goes on after a colon: only English has it begin small there."""
    return text[:1].lower() + text[1:] if tongue().language == "en" else text


def shorts(job: Job, measures: Sizer | None = None) -> dict[int, tuple[Short, ...]]:
    """Return the sections still to be set that the bottles hold too little for, and what they lack."""
    stock = stock_of(job.store)
    if not stock.bottles:
        return {}
    measures, today = measures or sizer(job), today_of(job)
    left = [s for s in job.state.sections.values() if s.stage in ("drawn", "dry")]
    found = {s.number: shorts_of(stock, s.number, needs_of(measures, [s]), today) for s in left}
    return {number: lacks for number, lacks in found.items() if lacks}


def _watch_why(job: Job, mix: Mix) -> str:
    reading = job.reading(mix.number)
    if reading.unsure:
        return say("The clock cannot be trusted since the last restart: take the working time as over.")
    return say("Its batch has {left:.0f} minutes left.", left=reading.left_s / 60)


def _nothing_now(job: Job, why: str) -> Advice:
    open_work = [s for s in job.state.sections.values() if s.stage != "set"]
    if open_work:
        return Advice("wait", None, None, say("Wait for the cure"), why)
    if all(job.life(s.number) == "hard" for s in job.state.sections.values()):
        return _finish(job)
    headline, why = say("Let the last sections harden"), say("All is set, and not all is hard.")
    return Advice("wait", None, None, headline, why)


def _finish(job: Job) -> Advice:
    """Return what is next once all is hard, and from when on what may be done."""
    from bench.job.zone_words import ready_line  # which asks this module for the words of a moment

    if job.state.finish.hung is not None:
        return Advice("finish", None, None, say("It hangs"), say("All is done; the book has it."))
    if not any(zone.grouted for zone in job.state.finish.zones.values()):
        return Advice("finish", None, None, say("Grout the panel"), say("Every section is hard."))
    return Advice("finish", None, None, say("Finish the panel"), ready_line(job))


def facts(job: Job, measures: Sizer | None = None) -> list[SectionFacts]:
    """Return what the choice of the next section rests on, for every section of the panel."""
    measures = measures or sizer(job)
    numbers = section_numbers(job)
    lives = {n: job.life(n) for n in job.state.sections}
    firm_at = {n: job.firm_utc(n) for n in job.state.sections if lives[n] == "soft"}
    return facts_of(
        job.panel,
        numbers,
        measures.expected_s,
        stage=lives,
        adhesive={n: s.adhesive for n, s in job.state.sections.items()},
        firm_at={n: clock_words(job, at) for n, at in firm_at.items() if at is not None},
    )


def clock_words(job: Job, at: datetime) -> str:
    """Say a moment as the bench does: the hour today, the day and hour otherwise; local time."""
    local, now = at.astimezone(), job.clock.utc().astimezone()
    return clock_time(local) if local.date() == now.date() else weekday_and_time(local)


@dataclass(frozen=True, eq=False)
class SectionSheet:
    """What a person can be shown of one section."""

    number: int
    life: Life
    adhesive: str
    tesserae: tuple[int, ...]
    drawn_pieces: int
    pieces: int
    glass_cm2: float
    expected_s: float
    capacity_s: float
    in_time: float
    laying_h: float
    glass_counts: tuple[tuple[str, int], ...]
    firm_at: str
    hard_at: str
    cure_unsure: bool
    neighbours: tuple[int, ...]


def section_sheet(job: Job, number: int) -> SectionSheet:
    """Return the facts of a section, in the units of the house."""
    section = job.section(number)
    members = np.asarray(section.tesserae, dtype=np.int32)
    firm, hard = job.firm_utc(number), job.hard_utc(number)
    return SectionSheet(
        number=number,
        life=job.life(number),
        adhesive=section.adhesive,
        tesserae=section.tesserae,
        drawn_pieces=len(section.tesserae),
        pieces=section.piece_count,
        glass_cm2=float(job.panel.area_mm2[members].sum()) / MM2_PER_CM2,
        expected_s=section.expected_s * section.piece_count / max(1, len(section.tesserae)),
        capacity_s=section.capacity_s,
        in_time=section.in_time,
        laying_h=sizer(job).known.laying.hours(float(len(members)))["p50"],
        glass_counts=_glass_counts(job, members),
        firm_at=clock_words(job, firm) if firm else "",
        hard_at=clock_words(job, hard) if hard else "",
        cure_unsure=job.cure_unsure(number),
        neighbours=tuple(sorted(borders_mm(job)[number])),
    )


def _glass_counts(job: Job, members: np.ndarray) -> tuple[tuple[str, int], ...]:
    """Count the pieces of each of the drawing's groups, most first; one nameless group where it has none."""
    groups, counts = np.unique(job.panel.group[members], return_counts=True)
    named = [
        (job.panel.group_names[g] if g >= 0 else say("glass"), int(c))
        for g, c in zip(groups.tolist(), counts.tolist(), strict=True)
    ]
    return tuple(sorted(named, key=lambda x: (-x[1], x[0])))

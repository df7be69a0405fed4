"""Coming back after weeks: what was done last, what lies dry and for how long, and what to check first."""

from __future__ import annotations

from datetime import date

from bench.adhesive.part_words import part_word
from bench.book.events import ActUndone, SectionsDrawn
from bench.job.absence import AWAY_DAYS, away_days, came_back, is_back
from bench.job.advice import advise
from bench.job.job import Job
from bench.job.key_words import pieces_or_patches
from bench.job.measuring import sizer
from bench.job.state import Section
from bench.job.stock import Bottle, stock_of
from bench.job.stock_need import today_of
from bench.job.words import book_lines
from bench.speech import brief_date, say, say_n

SMALL = 0.85  # share of what the day allows: a section to get the hand back in
_DAY_S = 86_400.0
_MOST_DRY = 3  # sections named one by one


def away_lines(job: Job) -> tuple[str, ...]:
    """Return what a maker wants to know on coming back; nothing after less than two weeks, or in mid mix."""
    if not is_back(job):
        return ()
    return (_last_done(job, away_days(job)), *_dry_lines(job), *_checks(job), *_smaller(job))


def _span(days: float) -> tuple[int, str]:
    """Return a time as it is told: how many days, weeks or months, and which of the three."""
    if days < 2 * AWAY_DAYS:
        return round(days), "days"
    return (round(days / 7), "weeks") if days < 70 else (round(days / 30.4), "months")


def _last_done(job: Job, days: float) -> str:
    entries = job.store.events(job.panel_id)
    no_work = {x.seq for x in entries if isinstance(x.event, SectionsDrawn | ActUndone)}  # of anybody's hands
    last = next(x.text for x in book_lines(job) if not x.taken_back and x.seq not in no_work)
    count, unit = _span(days)
    if unit == "days":
        return say_n("{count} day ago: {last}.", "{count} days ago: {last}.", count, last=last)
    if unit == "weeks":
        return say_n("{count} week ago: {last}.", "{count} weeks ago: {last}.", count, last=last)
    return say_n("{count} month ago: {last}.", "{count} months ago: {last}.", count, last=last)


def _lies(section: Section, days: float) -> str:
    """Say for how long a section lies dry, once it is a day."""
    told = {"section": section.number, "pieces": pieces_or_patches(section.piece_count, "pieces")}
    if days < 1:
        return say("Section {section} lies dry: {pieces}.", **told)
    count, unit = _span(days)
    if unit == "days":
        return say_n(
            "Section {section} lies dry for {count} day: {pieces}.",
            "Section {section} lies dry for {count} days: {pieces}.",
            count,
            **told,
        )
    if unit == "weeks":
        return say_n(
            "Section {section} lies dry for {count} week: {pieces}.",
            "Section {section} lies dry for {count} weeks: {pieces}.",
            count,
            **told,
        )
    return say_n(
        "Section {section} lies dry for {count} month: {pieces}.",
        "Section {section} lies dry for {count} months: {pieces}.",
        count,
        **told,
    )


def _dry_lines(job: Job) -> tuple[str, ...]:
    lying = job.state.with_stage("dry")
    if not lying:
        return (say("Nothing lies dry."),)
    now = job.clock.utc()
    told = []
    for section in lying[:_MOST_DRY]:
        days = (now - section.laid_utc).total_seconds() / _DAY_S if section.laid_utc else 0.0
        told.append(_lies(section, days))
    rest = len(lying) - _MOST_DRY
    return (*told, *([say_n("{count} more lies dry.", "{count} more lie dry.", rest)] if rest > 0 else []))


def _checks(job: Job) -> tuple[str, ...]:
    """Say what may have gone off meanwhile: the film's hold, and the bottles that are in use."""
    film = say("Press a piece: does the film still hold? Has anything shifted, or gathered dust?")
    lies = bool(job.state.with_stage("dry"))
    today = today_of(job)
    bottles = [b for b in stock_of(job.store).bottles.values() if not b.emptied]
    told = []
    for bottle in bottles:
        if bottle.is_past(today):
            told.append(_past(bottle))
        elif bottle.last_day is not None:
            told.append(_good_until(bottle, bottle.last_day))
    if not told:
        told = [say("Read date and lot on resin and hardener before the first mix.")]
    return (*([film] if lies else []), *told)


def _past(bottle: Bottle) -> str:
    part = part_word(bottle.part)
    if not bottle.lot:
        return say("The {part} is past its date.", part=part)
    return say("The {part}, lot {lot}, is past its date.", part=part, lot=bottle.lot)


def _good_until(bottle: Bottle, last: date) -> str:
    part, day = part_word(bottle.part), brief_date(last)
    if not bottle.lot:
        return say("The {part} is good until {day}.", part=part, day=day)
    return say("The {part}, lot {lot}, is good until {day}.", part=part, lot=bottle.lot, day=day)


def _smaller(job: Job) -> tuple[str, ...]:
    """Say what the absence did to the sections; nothing where they stayed as they were."""
    if not came_back(job):
        return ()
    first = job.state.sections.get(advise(job).section or 0)
    if first is not None and first.stage == "drawn" and _is_small(job, first):
        pieces = pieces_or_patches(first.piece_count, "pieces")
        return (
            say(
                "Hands forget a little: section {section} comes first and is a small one, {pieces}. "
                "Sections grow again.",
                section=first.number,
                pieces=pieces,
            ),
        )
    return (say("Hands forget a little: sections that were full are smaller, and they grow again."),)


def _is_small(job: Job, section: Section) -> bool:
    measures = sizer(job)
    allowed_s = measures.sizing(section.adhesive).capacity.capacity_s
    return float(measures.expected_s[list(section.tesserae)].sum()) <= (SMALL + 0.05) * allowed_s

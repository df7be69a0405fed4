"""Coming back after weeks: what was done last, what lies dry and for how long, and what to check first."""

from __future__ import annotations

from datetime import datetime

from bench.book.events import Envelope, SectionsDrawn
from bench.job.acts.opening import AFTER_AWAY
from bench.job.fold import undone_acts
from bench.job.job import Job
from bench.job.stock import stock_of
from bench.job.stock_need import today_of
from bench.job.stock_words import day_words
from bench.job.words import book_lines

AWAY_DAYS = 14.0
_DAY_S = 86_400.0
_RECENT = 300  # entries: the newest work is nearly always among them
_MOST_DRY = 3  # sections named one by one


def away_days(job: Job) -> float:
    """Return for how long nothing was done on this panel; a division made on coming back is no work. [d]"""
    last_utc = _last_utc(job)
    return 0.0 if last_utc is None else max(0.0, (job.clock.utc() - last_utc).total_seconds() / _DAY_S)


def _last_utc(job: Job) -> datetime | None:
    recent = job.store.events(job.panel_id, after_seq=max(0, job.store.last_seq(job.panel_id) - _RECENT))
    return _newest_work(recent) or _newest_work(job.store.events(job.panel_id))


def _newest_work(entries: list[Envelope]) -> datetime | None:
    undone = undone_acts(entries)
    worked = (
        x.at_utc
        for x in reversed(entries)
        if x.act_id not in undone and not _is_return(x)
    )
    return next(worked, None)


def _is_return(entry: Envelope) -> bool:
    """Tell whether it is a division made on coming back."""
    return isinstance(entry.event, SectionsDrawn) and entry.event.why.startswith(AFTER_AWAY)


def away_mark(job: Job) -> str:
    """Name the mark that the card of this absence was read; the next absence has one of its own."""
    last_utc = _last_utc(job)
    return f"away_read:{job.panel_id}:{last_utc:%Y%m%d%H%M%S}" if last_utc else ""


def away_lines(job: Job) -> tuple[str, ...]:
    """Return what a maker wants to know on coming back; nothing after less than two weeks, or in mid mix."""
    days = away_days(job)
    if days < AWAY_DAYS or job.state.running_mixes:
        return ()
    return (_last_done(job, days), *_dry_lines(job), *_checks(job), *_smaller(job))


def _span(days: float) -> str:
    if days < 2 * AWAY_DAYS:
        return f"{days:.0f} days"
    return f"{days / 7:.0f} weeks" if days < 70 else f"{days / 30.4:.0f} months"


def _last_done(job: Job, days: float) -> str:
    last = next(x for x in book_lines(job) if not x.taken_back and AFTER_AWAY not in x.text)
    return f"{_span(days)} ago: {last.text}."


def _dry_lines(job: Job) -> tuple[str, ...]:
    lying = job.state.with_stage("dry")
    if not lying:
        return ("Nothing lies dry.",)
    now = job.clock.utc()
    told = []
    for section in lying[:_MOST_DRY]:
        days = (now - section.laid_utc).total_seconds() / _DAY_S if section.laid_utc else 0.0
        since = f" for {_span(days)}" if days >= 1 else ""
        told.append(f"Section {section.number} lies dry{since}: {section.piece_count} pieces.")
    rest = len(lying) - _MOST_DRY
    return (*told, *([f"{rest} more lie dry."] if rest > 0 else []))


def _checks(job: Job) -> tuple[str, ...]:
    """Say what may have gone off meanwhile: the film's hold, and the bottles that are in use."""
    film = "Press a piece: does the film still hold? Has anything shifted, or gathered dust?"
    lies = bool(job.state.with_stage("dry"))
    today = today_of(job)
    bottles = [b for b in stock_of(job.store).bottles.values() if not b.emptied]
    told = []
    for bottle in bottles:
        lot = f", lot {bottle.lot}," if bottle.lot else ""
        if bottle.is_past(today):
            told.append(f"The {bottle.part}{lot} is past its date.")
        elif bottle.last_day is not None:
            told.append(f"The {bottle.part}{lot} is good until {day_words(bottle.last_day)}.")
    if not told:
        told = ["Read date and lot on resin and hardener before the first mix."]
    return (*([film] if lies else []), *told)


def _smaller(job: Job) -> tuple[str, ...]:
    """Say what the absence did to the sections; nothing where they stayed as they were."""
    newest = job.state.act_ids[-1]
    recent = job.store.events(job.panel_id, after_seq=max(0, job.store.last_seq(job.panel_id) - _RECENT))
    if not any(x.act_id == newest and _is_return(x) for x in recent):
        return ()
    return ("Hands forget a little: the next sections are smaller, and they grow again.",)

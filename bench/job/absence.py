"""How long a panel was left alone. A start asks it, and loads no words for it."""

from __future__ import annotations

from datetime import datetime

from bench.book.events import ActUndone, Envelope, SectionsDrawn
from bench.job.fold import undone_acts
from bench.job.job import Job
from bench.job.key_words import AFTER_AWAY

AWAY_DAYS = 14.0
_DAY_S = 86_400.0


def is_back(job: Job) -> bool:
    """Tell whether somebody comes back to a panel after weeks; not in mid mix."""
    return away_days(job) >= AWAY_DAYS and not job.state.running_mixes


def away_days(job: Job) -> float:
    """Return for how long nothing was done on this panel; a division made on coming back is no work. [d]"""
    last_utc = _last_utc(job)
    return 0.0 if last_utc is None else max(0.0, (job.clock.utc() - last_utc).total_seconds() / _DAY_S)


def _last_utc(job: Job) -> datetime | None:
    recent = job.recent_events()
    return _newest_work(recent) or _newest_work(job.store.events(job.panel_id))


def _newest_work(entries: list[Envelope]) -> datetime | None:
    undone, returns = undone_acts(entries), {x.act_id for x in entries if is_return(x)}
    worked = (
        x.at_utc
        for x in reversed(entries)
        if x.act_id not in undone and not is_return(x) and not _takes_back(x, returns)
    )
    return next(worked, None)


def _takes_back(entry: Envelope, acts: set[str]) -> bool:
    """Tell whether it takes one of these acts back."""
    return isinstance(entry.event, ActUndone) and entry.event.undone_act_id in acts


def is_return(entry: Envelope) -> bool:
    """Tell whether it is a division made on coming back."""
    return isinstance(entry.event, SectionsDrawn) and entry.event.why.startswith(AFTER_AWAY)


def came_back(job: Job) -> bool:
    """Tell whether a division made on coming back is the newest act."""
    newest = job.state.act_ids[-1]
    return any(x.act_id == newest and is_return(x) for x in job.recent_events())


def away_mark(job: Job) -> str:
    """Name the mark that the card of this absence was read; the next absence has one of its own."""
    last_utc = _last_utc(job)
    return f"away_read:{job.panel_id}:{last_utc:%Y%m%d%H%M%S}" if last_utc else ""

"""The one word for how far a section is, and until when."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from bench.job.job import Job
from bench.speech import clock_time, say, short_weekday

MOST_NOTES = 24  # more would not lie in one texture at the largest type of a fine screen


def life_word(life: str) -> str:
    """Say how far a section is, on its label and its card."""
    words = {
        "drawn": say("drawn"),
        "dry": say("dry"),
        "wet": say("wet"),
        "soft": say("soft"),
        "firm": say("firm"),
        "hard": say("hard"),
    }
    return words[life]


def cure_notes(job: Job, lives: Mapping[int, str]) -> dict[int, str]:
    """Say from when on soft sections are firm and firm ones hard, by number: the soonest MOST_NOTES.

    A cure that the clock leaves unsure has none: nothing is said of when it ends.
    """
    soon = []
    for number, life in lives.items():
        at = {"soft": job.firm_utc, "firm": job.hard_utc}.get(life, lambda _: None)(number)
        if at is not None and not job.cure_unsure(number):
            soon.append((at, number))
    soon = sorted(soon)[:MOST_NOTES]
    return {number: _until(job, lives[number], at) for at, number in soon}


def _until(job: Job, life: str, at: datetime) -> str:
    local, now = at.astimezone(), job.clock.utc().astimezone()
    when = clock_time(local)
    if local.date() != now.date():
        when = say("{weekday} {time}", weekday=short_weekday(local), time=when)
    return say("firm {when}", when=when) if life == "soft" else say("hard {when}", when=when)

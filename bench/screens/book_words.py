"""An entry of the book as the page has it: when, where, what, and the maker's words on it."""

from __future__ import annotations

from datetime import date

from bench.job.words import Line
from bench.screens.parts.choice import short
from bench.speech import clock_time, say
from bench.speech.days import month, weekday

MOST_SHOWN = 220  # characters of an entry on the page; the whole of it is a tap away


def when(line: Line) -> str:
    """Say when in local time, of which section, and whether a photo is attached."""
    at = line.at_utc.astimezone()
    day = {"weekday": weekday(at), "day": at.day, "month": month(at)}
    told = [say("{weekday} {day} {month}, {time}", time=clock_time(at), **day)]
    if line.section is not None:
        told.append(say("section {section}", section=line.section))
    if line.attached:
        told.append(say("with a photo"))
    return ", ".join(told)


def named(day: date) -> str:
    parts = {"weekday": weekday(day), "day": day.day, "month": month(day), "year": day.year}
    return say("{weekday} {day} {month} {year}", **parts)


def noted(line: Line) -> str:
    return "\n".join(short(f"\u2013 {' '.join(note.split())}", MOST_SHOWN) for note in line.notes)


def shown(line: Line) -> str:
    return short(say("Taken back: {entry}", entry=line.text) if line.taken_back else line.text, MOST_SHOWN)

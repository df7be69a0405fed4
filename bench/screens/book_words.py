"""An entry of the book as the page has it: when, where, what, and the maker's words on it."""

from __future__ import annotations

from datetime import date

from bench.job.words import Line
from bench.screens.parts.choice import short

MOST_SHOWN = 220  # characters of an entry on the page; the whole of it is a tap away


def when(line: Line) -> str:
    """Say when in local time, of which section, and whether a photo is attached."""
    at = line.at_utc.astimezone()
    where = f", section {line.section}" if line.section is not None else ""
    photos = ", with a photo" if line.attached else ""
    return f"{at:%A} {at.day} {at:%B}, {at:%H:%M}{where}{photos}"


def named(day: date) -> str:
    return f"{day:%A} {day.day} {day:%B %Y}"


def noted(line: Line) -> str:
    return "\n".join(short(f"\u2013 {' '.join(note.split())}", MOST_SHOWN) for note in line.notes)


def shown(line: Line) -> str:
    return short(f"Taken back: {line.text}" if line.taken_back else line.text, MOST_SHOWN)

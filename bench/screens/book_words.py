"""An entry of the book as the page has it: when, where, what, and the maker's words on it."""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.finding import about
from bench.job.words import Line
from bench.speech import moment_of_year, say

MOST_SHOWN = 220  # characters of an entry on the page; the whole of it is a tap away


def when(line: Line) -> str:
    """Say when in local time, of which section, and whether a photo is attached."""
    told = [moment_of_year(line.at_utc.astimezone())]
    if line.section is not None:
        told.append(say("section {section}", section=line.section))
    if line.attached:
        told.append(say("with a photo"))
    return ", ".join(told)


def noted(line: Line, wanted: Sequence[str] = ()) -> str:
    """Say the maker's words on it, of long ones those around a word that was looked for."""
    return "\n".join(about(f"\u2013 {' '.join(note.split())}", wanted, MOST_SHOWN) for note in line.notes)


def shown(line: Line, wanted: Sequence[str] = ()) -> str:
    """Say what happened, of a long note what is around a word that was looked for."""
    told = say("Taken back: {entry}", entry=line.text) if line.taken_back else line.text
    return about(told, wanted, MOST_SHOWN)

"""Say of a copy of the book what it is and what it holds."""

from __future__ import annotations

from datetime import datetime

from bench.book import Copy, Held
from bench.speech import moment, say, say_n, weekday_and_moment


def moment_words(at_utc: datetime) -> str:
    """Say a moment by the maker's calendar and clock."""
    return weekday_and_moment(at_utc.astimezone())


def why_words(copy: Copy) -> str:
    """Say why a copy was made."""
    if copy.why.startswith("before-version-"):
        version = copy.why.removeprefix("before-version-")
        return say("Made before the book was brought to version {version}", version=version)
    why = {
        "daily": say("Made by itself on that day"),
        "restored": say("Made after a copy was put back"),
        "before-restore": say("The book as it was when another copy was put back"),
        "damaged": say("A damaged file, set aside when the book was mended"),
    }
    return why.get(copy.why) or say("A copy of the book")


def held_words(held: Held) -> str:
    """Say what a copy holds."""
    if held.fault is not None:
        return say("It cannot be put back: {why}", why=held.fault.what)
    panels = say_n("{count} panel", "{count} panels", len(held.panels))
    entries = say_n("{count:,} entry", "{count:,} entries", held.entries)
    if held.newest_utc is None:
        return f"{panels}, {entries}"
    newest = moment(held.newest_utc.astimezone())
    return say("{panels}, {entries}, the last of {moment}", panels=panels, entries=entries, moment=newest)


def copy_lines(copy: Copy, held: Held) -> list[str]:
    """Return all there is to say of a copy, a line each."""
    named = [say("Panels: {names}.", names=", ".join(held.panels))] if held.panels else []
    first = say("Copy {number}. {why}.", number=copy.number, why=why_words(copy))
    return [first, f"{held_words(held)}.", *named]

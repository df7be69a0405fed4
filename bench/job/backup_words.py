"""Say of a copy of the book what it is and what it holds."""

from __future__ import annotations

from datetime import datetime

from bench.book import Copy, Held

_WHY = {
    "daily": "Made by itself on that day",
    "restored": "Made after a copy was put back",
    "before-restore": "The book as it was when another copy was put back",
    "damaged": "A damaged file, set aside when the book was mended",
}


def moment_words(at_utc: datetime) -> str:
    """Say a moment by the maker's calendar and clock."""
    at = at_utc.astimezone()
    return f"{at:%A} {at.day} {at:%B %Y, %H:%M}"


def why_words(copy: Copy) -> str:
    """Say why a copy was made."""
    if copy.why.startswith("before-version-"):
        return f"Made before the book was brought to version {copy.why.removeprefix('before-version-')}"
    return _WHY.get(copy.why, "A copy of the book")


def held_words(held: Held) -> str:
    """Say what a copy holds."""
    if held.fault is not None:
        return f"It cannot be put back: {held.fault.what}"
    panels = "1 panel" if len(held.panels) == 1 else f"{len(held.panels)} panels"
    entries = "1 entry" if held.entries == 1 else f"{held.entries:,} entries"
    newest = f", the last of {moment_words(held.newest_utc)}" if held.newest_utc is not None else ""
    return f"{panels}, {entries}{newest}"


def copy_lines(copy: Copy, held: Held) -> list[str]:
    """Return all there is to say of a copy, a line each."""
    named = [f"Panels: {', '.join(held.panels)}."] if held.panels else []
    return [f"Copy {copy.number}. {why_words(copy)}.", f"{held_words(held)}.", *named]

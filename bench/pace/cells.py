"""One cell of a table of glue-ups: what it may hold, and what to say where it does not."""

from __future__ import annotations

import math
from datetime import UTC, datetime

from bench.pace.glueup import BadGlueUp
from bench.table import number_in, quoted, whole_in


def whole(cell: dict[str, str], name: str) -> int:
    """Return a count of pieces: ASCII digits only."""
    count = whole_in(cell[name])
    if count is None:
        raise BadGlueUp(name, f"{quoted(cell[name])} is no whole number", "count the pieces; 0 for none")
    return count


def number(cell: dict[str, str], name: str) -> float:
    """Return a finite decimal number."""
    value = number_in(cell[name])
    if math.isnan(value):
        raise BadGlueUp(name, f"{quoted(cell[name])} is no number", "write digits with a decimal point")
    return value


def seconds(cell: dict[str, str], name: str) -> float | None:
    """Return a time, None for an empty cell. [s]"""
    return number(cell, name) if cell[name] else None


def yes(cell: dict[str, str], name: str) -> bool:
    """Return whether the answer is yes."""
    answer = cell[name].lower()
    if answer not in ("yes", "no"):
        raise BadGlueUp(name, f"{quoted(cell[name])} is no answer", "write yes or no")
    return answer == "yes"


def time(cell: dict[str, str], name: str) -> datetime | None:
    """Return a moment in UTC, None for an empty cell; without a zone the glue-up will refuse it."""
    if not cell[name]:
        return None
    try:
        started = datetime.fromisoformat(cell[name])
        return started.astimezone(UTC) if started.tzinfo else started
    except (ValueError, OverflowError):
        todo = "write it like 2025-03-01T14:05:00Z"
        raise BadGlueUp(name, f"{quoted(cell[name])} is no time", todo) from None

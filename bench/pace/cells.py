"""One cell of a table of glue-ups: what it may hold, and what to say where it does not."""

from __future__ import annotations

import math
from datetime import UTC, datetime

from bench.pace.glueup import BadGlueUp
from bench.speech import say
from bench.table import number_in, quoted, whole_in


def whole(cell: dict[str, str], name: str) -> int:
    """Return a count of pieces: ASCII digits only."""
    count = whole_in(cell[name])
    if count is None:
        what = say("{cell} is no whole number", cell=quoted(cell[name]))
        raise BadGlueUp(name, what, say("count the pieces; 0 for none"))
    return count


def number(cell: dict[str, str], name: str) -> float:
    """Return a finite decimal number."""
    value = number_in(cell[name])
    if math.isnan(value):
        what = say("{cell} is no number", cell=quoted(cell[name]))
        raise BadGlueUp(name, what, say("write digits with a decimal point"))
    return value


def seconds(cell: dict[str, str], name: str) -> float | None:
    """Return a time, None for an empty cell. [s]"""
    return number(cell, name) if cell[name] else None


def yes(cell: dict[str, str], name: str) -> bool:
    """Return whether the answer is yes."""
    answer = cell[name].lower()
    if answer not in ("yes", "no"):
        what = say("{cell} is no answer", cell=quoted(cell[name]))
        raise BadGlueUp(name, what, say("write yes or no"))
    return answer == "yes"


def time(cell: dict[str, str], name: str) -> datetime | None:
    """Return a moment in UTC, None for an empty cell; without a zone the glue-up will refuse it."""
    if not cell[name]:
        return None
    try:
        started = datetime.fromisoformat(cell[name])
        return started.astimezone(UTC) if started.tzinfo else started
    except (ValueError, OverflowError):
        what = say("{cell} is no time", cell=quoted(cell[name]))
        raise BadGlueUp(name, what, say("write it like 2025-03-01T14:05:00Z")) from None

"""Several things named one after the other."""

from __future__ import annotations

from collections.abc import Sequence

from bench.speech.said import say


def all_of(names: Sequence[str]) -> str:
    """Name all: 'glass', 'glass and board', 'glass and board and frame'; '' for none."""
    found = names[0] if names else ""
    for name in names[1:]:
        found = say("{some} and {last}", some=found, last=name)
    return found

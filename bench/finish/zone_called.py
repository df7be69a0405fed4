"""What lies in no zone: its name as it is kept, and how a zone is called."""

from __future__ import annotations

from bench.speech import say

# Kept in the book where a zone is made of them; a maker's own names are kept as they were given.
REST_NAME, WHOLE_NAME = "the rest", "the panel"


def zone_called(name: str) -> str:
    """Return a zone's name as it is said: the two kept names in the language spoken, others as they are."""
    return {REST_NAME: say("the rest"), WHOLE_NAME: say("the panel")}.get(name, name)

"""The parts of an adhesive as they are said; in the book and in files they are keys."""

from __future__ import annotations

from bench.speech import say


def part_word(part: str) -> str:
    """Say a part within a sentence; one that is none of ours as it is."""
    return {"resin": say("resin"), "hardener": say("hardener"), "adhesive": say("adhesive")}.get(part, part)


def part_name(part: str) -> str:
    """Say a part where a sentence begins, or alone."""
    return {"resin": say("Resin"), "hardener": say("Hardener"), "adhesive": say("Adhesive")}.get(part, part)

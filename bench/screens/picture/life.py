"""The one word for how far a section is."""

from __future__ import annotations

from bench.speech import say


def life_word(life: str) -> str:
    """Say how far a section is, on its label and its card."""
    words = {
        "drawn": say("drawn"),
        "dry": say("dry"),
        "wet": say("wet"),
        "soft": say("soft"),
        "firm": say("firm"),
        "hard": say("hard"),
    }
    return words[life]

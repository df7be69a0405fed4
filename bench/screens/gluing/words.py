"""What a glue-up's moods, steps and reasons are called on the screen; their names in the book are keys."""

from __future__ import annotations

from bench.speech import say


def mood_word(mood: str) -> str:
    """Say how the time stands, in a word or two to be read from across the room."""
    words = {
        "working": say("working"),
        "half": say("half"),
        "last pieces": say("last pieces"),
        "stop": say("stop"),
        "unsure": say("clock unsure"),
    }
    return words[mood]


def step_word(step: str) -> str:
    """Say what the hands do, for the key that says so; "" while there is no step."""
    words = {
        "stir": say("stir"),
        "spread": say("spread"),
        "set": say("set"),
        "clean": say("clean"),
    }
    return words.get(step, "")


def reasons() -> tuple[tuple[str, str], ...]:
    """Return why pieces are left: the reason as the book has it, and as the maker says it."""
    words = {
        "stringy": say("It went stringy"),
        "did not fit": say("They did not fit"),
        "dropped": say("Dropped or broken"),
        "changed my mind": say("Changed my mind"),
        "called away": say("Called away"),
    }
    return tuple(words.items())


def scrape_words() -> str:
    return say("Scrape sides and bottom")

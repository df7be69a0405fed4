"""What can be set of the tablet, whichever panel is open: how it looks, moves and speaks."""

from __future__ import annotations

from bench.screens.setting import Option, Setting
from bench.speech import LANGUAGES, say

OF_SPEECH = ("language", "mark", "inches", "fahrenheit")


def tablet_settings() -> tuple[Setting, ...]:
    """Return what is set of the tablet, in the language spoken."""
    return (*_speech(), *_looks())


def _speech() -> tuple[Setting, ...]:
    own = tuple(Option(key, name) for key, name in LANGUAGES.items())
    return (
        Setting(
            "language",
            say("Language"),
            (Option("", say("As the tablet"), say("What it is set to itself")), *own),
        ),
        Setting(
            "inches",
            say("Lengths"),
            (Option(False, say("Millimetres")), Option(True, say("Inches"), say("One inch is 25.4 mm"))),
        ),
        Setting("fahrenheit", say("Temperature"), (Option(False, "°C"), Option(True, "°F"))),
        Setting(
            "mark",
            say("Decimals"),
            (
                Option("", say("As the language")),
                Option(".", "12.5", say("With a point")),
                Option(",", "12,5", say("With a comma")),
            ),
        ),
    )


def _looks() -> tuple[Setting, ...]:
    return (
        Setting(
            "look",
            say("Look"),
            (
                Option("light", say("Light"), say("For daylight")),
                Option("dark", say("Dark"), say("For lamp light")),
            ),
        ),
        Setting(
            "text_scale",
            say("Text"),
            (
                Option(0.85, say("Small")),
                Option(1.0, say("Usual")),
                Option(1.25, say("Large")),
                Option(1.5, say("Largest")),
            ),
            words=lambda x: say("{percent:.0f} %", percent=100 * x),
        ),
        Setting(
            "still",
            say("Motion"),
            (
                Option(False, say("Flashes"), say("Each alarm flashes, at most twice a second")),
                Option(True, say("None"), say("Nothing moves: an alarm darkens the screen for a moment")),
            ),
        ),
    )

"""The sounds of the bench, one for each turn of the time and of the stirring.

Never only a sound: `flash` goes with each.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from bench.resources import resource

FILES = {
    "scrape": "scrape.wav",
    "stirred": "stirred.wav",
    "half": "half.wav",
    "last pieces": "last-pieces.wav",
    "stop": "stop.wav",
}


@cache
def _sound(name: str) -> Any:
    from kivy.core.audio import SoundLoader

    return SoundLoader.load(str(resource("assets", "sounds", FILES[name])))


def play(name: str) -> bool:
    """Play a sound from its start; False where the machine has no way to, which nothing depends on."""
    sound = _sound(name)
    if sound is None:
        return False
    sound.stop()
    sound.play()
    return True

"""Plain words for grouts and inks, and an sRGB colour for each: a rough stand-in until a sample is seen.

The words are kept in the book as they stand here; `grout_said` says them.
"""

from __future__ import annotations

from bench.drawing.colour import RGB
from bench.speech import say

GROUT_WORDS: dict[str, RGB] = {
    "pale grey": (205, 203, 198),
    "white": (240, 239, 235),
    "grey": (140, 139, 136),
    "charcoal": (66, 66, 67),
    "black": (32, 32, 33),
    "sand": (201, 180, 145),
    "brown": (110, 80, 58),
    "red": (160, 48, 42),
    "orange": (196, 110, 48),
    "yellow": (214, 178, 74),
    "green": (78, 110, 72),
    "blue": (58, 88, 138),
    "violet": (104, 80, 128),
}
NEUTRAL = next(iter(GROUT_WORDS))


def grout_said(name: str) -> str:
    """Say a grout or ink by its name: plain words in the language spoken, another as it stands on the bag."""
    said = {
        "pale grey": say("pale {colour}", colour=say("grey")),
        "white": say("white"),
        "grey": say("grey"),
        "charcoal": say("charcoal"),
        "black": say("black"),
        "sand": say("sand"),
        "brown": say("brown"),
        "red": say("red"),
        "orange": say("orange"),
        "yellow": say("yellow"),
        "green": say("green"),
        "blue": say("blue"),
        "violet": say("violet"),
    }
    return said.get(name, name)

"""Plain words for grouts and inks, and an sRGB colour for each: a rough stand-in until a sample is seen."""

from __future__ import annotations

from bench.finish.glass import RGB

NEUTRAL = "pale grey"
GROUT_WORDS: dict[str, RGB] = {
    NEUTRAL: (205, 203, 198),
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

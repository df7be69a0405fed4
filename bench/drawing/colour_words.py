"""Plain names for colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from bench.drawing.colour import srgb_to_lab
from bench.speech import say

# Where hues lie in CIELAB, at the middle of each name [degrees]: set so that the colour keywords of
# CSS Color 4 get their own names.
_HUES = (
    (34, "red"),
    (52, "orange red"),
    (70, "orange"),
    (98, "yellow"),
    (120, "lime"),
    (140, "green"),
    (157, "sea green"),
    (190, "turquoise"),
    (240, "sky blue"),
    (290, "blue"),
    (328, "violet"),
    (357, "pink"),
)
_EARTHS, _EARTH_CHROMA = ("orange red", "orange", "yellow"), 32.0  # the dark and the dull ones of these
GREY_CHROMA = 9.0
_DEPTHS = ((26.0, "deep"), (42.0, "dark"), (66.0, ""), (82.0, "light"), (100.0, "pale"))


def colour_words(colour: ArrayLike) -> str:
    """Return a plain name for an sRGB colour, e.g. 'pale yellow', 'deep blue', 'grey'. (3,)"""
    return words_for(np.asarray(colour).reshape(1, 3))[0]


def words_for(colours: ArrayLike) -> list[str]:
    """Return plain names for sRGB colours, (n, 3)."""
    light, a, b = srgb_to_lab(colours).T
    chroma, turn = np.hypot(a, b), np.degrees(np.arctan2(b, a)) % 360
    off = np.abs(turn[:, None] - [middle for middle, _ in _HUES])
    nearest = np.minimum(off, 360 - off).argmin(axis=1)
    depth = np.searchsorted([top for top, _ in _DEPTHS[:-1]], light)
    told = zip(light.tolist(), chroma.tolist(), nearest.tolist(), depth.tolist(), strict=True)
    names = [_name(of_light, of_chroma, _HUES[k][1], _DEPTHS[d][1]) for of_light, of_chroma, k, d in told]
    said = {name: _said(*name) for name in set(names)}
    return [said[name] for name in names]


def _name(light: float, chroma: float, hue: str, depth: str) -> tuple[str, str]:
    """Return how deep a colour is and its hue."""
    if chroma < GREY_CHROMA:
        if light > 93:
            return "", "white"
        return ("", "black") if light < 14 else (depth, "grey")
    if hue in _EARTHS and (light < 48 or chroma < _EARTH_CHROMA):
        hue = "olive" if hue == "yellow" and light < 48 else "brown" if light < 62 else "sand"
    return depth, hue


def _said(depth: str, hue: str) -> str:
    colour = _hue_words(hue)
    return {
        "deep": say("deep {colour}", colour=colour),
        "dark": say("dark {colour}", colour=colour),
        "light": say("light {colour}", colour=colour),
        "pale": say("pale {colour}", colour=colour),
    }.get(depth, colour)


def _hue_words(hue: str) -> str:
    return {
        "red": say("red"),
        "orange red": say("orange red"),
        "orange": say("orange"),
        "yellow": say("yellow"),
        "lime": say("lime"),
        "green": say("green"),
        "sea green": say("sea green"),
        "turquoise": say("turquoise"),
        "sky blue": say("sky blue"),
        "blue": say("blue"),
        "violet": say("violet"),
        "pink": say("pink"),
        "olive": say("olive"),
        "brown": say("brown"),
        "sand": say("sand"),
        "white": say("white"),
        "grey": say("grey"),
        "black": say("black"),
    }[hue]

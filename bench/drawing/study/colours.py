"""The glass that a painted area asks for: a mix of the colours seen in it, each with a plain name."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import lab_to_srgb, srgb_to_lab
from bench.drawing.panel import FloatArray
from bench.drawing.study.model import Colour, Glass

# A mix of main, lighter, darker and a pinch of the complement keeps a plain area alive: common practice,
# no source. The shares are a starting point that the maker changes.
_MAIN, _LIGHTER, _DARKER, _PINCH = 0.56, 0.22, 0.19, 0.03
_LEAST_STEP_L = 6.0  # a lighter glass that is less lighter than that is the same glass
_PINCH_CHROMA = 0.6  # of the main one's

# Where hues lie in CIELAB, at the middle of each name [degrees]: from memory of the Munsell hues' places.
_HUES = (
    (20, "red"),
    (45, "orange red"),
    (65, "orange"),
    (85, "yellow"),
    (110, "lime"),
    (140, "green"),
    (185, "sea green"),
    (225, "turquoise"),
    (260, "sky blue"),
    (285, "blue"),
    (310, "violet"),
    (345, "pink"),
)
_EARTHS, _EARTH_CHROMA = ("orange red", "orange", "yellow"), 32.0  # the dark and the dull ones of these
_GREY_CHROMA = 9.0
_PALE_L, _LIGHT_L, _DARK_L, _DEEP_L = 82.0, 66.0, 42.0, 26.0


def colour_words(colour: Colour | NDArray[np.uint8]) -> str:
    """Return a plain name for an sRGB colour, e.g. 'pale yellow', 'deep blue', 'grey'."""
    light, a, b = srgb_to_lab(np.asarray(colour)).tolist()
    if np.hypot(a, b) < _GREY_CHROMA:
        if light > 93:
            return "white"
        return "black" if light < 14 else f"{_depth(light)}grey"
    turn = float(np.degrees(np.arctan2(b, a))) % 360
    hue = min(_HUES, key=lambda one: min(abs(turn - one[0]), 360 - abs(turn - one[0])))[1]
    if hue in _EARTHS and (light < 48 or np.hypot(a, b) < _EARTH_CHROMA):
        hue = "olive" if hue == "yellow" and light < 48 else "brown" if light < 62 else "sand"
    return f"{_depth(light)}{hue}"


def _depth(light: float) -> str:
    if light > _PALE_L:
        return "pale "
    if light > _LIGHT_L:
        return "light "
    if light < _DEEP_L:
        return "deep "
    return "dark " if light < _DARK_L else ""


def mix_of(lab: FloatArray) -> tuple[Glass, ...]:
    """Return the mix that an area of these colours asks for: (k, 3) CIELAB of its pixels.

    Lighter and darker are the means of the lightest and darkest fifth, where they differ enough from the
    main one; the pinch is the main colour's complement in hue, at its lightness. Grey has none.
    """
    order = np.argsort(lab[:, 0], kind="stable")
    fifth = max(1, len(order) // 5)
    main = np.median(lab, axis=0)
    wanted = [("", main, _MAIN)]
    lighter, darker = lab[order[-fifth:]].mean(axis=0), lab[order[:fifth]].mean(axis=0)
    if lighter[0] - main[0] >= _LEAST_STEP_L:
        wanted.append(("lighter", lighter, _LIGHTER))
    if main[0] - darker[0] >= _LEAST_STEP_L:
        wanted.append(("darker", darker, _DARKER))
    if np.hypot(*main[1:]) >= 2 * _GREY_CHROMA:
        wanted.append(("pinch", main * (1.0, -_PINCH_CHROMA, -_PINCH_CHROMA), _PINCH))
    return _glasses(wanted)


def _glasses(wanted: list[tuple[str, FloatArray, float]]) -> tuple[Glass, ...]:
    """Return the glasses, shares scaled to sum to 1, names told apart."""
    total = sum(share for _, _, share in wanted)
    seen: dict[str, Glass] = {}
    for what, lab, share in wanted:
        r, g, b = lab_to_srgb(lab).tolist()
        name = colour_words((r, g, b))
        name = f"{name}, {what}" if name in seen else name
        seen[name] = Glass(name=name, colour=(r, g, b), share=share / total)
    return tuple(seen.values())

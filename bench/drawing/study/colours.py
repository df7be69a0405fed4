"""The glass that a painted area asks for: a mix of the colours seen in it, each with a plain name."""

from __future__ import annotations

import numpy as np

from bench.drawing.colour import lab_to_srgb
from bench.drawing.colour_words import GREY_CHROMA, colour_words
from bench.drawing.panel import FloatArray
from bench.drawing.study.model import Glass
from bench.speech import say

# A mix of main, lighter, darker and a pinch of the complement keeps a plain area alive: common practice,
# no source. The shares are a starting point that the maker changes.
_MAIN, _LIGHTER, _DARKER, _PINCH = 0.56, 0.22, 0.19, 0.03
_LEAST_STEP_L = 6.0  # a lighter glass that is less lighter than that is the same glass
_PINCH_CHROMA = 0.6  # of the main one's


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
    if np.hypot(*main[1:]) >= 2 * GREY_CHROMA:
        wanted.append(("pinch", main * (1.0, -_PINCH_CHROMA, -_PINCH_CHROMA), _PINCH))
    return _glasses(wanted)


def _glasses(wanted: list[tuple[str, FloatArray, float]]) -> tuple[Glass, ...]:
    """Return the glasses, shares scaled to sum to 1, names told apart."""
    total = sum(share for _, _, share in wanted)
    seen: dict[str, Glass] = {}
    for what, lab, share in wanted:
        r, g, b = lab_to_srgb(lab).tolist()
        name = colour_words((r, g, b))
        name = _told_apart(name, what) if name in seen else name
        seen[name] = Glass(name=name, colour=(r, g, b), share=share / total)
    return tuple(seen.values())


def _told_apart(name: str, what: str) -> str:
    """Return the name of a glass with what it is beside the main one, where both would be called the same."""
    return {
        "lighter": say("{colour}, lighter", colour=name),
        "darker": say("{colour}, darker", colour=name),
        "pinch": say("{colour}, pinch", colour=name),
    }[what]

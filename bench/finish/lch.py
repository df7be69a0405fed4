"""Lightness, chroma and hue; what a screen and a printed study can show of them; and words for them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.drawing import lab_to_srgb, lab_to_unbounded_srgb
from bench.drawing.panel import FloatArray

_HALVINGS = 24  # chroma is then true to a millionth
_SLACK = 0.5  # of a step of 255: it rounds to what can be shown

# hue angle of CIELAB in degrees up to which a word holds; our own bounds, common practice, no source
_HUES = (
    (18.0, "rose"),
    (50.0, "red"),
    (80.0, "orange"),
    (112.0, "yellow"),
    (180.0, "green"),
    (225.0, "teal"),
    (312.0, "blue"),
    (345.0, "violet"),
    (360.0, "rose"),
)
_LIGHTNESSES = ((22.0, "very dark "), (45.0, "dark "), (65.0, ""), (82.0, "light "), (101.0, "pale "))
_GREY_BELOW, _DULL_BELOW = 6.0, 22.0
_EARTHS = {"orange": (55.0, "brown"), "yellow": (60.0, "olive")}  # what they are called when darker


def lab_to_lch(lab: ArrayLike) -> FloatArray:
    """Return L*, C*, h of CIELAB colours, h in degrees from 0 to 360; 0 for a grey. (…, 3) → (…, 3)"""
    colour = np.asarray(lab, dtype=float)
    light, a, b = colour[..., 0], colour[..., 1], colour[..., 2]
    hue = np.degrees(np.arctan2(b, a)) % 360.0
    return np.stack([light, np.hypot(a, b), np.where(hue >= 360.0, 0.0, hue)], axis=-1)


def lch_to_lab(lch: ArrayLike) -> FloatArray:
    """Return CIELAB of L*, C*, h in degrees. (…, 3) → (…, 3)"""
    colour = np.asarray(lch, dtype=float)
    light, chroma, turn = colour[..., 0], colour[..., 1], np.radians(colour[..., 2])
    return np.stack([light, chroma * np.cos(turn), chroma * np.sin(turn)], axis=-1)


def in_gamut(lab: ArrayLike) -> NDArray[np.bool_]:
    """Tell whether sRGB can show each colour, to within the rounding to 8 bits. (…, 3) → (…)"""
    rgb = lab_to_unbounded_srgb(lab)
    return np.asarray(((rgb >= -_SLACK) & (rgb <= 255.0 + _SLACK)).all(axis=-1), dtype=np.bool_)


def shown(lch: ArrayLike) -> NDArray[np.uint8]:
    """Return the sRGB colour of L*, C*, h with as much of its chroma as sRGB can show. (3,) → (3,)

    Lightness and hue stay; L* is first held between 0 and 100.
    """
    light, chroma, hue = np.asarray(lch, dtype=float).tolist()
    light = min(max(light, 0.0), 100.0)
    low, high = 0.0, chroma
    if in_gamut(lch_to_lab((light, chroma, hue))):
        low = chroma
    else:
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            low, high = (middle, high) if in_gamut(lch_to_lab((light, middle, hue))) else (low, middle)
    return lab_to_srgb(lch_to_lab((light, low, hue)))


def words_for(lab: FloatArray) -> list[str]:
    """Return words for CIELAB colours, e.g. 'dark blue', 'greyish teal', 'light grey'. (n, 3)"""
    light, chroma, hue = lab_to_lch(lab).T
    dark = np.digitize(light, [bound for bound, _ in _LIGHTNESSES[:-1]])
    named = np.digitize(hue, [bound for bound, _ in _HUES[:-1]])
    out = []
    for k, (depth, which) in enumerate(zip(dark.tolist(), named.tolist(), strict=True)):
        shade, word = _LIGHTNESSES[depth][1], _HUES[which][1]
        if chroma[k] < _GREY_BELOW:
            out.append("black" if light[k] < 10 else "white" if light[k] > 95 else f"{shade}grey")
            continue
        dull = bool(chroma[k] < _DULL_BELOW)
        if word in _EARTHS:
            below, earth = _EARTHS[word]
            word, dull = (earth, False) if light[k] < below else ("beige", False) if dull else (word, dull)
        out.append(f"{shade}{'greyish ' if dull else ''}{word}")
    return out

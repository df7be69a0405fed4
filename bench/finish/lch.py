"""Lightness, chroma and hue, and what a screen and a printed study can show of them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.drawing.colour import lab_to_srgb, lab_to_unbounded_srgb
from bench.drawing.panel import FloatArray

_HALVINGS = 24  # chroma is then true to a millionth
_SLACK = 0.5  # of a step of 255: it rounds to what can be shown


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

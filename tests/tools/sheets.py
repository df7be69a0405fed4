"""The sheets of glass the demo is cut from: a ramp of shades for each form, light first.

No sheet is of one shade, and neighbouring sheets share a boundary: a piece is taken from the sheet whose
shade is nearest after a little chance, and lies a little off that sheet's mean.
"""

from __future__ import annotations

import colorsys

import numpy as np

LEMON = ("#fff6c4", "#ffec82", "#ffdf3d", "#fbcb17", "#f0b30e", "#dc9a14", "#b98220", "#938128", "#6f6e2c")
LEAF = ("#c3d272", "#93b548", "#669338", "#457534", "#2f5a30", "#21432b")
BOWL = ("#fffdf6", "#f6f1e4", "#e6e2d8", "#ccd0d3", "#a9b5c1", "#8293a8", "#63758e", "#4a5b78")
BAND = ("#5cc0bd", "#2f9c9f", "#1f7c86", "#1b5f70", "#1a4a60")
INSIDE = ("#9a8a5c", "#7b7350", "#5f6050", "#4b514f", "#3d4549")
CLOTH = ("#cfe2f1", "#9dc3e6", "#6c9fd6", "#4179bf", "#2a5ca6", "#1f468a", "#18346e", "#122553")
WALL = ("#efdacb", "#e4c9b7", "#d8b8a4", "#c8a48f", "#b38e7b", "#9a7667")
LIGHT = ("#fffbe9", "#fff3d0", "#fbe8b8")
TUMBLER = ("#f6fbf8", "#dcefeb", "#bcdfdd", "#93c7cb", "#69a6b2", "#46818f", "#2f6074")
PITH = ("#fffbe6", "#fbf2cf", "#efe2b2")
FLESH = ("#fff7b0", "#fdec85", "#f7dd5a", "#ecca3f", "#d9b233")


def cut_from(sheets: tuple[str, ...], dark: float, rng: np.random.Generator, *, spread: float = 0.5) -> str:
    """Return the colour of one piece. dark: 0 the lightest sheet, 1 the darkest, clipped beyond.

    spread: how far chance may reach over into the next sheet, in sheets.
    """
    at = np.clip(dark, 0, 1) * (len(sheets) - 1) + rng.uniform(-spread, spread)
    sheet = sheets[int(np.clip(round(float(at)), 0, len(sheets) - 1))]
    red, green, blue = (int(sheet[k : k + 2], 16) / 255 for k in (1, 3, 5))
    hue, light, strength = colorsys.rgb_to_hls(red, green, blue)
    hue = (hue + rng.normal(0, 0.006)) % 1
    light = float(np.clip(light + rng.normal(0, 0.016), 0.02, 0.985))
    strength = float(np.clip(strength * (1 + rng.normal(0, 0.05)), 0, 1))
    return "#" + "".join(f"{round(255 * part):02x}" for part in colorsys.hls_to_rgb(hue, light, strength))

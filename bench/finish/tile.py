"""The sample tile: the true colours of grouts, read off a photo of them between the same glass.

A photo shows colours in the light it was taken in. A white card beside the tile takes that light out.
"""

from __future__ import annotations

import numpy as np

from bench.drawing.colour import RGB, lab_to_srgb, linear_to_srgb, srgb_to_lab, srgb_to_linear
from bench.drawing.panel import FloatArray
from bench.drawing.photo import Picture
from bench.finish.faults import NotOnTile, NotWhiteCard
from bench.finish.glass import rgb_of
from bench.speech import say

SPOT_MM = 0.5  # half a narrow joint: a disc of that radius lies within it
LEAST_SPOT_PX = 1.5
CARD_L = 95.0  # lightness of office paper: from memory
DARKEST_CARD_L, MOST_CARD_C, OVEREXPOSED = 55.0, 25.0, 250


def measured_colour(flat: Picture, at_mm: tuple[float, float], card_mm: tuple[float, float] | None) -> RGB:
    """Return the sRGB colour of a grout in a squared-up photo, around a place in its joint.

    The median in CIELAB of a disc, so that a grain of sand or a sliver of glass does not count. card_mm: a
    place on a white card; the light is then taken out channel by channel in linear light, as much as makes
    the card a neutral of L* 95 (von Kries's coefficient law, 1902, on the photo's own primaries). None: as
    photographed. Raises NotOnTile, NotWhiteCard.
    """
    seen = _spot(flat, at_mm)
    if card_mm is None:
        return rgb_of(lab_to_srgb(seen))
    card = _card(_spot(flat, card_mm))
    light = srgb_to_linear(lab_to_srgb(seen)) * srgb_to_linear(lab_to_srgb((CARD_L, 0.0, 0.0))) / card
    return rgb_of(linear_to_srgb(light))


def _spot(flat: Picture, at_mm: tuple[float, float]) -> FloatArray:
    """Return the median CIELAB around a place. (3,)"""
    assert flat.mm_per_px is not None
    x, y = (value / flat.mm_per_px for value in at_mm)
    rows, columns = flat.pixels.shape[:2]
    if not (0 <= x < columns and 0 <= y < rows):
        raise NotOnTile(at_mm)
    radius = max(LEAST_SPOT_PX, SPOT_MM / flat.mm_per_px)
    top, left = max(0, int(y - radius)), max(0, int(x - radius))
    part = flat.pixels[top : int(y + radius) + 2, left : int(x + radius) + 2]
    down, right = np.indices(part.shape[:2])
    near = np.hypot(down + top + 0.5 - y, right + left + 0.5 - x) <= radius
    found: FloatArray = np.median(srgb_to_lab(part[near]), axis=0)
    return found


def _card(lab: FloatArray) -> FloatArray:
    """Return a card's linear light (3,); raise where it cannot have been white, or is overexposed."""
    shown = lab_to_srgb(lab)
    if shown.max() > OVEREXPOSED:
        what = say("the card is overexposed, so its light cannot be told")
        raise NotWhiteCard(what, say("take it a little darker"))
    if lab[0] < DARKEST_CARD_L or np.hypot(lab[1], lab[2]) > MOST_CARD_C:
        raise NotWhiteCard(say("what was tapped is no white card"), say("tap the card, or leave it out"))
    return srgb_to_linear(shown)

"""A mix of glass changed by hand: shares that always sum to 1, colours lighter, darker or another.

Each returns a new mix; a glass is called by its place, from 0.
"""

from __future__ import annotations

import numpy as np

from bench.drawing.colour import lab_to_srgb, srgb_to_lab
from bench.drawing.colour_words import colour_words
from bench.drawing.names import unique_names
from bench.drawing.study.colours import mix_of
from bench.drawing.study.model import Colour, Glass, Region

Mix = tuple[Glass, ...]

LEAST_SHARE = 0.01
MOST_GLASSES = 6
STEP_L = 5.0  # of lightness: a step that the eye sees at once
_NEW_SHARE = 0.1
_SPREAD_L = (0.0, 10.0, -10.0)  # of a mix about one colour: main, lighter, darker
_SPREAD_PARTS = (50, 28, 22)  # of a hundred, so that mix_of finds its lightest and darkest fifth

# A sheet of each hue, at a lightness where it is told from its neighbours, the earths and the greys.
SHEET: tuple[Colour, ...] = (
    (255, 255, 255),
    (240, 226, 190),
    (226, 190, 60),
    (226, 140, 50),
    (205, 80, 40),
    (180, 35, 50),
    (225, 130, 160),
    (125, 70, 150),
    (45, 75, 155),
    (90, 150, 205),
    (40, 150, 160),
    (60, 150, 120),
    (60, 130, 60),
    (150, 175, 60),
    (110, 100, 40),
    (200, 165, 120),
    (135, 85, 50),
    (80, 45, 30),
    (190, 190, 190),
    (128, 128, 128),
    (70, 70, 70),
    (15, 15, 15),
    (30, 40, 80),
    (25, 70, 50),
)


def with_share(mix: Mix, k: int, share: float) -> Mix:
    """Return the mix with one glass at another share; the others give way, or take up, in proportion.

    A share is kept between 1 in 100 and what leaves 1 in 100 to the others; a single glass stays all of it.
    """
    if len(mix) == 1:
        return mix
    share = min(max(share, LEAST_SHARE), 1 - LEAST_SHARE)
    factor = (1 - share) / (1 - mix[k].share)
    shares = [share if i == k else max(glass.share * factor, 1e-9) for i, glass in enumerate(mix)]
    return _whole(mix, shares)


def without(mix: Mix, k: int) -> Mix:
    """Return the mix without one glass; the last one stays."""
    rest = (*mix[:k], *mix[k + 1 :])
    return _whole(rest, [glass.share for glass in rest]) if rest else mix


def with_another(mix: Mix, k: int) -> Mix:
    """Return the mix with one glass more, a step lighter than an old one, a tenth of the pieces.

    At most six glasses go into a mix; beyond that it stays as it is.
    """
    if len(mix) >= MOST_GLASSES:
        return mix
    found = mix[k].model_copy(update={"colour": lighter(mix[k].colour, 1), "name": "new"})
    shares = [glass.share * (1 - _NEW_SHARE) for glass in mix]
    more = (*mix, found)
    return recoloured(_whole(more, [*shares, _NEW_SHARE]), len(mix), found.colour)


def recoloured(mix: Mix, k: int, colour: Colour) -> Mix:
    """Return the mix with one glass of another colour, named for it; equal names are told apart."""
    changed = [
        glass.model_copy(update={"colour": colour, "name": colour_words(colour)}) if i == k else glass
        for i, glass in enumerate(mix)
    ]
    names = unique_names([glass.name for glass in changed])
    return tuple(glass.model_copy(update={"name": n}) for glass, n in zip(changed, names, strict=True))


def lighter(colour: Colour, steps: int) -> Colour:
    """Return a colour so many steps of 5 in CIELAB's L* lighter, darker below 0; hue and chroma stay.

    White and black have no lighter and darker; a channel that would leave sRGB is cut off.
    """
    lab = srgb_to_lab(np.array(colour))
    lab[0] = min(max(lab[0] + steps * STEP_L, 0.0), 100.0)
    r, g, b = lab_to_srgb(lab).tolist()
    return r, g, b


def mix_around(colour: Colour) -> Mix:
    """Return a mix about one colour, where no paint shows any: with a lighter, a darker and a pinch."""
    main = srgb_to_lab(np.array(colour))
    shades = np.repeat(main[None, :], sum(_SPREAD_PARTS), axis=0)
    shades[:, 0] = np.clip(shades[:, 0] + np.repeat(_SPREAD_L, _SPREAD_PARTS), 2.0, 99.0)
    return mix_of(shades)


def plain_region(colour: Colour, piece_mm: float, name: str = "") -> Region:
    """Return how an area of one colour is laid, named for the colour unless it has a name."""
    mix = mix_around(colour)
    return Region(name=name or mix[0].name, piece_mm=piece_mm, mix=mix)


def _whole(mix: Mix, shares: list[float]) -> Mix:
    total = sum(shares)
    return tuple(
        glass.model_copy(update={"share": share / total}) for glass, share in zip(mix, shares, strict=True)
    )

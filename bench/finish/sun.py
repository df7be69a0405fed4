"""What the sun does to a panel: inks fade, reds first; a bed under clear or dark glass may yellow or soften.

All of it is common practice without a source, and rough. The blue wool classes are those of ISO 105-B01,
1 the most and 8 the least fugitive, each step about twice the exposure of the one before; which colours are
of which class, and the exposures of CIE 157 to a fading that is just seen, are from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.adhesive.product import Product
from bench.drawing.colour import RGB, srgb_to_lab
from bench.drawing.panel import Panel
from bench.finish.lch import lab_to_lch
from bench.speech import plain_temperature, said, say, say_n

Sun = Literal["direct", "indirect", "indoors"]
SUNS: tuple[Sun, ...] = ("direct", "indirect", "indoors")

VIVID_C = 40.0  # chroma from which a colour is vivid
RED_C = 20.0  # and a red fugitive: tints of red fade sooner than the full colour
DARK_L = 35.0
# Mlx·h a year in each light, from memory: 50 klx for 2000 h, 2 klx for 3000 h, 200 lx for 3000 h
_MLX_H_A_YEAR: dict[Sun, float] = {"direct": 100.0, "indirect": 6.0, "indoors": 0.6}
# Mlx·h until a fading is just seen with ultraviolet in the light: CIE 157 for classes 1 to 8, from memory
_JUST_SEEN_MLX_H = (0.22, 0.6, 1.5, 3.5, 8.0, 20.0, 50.0, 120.0)
# °C a surface reaches in direct sun: from memory
DARK_SURFACE_C, CLEAR_SURFACE_C = 75.0, 60.0


def sun_said(sun: Sun) -> str:
    """Say where a panel hangs, as the sun sees it."""
    return {
        "direct": say("in direct sun"),
        "indirect": say("in daylight, never in the sun"),
        "indoors": say("indoors, away from windows"),
    }[sun]


@dataclass(frozen=True)
class Fading:
    """How an ink of a colour stands the light: its blue wool classes, from and to, and years until seen."""

    classes: tuple[int, int]
    years: tuple[float, float]
    through: bool

    @property
    def words(self) -> str:
        """Say it roughly."""
        return say(
            "an ink of it is seen to fade after {soon} to {late}, roughly (blue wool {low} to {high})",
            soon=_span(self.years[0]),
            late=_span(self.years[1]),
            low=self.classes[0],
            high=self.classes[1],
        )


def is_red(colour: ArrayLike) -> NDArray[np.bool_]:
    """Tell which sRGB colours are reds, pinks and orange reds. (…, 3) → (…)"""
    lch = lab_to_lch(srgb_to_lab(colour))
    return np.asarray((lch[..., 1] >= RED_C) & ((lch[..., 2] <= 60.0) | (lch[..., 2] >= 335.0)))


def is_vivid(colour: ArrayLike) -> NDArray[np.bool_]:
    """Tell which sRGB colours are vivid. (…, 3) → (…)"""
    return np.asarray(lab_to_lch(srgb_to_lab(colour))[..., 1] >= VIVID_C)


def fading_of(colour: RGB, sun: Sun) -> Fading:
    """Return how an ink of a colour stands a light; `through`: a through-coloured grout is wanted instead."""
    red, vivid = bool(is_red(colour)), bool(is_vivid(colour))
    classes = (2, 4) if red else (4, 6) if vivid else (6, 8)
    a_year = _MLX_H_A_YEAR[sun]
    years = (_JUST_SEEN_MLX_H[classes[0] - 1] / a_year, _JUST_SEEN_MLX_H[classes[1] - 1] / a_year)
    return Fading(classes, years, through=sun == "direct" and (red or vivid))


def fugitive(panel: Panel, sun: Sun) -> NDArray[np.bool_]:
    """Return which pieces are of a colour whose ink would fade: reds and vivid ones, in direct sun. (n,)"""
    if sun != "direct":
        return np.zeros(panel.tessera_count, bool)
    return is_red(panel.colour) | is_vivid(panel.colour)


def bed_in_sun(panel: Panel, product: Product, sun: Sun) -> tuple[str, ...]:
    """Say what the sun may do to the bed under clear and dark glass, by its service temperature."""
    if sun == "indoors":
        return ()
    told = []
    clear = np.isin(panel.glass, (1, 2))
    if clear.any():
        told.append(
            say(
                "The bed shows through {pieces} of clear glass and may yellow in daylight.",
                pieces=_pieces(clear),
            )
        )
    dark = ~clear & (srgb_to_lab(panel.colour)[:, 0] < DARK_L)
    if sun != "direct" or not (clear.any() or dark.any()):
        return tuple(told)
    hot_C = DARK_SURFACE_C if dark.any() else CLEAR_SURFACE_C
    what = say("{pieces} of dark glass", pieces=_pieces(dark)) if dark.any() else say("what lies in the sun")
    return (*told, _in_heat(product, what, hot_C))


def _in_heat(product: Product, what: str, hot_C: float) -> str:
    """Say how hot something may get, and what its adhesive is made for."""
    named = {"what": what, "hot": plain_temperature(hot_C), "adhesive": said(product.name)}
    if product.service is None:
        return say(
            "In direct sun {what} may reach about {hot}; the file of {adhesive} gives no service "
            "temperature: look in its sheet whether the bed stays firm.",
            **named,
        )
    most_C = product.service.range_C[1]
    if most_C < hot_C:
        return say(
            "In direct sun {what} may reach about {hot}, and {adhesive} is for up to {most}: "
            "the bed may soften.",
            **named,
            most=plain_temperature(most_C),
        )
    return say(
        "In direct sun {what} may reach about {hot}; {adhesive} is for up to {most}.",
        **named,
        most=plain_temperature(most_C),
    )


def _pieces(chosen: NDArray[np.bool_]) -> str:
    return say_n("{count} piece", "{count} pieces", int(chosen.sum()))


def _span(years: float) -> str:
    days = years * 365.0
    if days < 2:
        return say("a day")
    if days < 21:
        return say("{count} days", count=math.floor(days))
    if days < 90:
        return say("{count:.0f} weeks", count=days / 7)
    if years < 2:
        return say("{count:.0f} months", count=days / 30.4)
    return say("{count:.0f} years", count=years) if years < 60 else say("a lifetime")

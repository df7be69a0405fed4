"""The glass list: like colours of one kind as one glass, and how much of each the panel takes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import RGB, code_of, srgb_to_lab
from bench.drawing.colour_words import words_for
from bench.drawing.panel import GLASS_KINDS, FloatArray, IntArray, Panel
from bench.finish.alike import led_by
from bench.finish.calipers import calipers
from bench.finish.shades import Shades, shades_of
from bench.speech import say


@dataclass(frozen=True)
class Glass:
    """One glass of a panel.

    name: its kind unless opaque, words for its colour, and the code of its colour; colour: the sRGB that
    covers most of it. area_mm2: laid. narrowest_mm: the least width that must be cut; longest_mm: the
    longest piece, across its least width; widest_mm: the greatest of the least widths. [mm]
    """

    name: str
    kind: str
    colour: RGB
    pieces: int
    area_mm2: float
    narrowest_mm: float
    widest_mm: float
    longest_mm: float
    shades: Shades


@dataclass(frozen=True, eq=False)
class GlassList:
    """The glasses of a panel, that of most area first, and the glass of each tessera, (n,)."""

    glasses: tuple[Glass, ...]
    of: IntArray

    @property
    def lab(self) -> FloatArray:
        """CIELAB of the glasses' colours, (g, 3)."""
        return srgb_to_lab(np.array([g.colour for g in self.glasses], np.uint8).reshape(-1, 3))


SAME_AREA_DIGITS = 6  # of mm²: areas that differ by less lead alike


def glass_list(panel: Panel, *, like_de: float = 0.0) -> GlassList:
    """Return the glasses of a panel.

    Colours are one glass where they are equal in sRGB or within ΔE00 `like_de` of the glass's own colour
    (the rule is told in `alike`), and of one kind: opaque, clear or iridised. The name depends on kind and
    colour alone, so that it stays when pieces come or go elsewhere. A panel without tesserae has none.
    """
    if not panel.tessera_count:
        return GlassList((), np.zeros(0, np.int32))
    colour, kind, of = _grouped(panel, like_de)
    pieces = np.bincount(of, minlength=len(colour))
    area_mm2 = np.bincount(of, panel.area_mm2, minlength=len(colour)).astype(np.float64)
    narrow, long = calipers(panel)
    order = np.argsort(of, kind="stable")
    start = np.cumsum(pieces) - pieces
    narrowest = np.minimum.reduceat(narrow[order], start).tolist()
    widest = np.maximum.reduceat(narrow[order], start).tolist()
    longest = np.maximum.reduceat(long[order], start).tolist()
    shades = shades_of(srgb_to_lab(panel.colour[order]), start)
    names = names_for(colour, kind)
    glasses = tuple(
        Glass(
            name=names[k],
            kind=GLASS_KINDS[kind[k]],
            colour=rgb_of(colour[k]),
            pieces=int(pieces[k]),
            area_mm2=float(area_mm2[k]),
            narrowest_mm=narrowest[k],
            widest_mm=widest[k],
            longest_mm=longest[k],
            shades=shades[k],
        )
        for k in range(len(colour))
    )
    return GlassList(glasses, of)


def rgb_of(colour: NDArray[np.uint8]) -> RGB:
    """Return one sRGB colour as three plain numbers. (3,)"""
    red, green, blue = colour.tolist()
    return red, green, blue


def names_for(colour: NDArray[np.uint8], kind: NDArray[np.uint8]) -> list[str]:
    """Return names like 'dark blue #2a5caa' or 'clear pale teal #cfe8e6'. (g, 3), (g,)"""
    words = words_for(colour)
    said = [_of_kind(GLASS_KINDS[k], w) for k, w in zip(kind.tolist(), words, strict=True)]
    return [f"{words} {code_of(rgb_of(c))}" for words, c in zip(said, colour, strict=True)]


def kind_said(kind: str) -> str:
    """Say a kind of glass."""
    return {"opaque": say("opaque"), "clear": say("clear"), "iridised": say("iridised")}[kind]


def _of_kind(kind: str, colour: str) -> str:
    """Say a colour in glass of a kind, which is told unless it is opaque."""
    if kind == "clear":
        return say("clear {colour}", colour=colour)
    return say("iridised {colour}", colour=colour) if kind == "iridised" else colour


def _grouped(panel: Panel, like_de: float) -> tuple[NDArray[np.uint8], NDArray[np.uint8], IntArray]:
    """Return colour and kind of each glass, and the glass of each tessera."""
    red, green, blue = panel.colour.astype(np.int64).T
    key = ((panel.glass.astype(np.int64) * 256 + red) * 256 + green) * 256 + blue
    keys, place = np.unique(key, return_inverse=True)
    colour = np.stack([keys >> 16 & 255, keys >> 8 & 255, keys & 255], axis=1).astype(np.uint8)
    kind = (keys >> 24).astype(np.uint8)
    summed_mm2 = np.bincount(place.ravel(), panel.area_mm2, minlength=len(keys)).astype(np.float64)
    area_mm2 = np.round(summed_mm2, SAME_AREA_DIGITS)  # of like areas the order of the sum must not decide
    leader = np.arange(len(keys))
    lab = srgb_to_lab(colour)
    for k in np.unique(kind):
        some = np.flatnonzero(kind == k)
        leader[some] = some[led_by(lab[some], area_mm2[some], like_de)]
    leads = np.unique(leader)
    covered = np.bincount(leader, area_mm2, minlength=len(keys))[leads]
    leads = leads[np.argsort(-covered, kind="stable")]
    number = np.zeros(len(keys), np.int32)
    number[leads] = np.arange(len(leads), dtype=np.int32)
    return colour[leads], kind[leads], number[leader[place.ravel()]]

"""Plain areas, one glass over many pieces side by side, and how each could be varied."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.drawing.colour import RGB, srgb_to_lab
from bench.drawing.panel import IntArray, Panel
from bench.finish.glass import GlassList, rgb_of
from bench.finish.lch import lab_to_lch, shown
from bench.speech import say

# All of these are common practice, no source.
PLAIN_PIECES = 12  # from so many joined pieces of one glass on, an area looks plain
STEP_L = 8.0  # how much lighter and darker, in L*
LIGHTER, DARKER, PINCH = 0.15, 0.15, 0.05
AS_IT_IS = "as it is"
_GREY_BELOW = 6.0  # less chroma than that has no complement


@dataclass(frozen=True)
class Part:
    """A share of a plain area in one colour; what: as it is, lighter, darker or complement."""

    what: str
    colour: RGB
    share: float
    pieces: int

    @property
    def told(self) -> str:
        """Say what it is."""
        return {
            AS_IT_IS: say("as it is"),
            "lighter": say("lighter"),
            "darker": say("darker"),
            "complement": say("complement"),
        }[self.what]


@dataclass(frozen=True)
class Plain:
    """The largest area of one glass, by index into the list, and what it could be made of."""

    glass: int
    pieces: int
    area_mm2: float
    parts: tuple[Part, ...]


def plain_areas(panel: Panel, listed: GlassList, *, least_pieces: int = PLAIN_PIECES) -> tuple[Plain, ...]:
    """Return for each glass the largest plain area of at least so many pieces, most glass first.

    An area is plain where like meets like: joined pieces of one glass whose shades differ by nothing that
    the drawing tells. None where every area is smaller.
    """
    area = _areas(panel, listed)
    pieces = np.bincount(area)
    area_mm2 = np.bincount(area, panel.area_mm2)
    glass = np.zeros(len(pieces), np.int32)
    glass[area] = listed.of
    found: dict[int, Plain] = {}
    for k in np.argsort(-area_mm2, kind="stable").tolist():
        if pieces[k] < least_pieces or int(glass[k]) in found:
            continue
        which = int(glass[k])
        parts = varied(listed.glasses[which].colour, int(pieces[k]))
        found[which] = Plain(which, int(pieces[k]), float(area_mm2[k]), parts)
    return tuple(found.values())


def _areas(panel: Panel, listed: GlassList) -> IntArray:
    """Return for each tessera the joined area of its glass that it belongs to."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    n = panel.tessera_count
    a, b = panel.joints.pair.T
    same = listed.of[a] == listed.of[b]
    graph = coo_array((np.ones(int(same.sum()), bool), (a[same], b[same])), shape=(n, n))
    label: IntArray = connected_components(graph, directed=False)[1]
    return label


def varied(colour: RGB, pieces: int) -> tuple[Part, ...]:
    """Return how a plain area could be varied: mostly as it is, some lighter, some darker, and a pinch.

    Lighter and darker by 8 L* at the same hue; the pinch is the complement, hue + 180° in CIELAB at the same
    lightness, for a grey none. Every colour keeps as much of its chroma as sRGB can show; what comes out the
    same as the glass itself (white cannot get lighter) is left out. Pieces add up to those given.
    """
    light, chroma, hue = lab_to_lch(srgb_to_lab(colour)).tolist()
    others = [
        ("lighter", LIGHTER, (light + STEP_L, chroma, hue)),
        ("darker", DARKER, (light - STEP_L, chroma, hue)),
    ]
    if chroma >= _GREY_BELOW:
        others.append(("complement", PINCH, (light, chroma, hue + 180.0)))
    parts = []
    for what, share, lch in others:
        other = rgb_of(shown(lch))
        if other != colour:
            parts.append(Part(what, other, share, round(share * pieces)))
    rest = 1.0 - sum(part.share for part in parts)
    left = pieces - sum(part.pieces for part in parts)
    return (Part(AS_IT_IS, colour, round(rest, 6), left), *parts)

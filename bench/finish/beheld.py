"""Grout seen before it is mixed: how strongly joints cut a picture up, and what an ink makes of a grout."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import RGB, delta_e_2000, linear_to_srgb, srgb_to_lab, srgb_to_linear
from bench.drawing.panel import IntArray, Panel
from bench.finish.grout_colours import grout_said
from bench.speech import say

# mean ΔE00 between glass and joint, up to which joints recede, are quiet, and draw the pieces: ours, by eye,
# without a source
RECEDE_DE, QUIET_DE, DRAW_DE = 10.0, 20.0, 35.0
_OVER = " over "


@dataclass(frozen=True)
class Cut:
    """How strongly joints cut up a picture, or a region of it: mean ΔE00 between glass and joint.

    delta_e is None where no two pieces face each other.
    """

    delta_e: float | None

    @property
    def words(self) -> str:
        """Say it, from 'joints recede' to 'joints stand out'."""
        if self.delta_e is None:
            return say("no joint between pieces")
        if self.delta_e < RECEDE_DE:
            return say("joints recede")
        if self.delta_e < QUIET_DE:
            return say("joints are quiet")
        return say("joints draw the pieces") if self.delta_e < DRAW_DE else say("joints stand out")


def cut_up(panel: Panel, grout: NDArray[np.integer], label: IntArray, regions: int) -> tuple[Cut, ...]:
    """Return how strongly joints cut up the whole panel, first, and then each region.

    grout: (n, 3) the sRGB colour of the joints around each tessera. label: (n,) its region, from 0.
    ΔE00 between a tessera and the joints around it, weighted by the length along which it faces others;
    where two grouts meet each side faces its own.
    """
    lengths = np.repeat(panel.joints.length_mm, 2)
    faced_mm = np.bincount(panel.joints.pair.ravel(), lengths, minlength=panel.tessera_count)
    apart = delta_e_2000(srgb_to_lab(panel.colour), srgb_to_lab(grout))
    weight = np.bincount(label, faced_mm, minlength=regions)
    total = np.bincount(label, faced_mm * apart, minlength=regions)
    return (_mean(total.sum(), weight.sum()), *map(_mean, total.tolist(), weight.tolist()))


def _mean(total: float, weight: float) -> Cut:
    return Cut(float(total / weight) if weight > 0 else None)


def inked(grout: RGB, ink: RGB) -> RGB:
    """Return the colour that an ink gives to a grout: each lets through its share of the light.

    In linear light, channel by channel, inked = grout · ink: a thin clear film over a matt ground, twice
    through it and no light lost at its faces. A guess, without a source: try the ink on an offcut.
    """
    light = srgb_to_linear(grout) * srgb_to_linear(ink)
    red, green, blue = linear_to_srgb(light).tolist()
    return red, green, blue


def inked_name(grout: str, ink: str) -> str:
    """Name a grout under an ink, e.g. 'blue over pale grey': a key, which `tint_said` says."""
    return f"{ink}{_OVER}{grout}"


def is_inked(name: str) -> bool:
    """Tell whether a name is one of a grout under an ink."""
    return _OVER in name


def tint_said(name: str) -> str:
    """Say a grout, an ink, or a grout under an ink, by its name as it is kept."""
    if not is_inked(name):
        return grout_said(name)
    ink, _, grout = name.partition(_OVER)
    return say("{ink} over {grout}", ink=grout_said(ink), grout=grout_said(grout))

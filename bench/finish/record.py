"""What a finished panel's papers tell, and to whom: one model for its client, one more for its maker.

The client's paper is made of `Shown` alone, which holds nothing of money or hours.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from bench.finish.money import Money
from bench.finish.weight import Weight
from bench.speech import say

if TYPE_CHECKING:
    from PIL.Image import Image


def care_lines() -> tuple[str, ...]:
    """Say how a finished panel is cared for: common practice, no source."""
    return (
        say(
            "Dust it with a soft dry brush or cloth. Wipe it with a cloth damp with clear water, and dry it."
        ),
        say("No vinegar or other acid, bleach, scouring powder or steam: they eat grout and dull glass."),
        say("Carry it upright with both hands, by its board or frame. Bending it breaks joints."),
        say(
            "Hang it on fixings rated for its weight, in a wall that bears it. "
            "In doubt ask whoever installs it."
        ),
        say("Direct sun fades tinted grout, reds first, and can yellow the bed under clear glass."),
        say(
            "Frost and standing water break joints: keep it dry unless its maker says that it may hang "
            "outdoors."
        ),
        say(
            "Edges of glass cut. A piece that comes loose: keep it, touch it with gloves on, and ask the "
            "maker."
        ),
    )


@dataclass(frozen=True)
class GlassRow:
    """One glass of the panel. letter: as on the template of the whole panel."""

    letter: str
    name: str
    kind: str
    pieces: int
    area_mm2: float


@dataclass(frozen=True)
class SectionRow:
    """One glue-up. lot: "" for none told. took_s: to done. kept: the promise; None: that tells nothing."""

    section: int
    mix: int
    day: date
    pieces: int
    adhesive: str
    resin_g: float
    hardener_g: float
    weighed: bool
    lot: str
    temperature_C: float
    working_time_s: float
    took_s: float
    promised: float | None
    kept: bool | None
    stage: str


@dataclass(frozen=True)
class Done:
    """Work after the last section, as the book has it: grouted, inked, sealed, hung."""

    day: date
    text: str


@dataclass(frozen=True, eq=False)
class Shown:
    """What anyone may read of a panel. begun, ended: days of the first and last section set, None: none was.

    materials, care: a line each. picture: the glass alone.
    """

    name: str
    width_mm: float
    height_mm: float
    pieces: int
    begun: date | None
    ended: date | None
    weight: Weight
    materials: tuple[str, ...]
    care: tuple[str, ...]
    picture: Image


@dataclass(frozen=True, eq=False)
class Record:
    """What its maker keeps beside that. written: when; numbered: the picture with its sections.

    grout: what is known of it, a line each. unset: sections that are not set yet.
    """

    shown: Shown
    written: datetime
    sections: tuple[SectionRow, ...]
    unset: int
    glass: tuple[GlassRow, ...]
    grout: tuple[str, ...]
    done: tuple[Done, ...]
    hanging: tuple[str, ...]
    money: Money
    notes: tuple[str, ...]
    numbered: Image

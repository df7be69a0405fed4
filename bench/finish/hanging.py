"""What the fixings of a hung panel carry: its weight shared out by geometry.

Statics of a rigid panel at rest, from the balance of forces and turning moments alone. How much a fixing
and a wall may carry is told by their makers; local codes hold beside that.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.finish.faults import AmountOutOfRange
from bench.speech import length, say

STANDARD_GRAVITY = 9.80665  # m/s², CGPM 1901
MOST_POINTS = 20
LEAST_ANGLE_DEG, MOST_ANGLE_DEG = 5.0, 85.0  # a flatter wire pulls more than five times the weight


@dataclass(frozen=True)
class Hung:
    """Loads in grams of weight: times STANDARD_GRAVITY / 1000 they are newtons.

    each_g: of a fixing where all carry alike. worst_g: of the one that carries most: on more than two a
    stiff panel may rest on two alone. angle_deg, tension_g, inward_g: of a wire: its slope at the panel, its
    pull, and how much of that draws the two rings together; None without a wire.
    """

    points: int
    mass_g: float
    each_g: float
    worst_g: float
    angle_deg: float | None = None
    tension_g: float | None = None
    inward_g: float | None = None


def hung(mass_g: float, *, points: int, apart_mm: float = 0.0, aside_mm: float = 0.0) -> Hung:
    """Return what each of so many fixings carries that stand in one line, the outer ones apart_mm apart.

    aside_mm: how far the centre of mass lies beside the middle; of two, the nearer carries
    W·(1/2 + aside/apart). apart_mm 0: not known, both carry alike. One carries all.
    Raises AmountOutOfRange for no weight, no fixing, or a centre of mass beyond the fixings.
    """
    _require_mass(mass_g)
    if not 1 <= points <= MOST_POINTS:
        raise AmountOutOfRange(say("hanging points"), points, say("1 to {most}", most=MOST_POINTS))
    if not (math.isfinite(apart_mm) and apart_mm >= 0):
        allowed = say("millimetres, 0 or more")
        raise AmountOutOfRange(say("distance of the hanging points"), apart_mm, allowed)
    if points == 1:
        return Hung(1, mass_g, mass_g, mass_g)
    share = abs(aside_mm) / apart_mm if apart_mm > 0 else 0.0
    if share > 0.5:
        allowed = say("more than {least}: the panel would tip", least=length(2 * abs(aside_mm)))
        raise AmountOutOfRange(say("distance of the hanging points"), apart_mm, allowed)
    return Hung(points, mass_g, mass_g / points, mass_g * (0.5 + share))


def hung_by_wire(mass_g: float, *, points: int, angle_deg: float) -> Hung:
    """Return what a wire between two rings of the panel bears, laid over one fixing on the wall or several.

    angle_deg: between the wire at a ring and the level; tension = W/(2 sin angle), inward = W/(2 tan angle).
    Raises AmountOutOfRange for an angle below 5 or above 85 degrees, no fixing, or no weight.
    """
    _require_mass(mass_g)
    if not (math.isfinite(angle_deg) and LEAST_ANGLE_DEG <= angle_deg <= MOST_ANGLE_DEG):
        allowed = say(
            "{least:g} to {most:g} degrees; a flat wire pulls without bound",
            least=LEAST_ANGLE_DEG,
            most=MOST_ANGLE_DEG,
        )
        raise AmountOutOfRange(say("wire angle"), angle_deg, allowed)
    carried = hung(mass_g, points=points)
    slope = math.radians(angle_deg)
    return Hung(
        points,
        mass_g,
        carried.each_g,
        carried.worst_g,
        angle_deg,
        mass_g / (2 * math.sin(slope)),
        mass_g / (2 * math.tan(slope)),
    )


def wire_angle_deg(apart_mm: float, above_mm: float) -> float:
    """Return the slope of a wire from two rings up to one fixing above their middle. [degrees]

    apart_mm: of the rings, more than 0. above_mm: how far the fixing stands above them, wire taut.
    """
    if not (math.isfinite(apart_mm) and apart_mm > 0):
        raise AmountOutOfRange(say("distance of the rings"), apart_mm, say("millimetres, more than 0"))
    if not (math.isfinite(above_mm) and above_mm >= 0):
        allowed = say("millimetres above the rings, more than 0")
        raise AmountOutOfRange(say("height of the hook"), above_mm, allowed)
    return math.degrees(math.atan2(2 * above_mm, apart_mm))


def newtons(mass_g: float) -> float:
    """Return the weight of a mass. [N]"""
    return mass_g / 1000.0 * STANDARD_GRAVITY


def _require_mass(mass_g: float) -> None:
    if not (math.isfinite(mass_g) and mass_g > 0):
        raise AmountOutOfRange(say("weight"), mass_g, say("more than 0 g: enter glass and board first"))

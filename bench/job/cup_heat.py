"""The heat of a mix in its cup: whether to show it, and into how many cups it must be split."""

from __future__ import annotations

from dataclasses import dataclass

from bench.adhesive.heat import Exotherm, cups_needed, exotherm
from bench.adhesive.heat_constants import HOT_C
from bench.adhesive.product import Product
from bench.job.cup_faults import RunsAway
from bench.speech import plain_temperature, say


@dataclass(frozen=True, eq=False)
class CupHeat:
    """A mix left in its cup, and the same mass spread. cups: into how many it must be split, 1 for none."""

    in_cup: Exotherm
    spread: Exotherm
    cups: int

    @property
    def each_g(self) -> float:
        """What goes into each cup. [g]"""
        return self.in_cup.mass_g / self.cups


def cup_heat(
    product: Product, *, mass_g: float, temperature_C: float, bed_mm: float, mix_C: float | None = None
) -> CupHeat | None:
    """Return the heat of a mix where it is worth showing: above 40 g, or when it comes to 60 °C; else None.

    mix_C: the bottles', where they were kept warm or cold. A ready adhesive makes no heat: None.
    """
    if not product.is_two_part:
        return None
    in_cup = exotherm(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
    if not in_cup.worth_showing:
        return None
    cups = 1
    if in_cup.runs_away:
        cups = cups_needed(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
    spread = exotherm(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C, spread_mm=bed_mm)
    return CupHeat(in_cup, spread, cups)


def check_cup(
    product: Product, *, mass_g: float, temperature_C: float, bed_mm: float, mix_C: float | None = None
) -> None:
    """Raise RunsAway where one cup of this mass would run away."""
    heat = cup_heat(product, mass_g=mass_g, temperature_C=temperature_C, bed_mm=bed_mm, mix_C=mix_C)
    if heat is not None and heat.cups > 1:
        raise RunsAway(mass_g, heat.cups, temperature_C)


def heat_words(heat: CupHeat) -> tuple[str, str]:
    """Say what a cup does if it is left, and what to do about it."""
    left = heat.in_cup
    if heat.cups > 1:
        return (
            say("{mass_g:.1f} g in one cup would run away", mass_g=left.mass_g),
            say(
                "Split it: {cups} cups of {each_g:.1f} g, one after the other.",
                cups=heat.cups,
                each_g=heat.each_g,
            ),
        )
    gel_min = int(left.gel_s / 60)
    if left.to_hot_s is None:
        return (
            say("Left in the cup it gels after {minutes} min", minutes=gel_min),
            say("It warms itself and goes early: spread it once it is stirred."),
        )
    told = say(
        "Left in the cup: {hot} after {hot_min} min, gels after {gel_min} min",
        hot=plain_temperature(HOT_C),
        hot_min=int(left.to_hot_s / 60),
        gel_min=gel_min,
    )
    return told, say(
        "Spread it at once. A cup that warms is never held or covered: put it outdoors on stone."
    )

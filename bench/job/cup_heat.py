"""The heat of a mix in its cup: whether to show it, and into how many cups it must be split."""

from __future__ import annotations

from dataclasses import dataclass

from bench.adhesive import Exotherm, Product, cups_needed, exotherm
from bench.job.faults import RunsAway


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


def cup_heat(product: Product, *, mass_g: float, temperature_C: float, bed_mm: float) -> CupHeat | None:
    """Return the heat of a mix where it is worth showing: above 40 g, or when it comes to 60 °C; else None.

    A ready adhesive makes no heat: None.
    """
    if not product.is_two_part:
        return None
    in_cup = exotherm(product, mass_g=mass_g, temperature_C=temperature_C)
    if not in_cup.worth_showing:
        return None
    cups = cups_needed(product, mass_g=mass_g, temperature_C=temperature_C) if in_cup.runs_away else 1
    spread = exotherm(product, mass_g=mass_g, temperature_C=temperature_C, spread_mm=bed_mm)
    return CupHeat(in_cup, spread, cups)


def check_cup(product: Product, *, mass_g: float, temperature_C: float, bed_mm: float) -> None:
    """Raise RunsAway where one cup of this mass would run away."""
    heat = cup_heat(product, mass_g=mass_g, temperature_C=temperature_C, bed_mm=bed_mm)
    if heat is not None and heat.cups > 1:
        raise RunsAway(mass_g, heat.cups, temperature_C)

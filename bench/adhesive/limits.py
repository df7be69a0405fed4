"""What may be asked of an adhesive at all: its temperatures, and masses that a cup can hold."""

from __future__ import annotations

from bench.adhesive.faults import AmountNotAllowed, OutsideRange
from bench.adhesive.product import Product
from bench.speech import say

LARGEST_MIX_G = 20_000.0


def check_temperature(product: Product, temperature_C: float, *, bottles: bool = False) -> None:
    """Raise OutsideRange unless the product may be used at this temperature of the room, or the bottles."""
    low_C, high_C = product.range_C
    if not low_C <= temperature_C <= high_C:
        raise OutsideRange(product.name, temperature_C, product.range_C, bottles=bottles)


def check_mass(mass_g: float) -> None:
    """Raise AmountNotAllowed unless this can be the mass of a mix: above 0, up to 20 kg."""
    if not 0 < mass_g <= LARGEST_MIX_G:
        what = say("a mix of {mass_g:g} g is not allowed", mass_g=mass_g)
        todo = say("give the grams of resin and hardener together, up to {most_g:g}", most_g=LARGEST_MIX_G)
        raise AmountNotAllowed("mix_g", mass_g, what, todo)

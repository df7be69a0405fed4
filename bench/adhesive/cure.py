"""When a section is firm, may be handled, and may be grouted."""

from __future__ import annotations

from typing import Literal

from bench.adhesive.kinetics import arrhenius
from bench.adhesive.limits import check_temperature
from bench.adhesive.product import Product

Stage = Literal["firm", "handle", "grout"]
STAGES: tuple[Stage, ...] = ("firm", "handle", "grout")


def cure_s(product: Product, stage: Stage, temperature_C: float) -> float:
    """Return the time from first contact to a stage of the cure at a steady room temperature. [s]

    The data sheet's hours by Arrhenius: longer in the cold, shorter in the warm. A thin bed follows the
    room, so the mass plays no part. Raises OutsideRange where the product may not be used: an adhesive
    below its range may never cure.
    """
    check_temperature(product, temperature_C)
    hours = {"firm": product.cure.firm_h, "handle": product.cure.handle_h, "grout": product.cure.grout_h}
    faster = arrhenius(product.activation_kJ_per_mol, from_C=product.cure.temperature_C, to_C=temperature_C)
    return hours[stage] * 3600 / faster

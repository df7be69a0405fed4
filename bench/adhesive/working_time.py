"""How long a mix can be worked: the label's minutes, shortened by warmth and by mass, never lengthened."""

from __future__ import annotations

from bench.adhesive.faults import AmountNotAllowed, OutsideRange
from bench.adhesive.heat import heat_limit_s
from bench.adhesive.kinetics import arrhenius
from bench.adhesive.product import Product


def working_time_s(product: Product, *, temperature_C: float, mass_g: float) -> float:
    """Return how long a mix of this mass can be worked at this room temperature. [s]

    The least of three: the label's time; the label's time by Arrhenius at this temperature; the time at
    which the cup's own heat has taken it as far as the label lets it go. So colder or smaller never
    lengthens. Of a ready adhesive, which makes no heat, the open time. Raises OutsideRange where the
    product may not be used, AmountNotAllowed for a mass that is none.
    """
    check_temperature(product, temperature_C)
    check_mass(mass_g)
    label_s = product.working_time.minutes * 60
    test_C = product.working_time.test_temperature_C
    by_temperature_s = label_s / arrhenius(product.activation_kJ_per_mol, from_C=test_C, to_C=temperature_C)
    if not product.is_two_part:
        return min(label_s, by_temperature_s)
    return min(label_s, by_temperature_s, heat_limit_s(product, temperature_C=temperature_C, mass_g=mass_g))


def film_open_s(product: Product, temperature_C: float) -> float | None:
    """Return how long the spread film stays open, the second clock; None where no label gives it. [s]

    A film stays at room temperature, so its mass plays no part; colder never lengthens it either.
    """
    check_temperature(product, temperature_C)
    minutes = product.working_time.film_open_minutes
    if minutes is None:
        return None
    test_C = product.working_time.test_temperature_C
    faster = arrhenius(product.activation_kJ_per_mol, from_C=test_C, to_C=temperature_C)
    return minutes * 60 / max(1.0, faster)


def check_temperature(product: Product, temperature_C: float) -> None:
    """Raise OutsideRange unless the product may be used at this temperature."""
    low_C, high_C = product.range_C
    if not low_C <= temperature_C <= high_C:
        raise OutsideRange(product.name, temperature_C, product.range_C)


def check_mass(mass_g: float) -> None:
    """Raise AmountNotAllowed unless this can be the mass of a mix: above 0, up to 10 kg."""
    if not 0 < mass_g <= 10_000:
        todo = "give the grams of resin and hardener together, up to 10000"
        raise AmountNotAllowed("mix_g", mass_g, f"a mix of {mass_g:g} g is not allowed", todo)

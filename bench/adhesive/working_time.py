"""How long a mix can be worked: the label's minutes, shortened by warmth and by mass, never lengthened."""

from __future__ import annotations

from bench.adhesive.kinetics import arrhenius
from bench.adhesive.limits import check_mass, check_temperature
from bench.adhesive.product import Product


def working_time_s(
    product: Product, *, temperature_C: float, mass_g: float, mix_C: float | None = None
) -> float:
    """Return how long a mix of this mass can be worked at this room temperature. [s]

    The least of three: the label's time; the label's time by Arrhenius at this temperature; the time at
    which the cup's own heat has taken it as far as the label lets it go. So colder or smaller never
    lengthens. Of a ready adhesive, which makes no heat, the open time. mix_C: the temperature of bottles
    that were kept warm or cold; warm ones shorten, cold ones are credited with nothing. Raises
    OutsideRange where the product may not be used, room or bottles, AmountNotAllowed for a mass that is
    none.
    """
    warmest_C = temperature_C if mix_C is None else max(temperature_C, mix_C)
    check_temperature(product, temperature_C)
    if mix_C is not None:
        check_temperature(product, mix_C, bottles=True)
    check_mass(mass_g)
    least_s = product.working_time.minutes * 60 / _faster(product, warmest_C)
    if not product.is_two_part:
        return least_s
    from bench.adhesive.heat import heat_limit_s  # its tables cost a start more than the rest of this

    return min(least_s, heat_limit_s(product, temperature_C=temperature_C, mass_g=mass_g, mix_C=warmest_C))


def film_open_s(product: Product, temperature_C: float) -> float | None:
    """Return how long the spread film stays open, the second clock; None where no label gives it. [s]

    A film keeps to the room's temperature, so its mass plays no part; colder never lengthens it either.
    """
    check_temperature(product, temperature_C)
    minutes = product.working_time.film_open_minutes
    return None if minutes is None else minutes * 60 / _faster(product, temperature_C)


def _faster(product: Product, temperature_C: float) -> float:
    """Return how many times faster it goes than at the label's temperature, at least 1."""
    test_C = product.working_time.test_temperature_C
    return max(1.0, arrhenius(product.activation_kJ_per_mol, from_C=test_C, to_C=temperature_C))

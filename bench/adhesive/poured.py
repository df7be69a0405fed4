"""What is in the cup: how far off the ratio may be, and what to add."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.adhesive.faults import AmountNotAllowed
from bench.adhesive.part_words import part_word
from bench.adhesive.product import Product
from bench.adhesive.scale import USUAL_SCALE, Scale, checked_pour_g
from bench.speech import said, say


@dataclass(frozen=True)
class Poured:
    """Both readings judged. ratio_error: signed, + too much hardener, as a fraction of the ratio.

    worst_ratio_error adds what the scale may hide. At most one of the two amounts to add is above 0,
    and both are 0 while the readings themselves are within tolerance.
    """

    resin_g: float
    hardener_g: float
    ratio_error: float
    worst_ratio_error: float
    within_tolerance: bool
    resin_to_add_g: float
    hardener_to_add_g: float


def judge_poured(
    product: Product, *, resin_g: float, hardener_g: float, scale: Scale = USUAL_SCALE
) -> Poured:
    """Return how far the cup is off its ratio, and the resin or hardener that puts it right.

    worst = the deviation of the readings, with half a step against it on each (a whole step on the
    second of a cumulative scale). Too much hardener cannot be taken out: resin is added. Raises
    AmountNotAllowed when there is no resin, or a ready adhesive is given a hardener.
    """
    if not product.is_two_part:
        what = say("a ready adhesive takes no hardener")
        todo = say("{name} is used as it is", name=said(product.name))
        raise AmountNotAllowed("poured_hardener_g", hardener_g, what, todo)
    if resin_g == 0 < hardener_g:
        needed_g = scale.nearest_g(hardener_g / product.mass_ratio)
        what = say("the hardener is in the cup before the resin: {mass_g:g} g", mass_g=hardener_g)
        todo = say("pour {mass_g:g} g of resin onto it", mass_g=needed_g)
        raise AmountNotAllowed("poured_resin_g", resin_g, what, todo)
    ratio = product.mass_ratio
    checked_pour_g("poured_resin_g", resin_g)
    checked_pour_g("poured_hardener_g", hardener_g)
    error = hardener_g / (resin_g * ratio) - 1
    worst = _worst(resin_g, hardener_g, ratio, scale)
    off = abs(error) > product.tolerance + 1e-12
    return Poured(
        resin_g=resin_g,
        hardener_g=hardener_g,
        ratio_error=error,
        worst_ratio_error=worst,
        within_tolerance=worst <= product.tolerance,
        resin_to_add_g=max(0.0, scale.nearest_g(hardener_g / ratio - resin_g)) if off else 0.0,
        hardener_to_add_g=max(0.0, scale.nearest_g(resin_g * ratio - hardener_g)) if off else 0.0,
    )


def poured_words(poured: Poured, *, tolerance: float) -> tuple[str, str]:
    """Return how far the cup is off its ratio in words, and what to do about it, "" for nothing.

    Rounded to whole percent, away from 0, so that nothing off is called right. Where the readings are
    within tolerance but the scale may hide more than that, it is said; where what is missing is less than
    a step of the scale, too.
    """
    error = poured.ratio_error
    percent = math.ceil(100 * abs(error) - 1e-9)
    told = say("The ratio is right")
    if percent:
        told = (
            say("{percent} % too much hardener", percent=percent)
            if error > 0
            else say("{percent} % too little hardener", percent=percent)
        )
    if abs(error) > tolerance + 1e-12:
        for part, add_g in (("resin", poured.resin_to_add_g), ("hardener", poured.hardener_to_add_g)):
            if add_g > 0:
                return told, say("Add {add_g:g} g of {part}.", add_g=add_g, part=part_word(part))
        return told, say("Less is missing than the scale can show: mix more, or use a finer scale.")
    if poured.within_tolerance:
        return say("{ratio}, within {tolerance:g} %", ratio=told, tolerance=100 * tolerance), ""
    if not math.isfinite(poured.worst_ratio_error):
        return told, say("This scale cannot show whether it is so: use a finer one.")
    hidden = math.ceil(100 * poured.worst_ratio_error - 1e-9)
    return told, say("The scale may hide up to {hidden} %: use a finer one next time.", hidden=hidden)


def _worst(resin_g: float, hardener_g: float, ratio: float, scale: Scale) -> float:
    half_g, second_g = scale.step_g / 2, scale.second_reading_g
    if resin_g <= half_g:
        return math.inf
    most = (hardener_g + second_g) / ((resin_g - half_g) * ratio) - 1
    least = 1 - max(0.0, hardener_g - second_g) / ((resin_g + half_g) * ratio)
    return max(most, least)

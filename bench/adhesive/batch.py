"""One batch: how much resin and hardener for an area of bed, and what the scale makes of the ratio."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.adhesive.product import Product
from bench.adhesive.scale import USUAL_SCALE, Scale, checked_pour_g, sane
from bench.speech import say

MOST_JOINED = 1.5  # of a small section: another that may be joined to it


@dataclass(frozen=True)
class Batch:
    """What to pour. resin_g + hardener_g is total_g exactly; hardener_target_g is before rounding."""

    bed_area_mm2: float
    volume_cm3: float
    mixed_density_g_per_cm3: float
    resin_g: float
    hardener_g: float
    total_g: float
    hardener_target_g: float
    worst_ratio_error: float
    scale_ok: bool
    smallest_batch_g: float


@dataclass(frozen=True)
class Rung:
    """One line of the ladder: with so much resin, so much hardener. [g]"""

    resin_g: float
    hardener_g: float


def prescribe(
    product: Product,
    *,
    bed_area_mm2: float,
    bed_mm: float = 0.8,
    waste: float = 0.1,
    residue_g: float = 1.5,
    scale: Scale = USUAL_SCALE,
    poured_resin_g: float | None = None,
) -> Batch:
    """Return the batch for a bed: M = area * thickness * density * (1 + waste) + residue.

    bed_area_mm2: the whole section for a spread bed, the glass alone for buttered pieces. waste: a
    fraction of the bed; residue_g: what stays on cup and stick. The resin is prescribed on the scale's
    steps, at least one; the hardener follows it, or the resin actually poured. A ready adhesive has no
    hardener, and nothing that could be off. Raises AmountNotAllowed for a figure that is not sane.
    """
    _check_bed(bed_area_mm2, bed_mm, waste, residue_g)
    density = product.mixed_density_g_per_cm3
    volume_cm3 = bed_area_mm2 * bed_mm / 1000
    if poured_resin_g is None:
        wanted_g = volume_cm3 * density * (1 + waste) + residue_g
        resin_g = max(scale.step_g, scale.nearest_g(wanted_g / (1 + product.mass_ratio)))
    else:
        resin_g = checked_pour_g("poured_resin_g", poured_resin_g)
    target_g = resin_g * product.mass_ratio
    hardener_g = scale.nearest_g(target_g)
    worst = worst_ratio_error(product, resin_g=resin_g, scale=scale)
    return Batch(
        bed_area_mm2=bed_area_mm2,
        volume_cm3=volume_cm3,
        mixed_density_g_per_cm3=density,
        resin_g=resin_g,
        hardener_g=hardener_g,
        total_g=resin_g + hardener_g,
        hardener_target_g=target_g,
        worst_ratio_error=worst,
        scale_ok=worst <= product.tolerance,
        smallest_batch_g=smallest_batch_g(product, scale),
    )


def _check_bed(bed_area_mm2: float, bed_mm: float, waste: float, residue_g: float) -> None:
    sane("bed_area_mm2", bed_area_mm2, 1e-3, 1e7, say("the area of the bed, more than 0 and up to 10 m²"))
    usual = say("the thickness of the bed in mm; {low:g} to {high:g} is usual", low=0.8, high=1.5)
    sane("bed_mm", bed_mm, 0.1, 10, usual)
    sane("waste", waste, 0, 3, say("waste as a fraction of the bed; {tenth:g} is a tenth", tenth=0.1))
    stays = say("grams that stay on cup and stick; {usual:g} is usual", usual=1.5)
    sane("residue_g", residue_g, 0, 100, stays)


def worst_ratio_error(product: Product, *, resin_g: float, scale: Scale) -> float:
    """Return how far hardener/resin can be off its target, as a fraction, before anything is poured.

    (1 + d/H)/(1 - d/2R) - 1 with the scale's step d, the prescribed hardener H and the resin R: half a
    step of rounding and half a step of reading on the hardener (a whole one on a cumulative scale), half
    a step of reading on the resin. Where H was rounded up by more than that formula grants (a hair below
    half a step), the bound itself. Infinite when R <= d/2 or when H rounds to nothing; 0 for a ready
    adhesive.
    """
    if not product.is_two_part:
        return 0.0
    step_g = scale.step_g
    target_g = resin_g * product.mass_ratio
    hardener_g = scale.nearest_g(target_g)
    if resin_g <= step_g / 2 or hardener_g <= 0:
        return math.inf
    formula = (step_g / 2 + scale.second_reading_g) / hardener_g
    bound = (hardener_g - target_g + scale.second_reading_g) / target_g
    return (1 + max(formula, bound)) / (1 - step_g / (2 * resin_g)) - 1


def smallest_batch_g(product: Product, scale: Scale) -> float:
    """Return the smallest total on this scale whose worst case is within the product's tolerance. [g]

    0 for a ready adhesive. The search starts below the resin at which the unrounded worst case meets the
    tolerance, R = d (k/r + (1 + tol)/2)/tol with k steps on the hardener and the ratio r.
    """
    if not product.is_two_part:
        return 0.0
    ratio, tolerance = product.mass_ratio, product.tolerance
    steps_on_hardener = 0.5 + scale.second_reading_g / scale.step_g
    meets = (steps_on_hardener / ratio + (1 + tolerance) / 2) / tolerance
    steps = max(1, math.floor(meets - 1 / ratio) - 1)
    while worst_ratio_error(product, resin_g=scale.on_step_g(steps), scale=scale) > tolerance:
        steps += 1
    resin_g = scale.on_step_g(steps)
    return resin_g + scale.nearest_g(resin_g * ratio)


def ladder(product: Product, batch: Batch, scale: Scale, rungs: int = 7) -> tuple[Rung, ...]:
    """Return resin -> hardener on the scale's steps around the batch's resin, smallest first.

    The resin that runs out of the bottle a step or three off is then on the ladder, and nothing need be
    typed. Near nothing the ladder starts at one step.
    """
    middle = round(batch.resin_g / scale.step_g)
    first = max(1, middle - rungs // 2)
    resins = (scale.on_step_g(steps) for steps in range(first, first + rungs))
    return tuple(Rung(resin_g, scale.nearest_g(resin_g * product.mass_ratio)) for resin_g in resins)


def scale_advice(product: Product, batch: Batch, scale: Scale) -> str:
    """Return what to do when the scale cannot hold the ratio, in grams; "" when it can.

    Mix more, use the finer scale that holds this little, tare, or join another small section: that only
    where one up to half as large again as this makes the smallest batch.
    """
    if batch.scale_ok:
        return ""
    wants = say(
        "{total_g:.1f} g is too little for a {step_g:g} g scale", total_g=batch.total_g, step_g=scale.step_g
    )
    ways = [say("mix {mass_g:.1f} g", mass_g=batch.smallest_batch_g)]
    finer = [Scale(step_g, scale.cumulative) for step_g in (1, 0.1, 0.01) if step_g < scale.step_g]
    holds = (one for one in finer if smallest_batch_g(product, one) <= batch.total_g)
    ways += [say("use a {step_g:g} g scale", step_g=one.step_g) for one in list(holds)[:1]]
    if scale.cumulative and smallest_batch_g(product, Scale(scale.step_g)) <= batch.total_g:
        ways.append(say("tare between the parts"))
    lacks_g = batch.smallest_batch_g - batch.total_g
    if lacks_g <= MOST_JOINED * batch.total_g:
        ways.append(say("join another section that takes {mass_g:.1f} g", mass_g=lacks_g))
    *most, last = ways
    told = say("{ways}, or {last}", ways=", ".join(most), last=last) if most else last
    return say("{fault}: {ways}.", fault=wants, ways=told)

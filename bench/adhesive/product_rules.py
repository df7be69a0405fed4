"""What must hold between the fields of an adhesive file, each broken rule worded for a person."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError

if TYPE_CHECKING:
    from bench.adhesive.product import Product, RatioTable

RATIO_SPAN = (0.01, 10.0)
RATIO_WAYS = "by_mass = [resin, hardener], by_volume = [resin, hardener], or eew_g_per_eq with ahew_g_per_eq"
WEIGH_IT = "weigh 10 ml of it on the scale: the grams divided by 10 are its density"


def refused(kind: str, field: str, what: str, todo: str) -> PydanticCustomError:
    """Return the error of a broken rule. kind: missing, doubled or disagree; field: its dotted name."""
    return PydanticCustomError(f"rule_{kind}", "{what}", {"field": field, "what": what, "todo": todo})


def ratio_is_given_one_way(ratio: RatioTable) -> None:
    resin = {"eew_g_per_eq": ratio.eew_g_per_eq, "eew_blend": ratio.eew_blend}
    hardener = {"ahew_g_per_eq": ratio.ahew_g_per_eq, "ahew_blend": ratio.ahew_blend}
    given = {"by_mass": ratio.by_mass, "by_volume": ratio.by_volume, **resin, **hardener}
    ways = [name for name, value in given.items() if value is not None]
    if not ways:
        raise refused("missing", "ratio", "the mix ratio is missing", f"give {RATIO_WAYS}")
    halves = ([name for name in ways if name in resin], [name for name in ways if name in hardener])
    by_equivalents = sum(map(len, halves)) == len(ways)
    if len(ways) > (2 if by_equivalents and all(halves) else 1):
        what = f"the mix ratio is given as {' and as '.join(ways)}"
        raise refused("doubled", f"ratio.{ways[1]}", what, "keep one way and take out the rest")
    if by_equivalents and not all(halves):
        other = "ahew_g_per_eq" if halves[0] else "eew_g_per_eq"
        todo = f"{ways[0]} alone is no ratio; give both"
        raise refused("missing", f"ratio.{other}", f"ratio.{other} is missing", todo)
    for field, blend in (("eew_blend", ratio.eew_blend), ("ahew_blend", ratio.ahew_blend)):
        if blend is not None and not any(weight for _, weight in blend):
            what = f"nothing in ratio.{field} reacts"
            raise refused("disagree", f"ratio.{field}", what, "give each component's equivalent weight")


def parts_fit_the_kind(product: Product) -> None:
    if product.is_two_part:
        needed: dict[str, tuple[object, str]] = {
            "ratio": (product.ratio, f"give {RATIO_WAYS}"),
            "density.hardener_g_per_cm3": (product.density.hardener_g_per_cm3, WEIGH_IT),
            "working_time.test_mass_g": (
                product.working_time.test_mass_g,
                "a working time means nothing without the mass it was measured with; many labels use 100",
            ),
        }
        for field, (value, todo) in needed.items():
            if value is None:
                raise refused("missing", field, f"{field} is missing", todo)
        return
    idle: dict[str, object] = {
        "ratio": product.ratio,
        "density.hardener_g_per_cm3": product.density.hardener_g_per_cm3,
        "hazard.hardener": product.hazard.hardener,
    }
    for field, value in idle.items():
        if value is not None:
            what = f'{field} is given, but kind = "ready" has no hardener'
            raise refused("disagree", field, what, 'take it out, or set kind = "two-part"')


def ratio_is_sane(product: Product) -> None:
    if product.ratio is None:
        return
    densities = (product.density.resin_g_per_cm3, product.density.hardener_g_per_cm3)
    if product.ratio.by_mass == densities and densities[0] != densities[1]:
        what = f"ratio.by_mass = {list(densities)} repeats the two densities"
        raise refused(
            "disagree", "ratio.by_mass", what, "give grams of resin and of hardener, e.g. [100, 50]"
        )
    if not RATIO_SPAN[0] <= product.mass_ratio <= RATIO_SPAN[1]:
        what = f"the mix ratio comes to {product.mass_ratio:.3g} g of hardener for each gram of resin"
        todo = f"it is {RATIO_SPAN[0]:g} to {RATIO_SPAN[1]:g}; give resin first, then hardener"
        raise refused("disagree", "ratio", what, todo)


def range_holds_the_test(product: Product) -> None:
    low_C, high_C = product.range_C
    field = "working_time.range_C"
    if not low_C < high_C:
        raise refused(
            "disagree", field, f"{field} = [{low_C:g}, {high_C:g}] is upside down", "give the colder first"
        )
    test_C = product.working_time.test_temperature_C
    if not low_C <= test_C <= high_C:
        what = f"{field} = [{low_C:g}, {high_C:g}] leaves out test_temperature_C = {test_C:g}"
        raise refused("disagree", field, what, "check both against the data sheet, in °C")


def cure_goes_forward(product: Product) -> None:
    cure = product.cure
    if not cure.firm_h <= cure.handle_h <= cure.grout_h:
        hours = f"firm_h {cure.firm_h:g}, handle_h {cure.handle_h:g}, grout_h {cure.grout_h:g}"
        raise refused(
            "disagree",
            "cure",
            f"the cure goes backward: {hours}",
            "give hours from first contact, each at least the one before",
        )
    if cure.firm_h * 60 <= product.working_time.minutes:
        minutes = product.working_time.minutes
        what = f"cure.firm_h = {cure.firm_h:g} ends before the working time of {minutes:g} min"
        raise refused(
            "disagree", "cure.firm_h", what, "give the cure in hours and the working time in minutes"
        )


def service_is_sane(product: Product) -> None:
    if product.service is None:
        return
    low_C, high_C = product.service.range_C
    if not low_C < high_C:
        field = "service.range_C"
        what = f"{field} = [{low_C:g}, {high_C:g}] is upside down"
        raise refused("disagree", field, what, "give the colder first")

"""What must hold between the fields of an adhesive file, each broken rule worded for a person."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING

from pydantic_core import PydanticCustomError

from bench.speech import say

if TYPE_CHECKING:
    from bench.adhesive.product import Product, RatioTable

RATIO_SPAN = (0.01, 10.0)


def ratio_ways() -> str:
    """Say in which ways a file may give the mix ratio."""
    return say(
        "by_mass = [resin, hardener], by_volume = [resin, hardener], or eew_g_per_eq with ahew_g_per_eq"
    )


def weigh_it() -> str:
    """Say how a density is found."""
    return say("weigh 10 ml of it on the scale: the grams divided by 10 are its density")


def written(value: float) -> str:
    """Return a number as a file has it: with a point, whatever mark is spoken."""
    return f"{value:g}"


def _missing(field: str) -> str:
    return say("{field} is missing", field=field)


def _is_given(field: str, low: float, high: float) -> str:
    return f"{field} = [{written(low)}, {written(high)}]"


def refused(kind: str, field: str, what: str, todo: str) -> PydanticCustomError:
    """Return the error of a broken rule. kind: missing, doubled or disagree; field: its dotted name."""
    return PydanticCustomError(f"rule_{kind}", "{what}", {"field": field, "what": what, "todo": todo})


def ratio_is_given_one_way(ratio: RatioTable) -> None:
    resin = {"eew_g_per_eq": ratio.eew_g_per_eq, "eew_blend": ratio.eew_blend}
    hardener = {"ahew_g_per_eq": ratio.ahew_g_per_eq, "ahew_blend": ratio.ahew_blend}
    given = {"by_mass": ratio.by_mass, "by_volume": ratio.by_volume, **resin, **hardener}
    ways = [name for name, value in given.items() if value is not None]
    if not ways:
        raise refused(
            "missing", "ratio", say("the mix ratio is missing"), say("give {allowed}", allowed=ratio_ways())
        )
    halves = ([name for name in ways if name in resin], [name for name in ways if name in hardener])
    by_equivalents = sum(map(len, halves)) == len(ways)
    if len(ways) > (2 if by_equivalents and all(halves) else 1):
        told = reduce(lambda this, that: say("{this} and as {that}", this=this, that=that), ways)
        what = say("the mix ratio is given as {ways}", ways=told)
        raise refused("doubled", f"ratio.{ways[1]}", what, say("keep one way and take out the rest"))
    if by_equivalents and not all(halves):
        other = "ahew_g_per_eq" if halves[0] else "eew_g_per_eq"
        todo = say("{field} alone is no ratio; give both", field=ways[0])
        raise refused("missing", f"ratio.{other}", _missing(f"ratio.{other}"), todo)
    for field, blend in (("eew_blend", ratio.eew_blend), ("ahew_blend", ratio.ahew_blend)):
        if blend is not None and not any(weight for _, weight in blend):
            what = say("nothing in {field} reacts", field=f"ratio.{field}")
            todo = say("give each component's equivalent weight")
            raise refused("disagree", f"ratio.{field}", what, todo)


def parts_fit_the_kind(product: Product) -> None:
    if product.is_two_part:
        needed: dict[str, tuple[object, str]] = {
            "ratio": (product.ratio, say("give {allowed}", allowed=ratio_ways())),
            "density.hardener_g_per_cm3": (product.density.hardener_g_per_cm3, weigh_it()),
            "working_time.test_mass_g": (
                product.working_time.test_mass_g,
                say(
                    "a working time means nothing without the mass it was measured with; many labels use 100"
                ),
            ),
        }
        for field, (value, todo) in needed.items():
            if value is None:
                raise refused("missing", field, _missing(field), todo)
        return
    idle: dict[str, object] = {
        "ratio": product.ratio,
        "density.hardener_g_per_cm3": product.density.hardener_g_per_cm3,
        "hazard.hardener": product.hazard.hardener,
    }
    for field, value in idle.items():
        if value is not None:
            what = say('{field} is given, but kind = "ready" has no hardener', field=field)
            raise refused("disagree", field, what, say('take it out, or set kind = "two-part"'))


def ratio_is_sane(product: Product) -> None:
    if product.ratio is None:
        return
    densities = (product.density.resin_g_per_cm3, product.density.hardener_g_per_cm3)
    if product.ratio.by_mass == densities and densities[0] != densities[1]:
        what = say("ratio.by_mass = {parts} repeats the two densities", parts=str(list(densities)))
        todo = say("give grams of resin and of hardener, e.g. [100, 50]")
        raise refused("disagree", "ratio.by_mass", what, todo)
    if not RATIO_SPAN[0] <= product.mass_ratio <= RATIO_SPAN[1]:
        what = say(
            "the mix ratio comes to {mass_g:.3g} g of hardener for each gram of resin",
            mass_g=product.mass_ratio,
        )
        least, most = RATIO_SPAN
        todo = say("it is {least:g} to {most:g}; give resin first, then hardener", least=least, most=most)
        raise refused("disagree", "ratio", what, todo)


def range_holds_the_test(product: Product) -> None:
    low_C, high_C = product.range_C
    field = "working_time.range_C"
    if not low_C < high_C:
        raise _upside_down(field, low_C, high_C)
    test_C = product.working_time.test_temperature_C
    if not low_C <= test_C <= high_C:
        what = say(
            "{given} leaves out test_temperature_C = {test}",
            given=_is_given(field, low_C, high_C),
            test=written(test_C),
        )
        raise refused("disagree", field, what, say("check both against the data sheet, in °C"))


def cure_goes_forward(product: Product) -> None:
    cure = product.cure
    if not cure.firm_h <= cure.handle_h <= cure.grout_h:
        what = say(
            "the cure goes backward: firm_h {firm}, handle_h {handle}, grout_h {grout}",
            firm=written(cure.firm_h),
            handle=written(cure.handle_h),
            grout=written(cure.grout_h),
        )
        todo = say("give hours from first contact, each at least the one before")
        raise refused("disagree", "cure", what, todo)
    if cure.firm_h * 60 <= product.working_time.minutes:
        minutes = product.working_time.minutes
        what = say(
            "cure.firm_h = {firm} ends before the working time of {minutes:g} min",
            firm=written(cure.firm_h),
            minutes=minutes,
        )
        todo = say("give the cure in hours and the working time in minutes")
        raise refused("disagree", "cure.firm_h", what, todo)


def service_is_sane(product: Product) -> None:
    if product.service is None:
        return
    low_C, high_C = product.service.range_C
    if not low_C < high_C:
        raise _upside_down("service.range_C", low_C, high_C)


def _upside_down(field: str, low_C: float, high_C: float) -> PydanticCustomError:
    what = say("{given} is upside down", given=_is_given(field, low_C, high_C))
    return refused("disagree", field, what, say("give the colder first"))

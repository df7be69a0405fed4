"""Adhesives for tests: one plain file to change field by field, and every legal one for Hypothesis."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import assume
from hypothesis import strategies as st

from bench.adhesive.product import Product
from bench.resources import resource

EXAMPLE = """\
name = "Example paste, white"
kind = "two-part"
colour = "white"
[ratio]
by_mass = [100, 50]
[density]
resin_g_per_cm3 = 1.55
hardener_g_per_cm3 = 1.48
[working_time]
minutes = 32
test_mass_g = 100
test_temperature_C = 23
[cure]
firm_h = 4
handle_h = 8
grout_h = 24
temperature_C = 23
[hazard.resin]
statements = ["H315", "H317", "H319", "H411", "EUH205"]
[hazard.hardener]
statements = ["H314", "H317"]
[hazard]
revision = "GHS 10"
"""
CHECKS: dict[str, Any] = json.loads(resource("shared", "adhesive_check_values.json").read_text("utf-8"))


def example(swap: dict[str, str] | None = None) -> bytes:
    """Return the example file with pieces of its text replaced; each must be there."""
    text = EXAMPLE
    for old, new in (swap or {}).items():
        assert old in text, old
        text = text.replace(old, new, 1)
    return text.encode()


def rounded(low: float, high: float, digits: int = 3) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda value: min(high, max(low, round(value, digits))))


@st.composite
def ratio_tables(draw: st.DrawFn) -> dict[str, Any]:
    way = draw(st.sampled_from(["by_mass", "by_volume", "equivalents", "blend"]))
    tolerance = draw(st.sampled_from([0.02, 0.05, 0.1]))
    if way == "equivalents":
        eew, ahew = draw(rounded(150, 600)), draw(rounded(15, 300))
        return {"eew_g_per_eq": eew, "ahew_g_per_eq": ahew, "tolerance": tolerance}
    if way == "blend":
        thinner = draw(st.sampled_from([0.0, 230.0]))
        blend = ((draw(rounded(50, 90)), 190.0), (draw(rounded(5, 40)), thinner))
        return {"eew_blend": blend, "ahew_g_per_eq": draw(rounded(15, 300)), "tolerance": tolerance}
    resin, hardener = draw(rounded(1, 100)), draw(rounded(1, 100))
    return {way: (resin, min(max(hardener, resin / 20), resin * 4)), "tolerance": tolerance}


@st.composite
def two_part_products(draw: st.DrawFn) -> Product:
    """Draw any two-part adhesive that a label could describe."""
    minutes = draw(rounded(3, 480, 1))
    firm_h = min(300.0, minutes / 60 * draw(rounded(1.5, 10)))
    test_C = draw(rounded(15, 30, 1))
    ratio = draw(ratio_tables())
    densities = [draw(rounded(0.9, 2.2)), draw(rounded(0.9, 2.2))]
    # densities given as the ratio are taken for a slip of the pen, and refused
    assume(densities not in [list(given) for given in ratio.values() if isinstance(given, list | tuple)])
    return Product.model_validate(
        {
            "name": "Any",
            "kind": "two-part",
            "colour": draw(st.sampled_from(["clear", "white", "tinted"])),
            "form": draw(st.sampled_from([None, "liquid", "paste"])),
            "shelf_life_months": draw(st.none() | st.integers(1, 240)),
            "service": draw(st.none() | st.just({"range_C": (-20.0, 60.0)})),
            "ratio": ratio,
            "density": dict(zip(("resin_g_per_cm3", "hardener_g_per_cm3"), densities, strict=True)),
            "working_time": {
                "minutes": minutes,
                "test_mass_g": draw(rounded(5, 1000, 1)),
                "test_temperature_C": test_C,
                "activation_kJ_per_mol": draw(st.none() | rounded(31, 69)),
                "film_open_minutes": draw(st.none() | rounded(1, 480, 1)),
            },
            "cure": {
                "firm_h": firm_h,
                "handle_h": min(320.0, firm_h * draw(rounded(1, 3))),
                "grout_h": 336.0,
                "temperature_C": test_C,
            },
            "hazard": {
                "resin": {"statements": draw(codes())},
                "hardener": draw(st.none() | st.fixed_dictionaries({"statements": codes()})),
                "revision": "GHS 10",
            },
        }
    )


def codes() -> st.SearchStrategy[tuple[str, ...]]:
    some = st.sampled_from(["H302", "H314", "H315", "H317", "H318", "H319", "H334", "H411", "EUH205", "H999"])
    return st.lists(some, unique=True, max_size=8).map(tuple)

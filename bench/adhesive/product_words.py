"""Say in one line what is wrong with an adhesive file: the field, its value, and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError

from bench.adhesive import faults
from bench.adhesive.product import ACTIVATION_SPAN_KJ_PER_MOL, Product
from bench.adhesive.product_rules import RATIO_WAYS, WEIGH_IT

_DENSITY = "the density in g/cm³, from 0.5 to 4"
_HOURS = "hours from first contact, up to 336"
_CELSIUS = "degrees Celsius, from -10 to 60"
_PARTS = "two numbers in brackets, parts of resin, then of hardener, e.g. [100, 50]"
_BLEND = "pairs of parts by mass and equivalent weight, e.g. [[80, 189], [20, 0]]; 0 where it does not react"
_CODES = 'the codes on the label in quotes and brackets, e.g. ["H315", "H317"], or [] where it has none'
_LOW_KJ, _HIGH_KJ = ACTIVATION_SPAN_KJ_PER_MOL

# What each field takes, for the end of the sentence "give ...".
ALLOWED: Mapping[str, str] = {
    "name": "the name on the tin in quotes, up to 80 characters",
    "kind": '"two-part" or "ready"',
    "colour": '"clear", "white" or "tinted"',
    "form": '"liquid" or "paste"',
    "shelf_life_months": "whole months unopened, from 1 to 240",
    "typical": "true or false",
    "ratio": f"a table [ratio] with {RATIO_WAYS}",
    "ratio.by_mass": _PARTS,
    "ratio.by_volume": _PARTS.replace("[100, 50]", "[2, 1]"),
    "ratio.eew_g_per_eq": "the epoxy equivalent weight in g/eq, from 10 to 10000",
    "ratio.ahew_g_per_eq": "the amine hydrogen equivalent weight in g/eq, from 10 to 10000",
    "ratio.eew_blend": _BLEND,
    "ratio.ahew_blend": _BLEND,
    "ratio.tolerance": "a fraction from 0.005 to 0.25; 0.05 means within 5 %",
    "density": "a table [density] with resin_g_per_cm3 and hardener_g_per_cm3",
    "density.resin_g_per_cm3": _DENSITY,
    "density.hardener_g_per_cm3": _DENSITY,
    "working_time": "a table [working_time] with minutes, test_mass_g and test_temperature_C",
    "working_time.minutes": "minutes, from 3 to 480",
    "working_time.test_mass_g": "the grams it was measured with, from 5 to 5000",
    "working_time.test_temperature_C": _CELSIUS,
    "working_time.method": "the test method in quotes",
    "working_time.film_open_minutes": "minutes, from 1 to 480",
    "working_time.activation_kJ_per_mol": f"kJ/mol, from {_LOW_KJ:g} to {_HIGH_KJ:g}, or leave it out",
    "working_time.range_C": "two temperatures in brackets, each from -10 to 60 °C, e.g. [10, 35]",
    "cure": "a table [cure] with firm_h, handle_h, grout_h and temperature_C",
    "cure.firm_h": _HOURS,
    "cure.handle_h": _HOURS,
    "cure.grout_h": _HOURS,
    "cure.temperature_C": _CELSIUS,
    "service": "a table [service] with range_C",
    "service.range_C": "two temperatures in brackets, each from -60 to 300 °C, e.g. [-20, 60]",
    "hazard": "a table [hazard] with revision, and tables [hazard.resin] and [hazard.hardener]",
    "hazard.resin": "a table [hazard.resin] with statements",
    "hazard.hardener": "a table [hazard.hardener] with statements",
    "hazard.resin.statements": _CODES,
    "hazard.hardener.statements": _CODES,
    "hazard.revision": 'the revision of the GHS that the wording follows, e.g. "GHS 10"',
}


def fault_of(error: ValidationError, where: str) -> faults.AdhesiveFileFault:
    """Return one fault for what pydantic found: a misspelt field before what it leaves missing."""
    found = sorted(error.errors(include_url=False), key=lambda item: _RANK.get(item["type"], 2))
    return _fault(found[0], where)


def faults_of(error: ValidationError, where: str) -> list[faults.AdhesiveFileFault]:
    """Return all faults of what pydantic found, in its order."""
    return [_fault(item, where) for item in error.errors(include_url=False)]


def _fault(item: Mapping[str, Any], where: str) -> faults.AdhesiveFileFault:
    if item["type"].startswith("rule_"):
        return _broken_rule(item["ctx"], item["type"], where)
    field = _field(item["loc"])
    if item["type"] == "extra_forbidden":
        return _unknown(field, where)
    in_list = any(isinstance(part, int) for part in item["loc"])
    if item["type"] == "missing" and not in_list:
        todo = f"give {_allowed(field)}" + (f"; {WEIGH_IT}" if field.startswith("density.") else "")
        return faults.FieldMissing(f"{field} is missing", where=where, todo=todo, field=field)
    says = "holds" if in_list and item["type"] != "missing" else "="
    what = f"{field} {says} {_shown(item['input'])}, which is not allowed"
    return faults.FieldNotAllowed(what, where=where, todo=_todo(field, item["input"]), field=field)


_FAR_OFF = 10**9
_RANK = {"extra_forbidden": 0, "missing": 1}
_RULES = {
    "rule_missing": faults.FieldMissing,
    "rule_doubled": faults.FieldDoubled,
    "rule_disagree": faults.FieldsDisagree,
}


def _broken_rule(context: Mapping[str, Any], kind: str, where: str) -> faults.AdhesiveFileFault:
    return _RULES[kind](context["what"], where=where, todo=context["todo"], field=context["field"])


def _unknown(field: str, where: str) -> faults.FieldUnknown:
    table, _, key = field.rpartition(".")
    known = _keys_of(table)
    near = get_close_matches(key, known, n=1, cutoff=0.7)
    todo = f"did you mean {near[0]}?" if near else f"take it out; allowed here: {', '.join(known)}"
    what = f"{field} is not a field of an adhesive file"
    return faults.FieldUnknown(what, where=where, todo=todo, field=field)


def _keys_of(table: str) -> list[str]:
    model: type[BaseModel] = Product
    for part in filter(None, table.split(".")):
        inner = model.model_fields[part].annotation
        choices = [inner, *getattr(inner, "__args__", ())]
        model = next(one for one in choices if isinstance(one, type) and issubclass(one, BaseModel))
    return list(model.model_fields)


def _field(loc: Sequence[int | str]) -> str:
    """Return the dotted name; the place within a list is left out, the whole list is what to look at."""
    return ".".join(part for part in loc if isinstance(part, str))


def _allowed(field: str) -> str:
    return ALLOWED.get(field, "what an adhesive file takes there")


def _shown(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, int) and abs(value) > _FAR_OFF:
        return "a number of many digits"
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(_shown(item) for item in value)}]"[:60]
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _todo(field: str, value: object) -> str:
    hint = _hint(field, value)
    return f"give {_allowed(field)}" + (f" ({hint})" if hint else "")


def _hint(field: str, value: object) -> str:
    """Guess the slip behind a value: another unit, a number in quotes, a code of another time."""
    if isinstance(value, str):
        return _text_hint(field, value)
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not abs(value) < _FAR_OFF:
        return ""
    hints = (
        (field.endswith("minutes") and 0 < value < 3, f"if hours are meant, that is {value * 60:g} minutes"),
        (field.endswith("minutes") and value > 480, f"if seconds are meant, that is {value / 60:g} minutes"),
        (
            field.startswith("density") and 500 <= value <= 4000,
            f"if kg/m³ is meant, that is {value / 1000:g}",
        ),
        (field.startswith("density") and 4 < value < 500, "is it the mix ratio? that belongs in [ratio]"),
        (field.endswith("test_mass_g") and 0 < value < 5, f"if kg are meant, that is {value * 1000:g} g"),
        (field.endswith("_C") and 60 < value <= 120, f"if °F is meant, that is {(value - 32) / 1.8:.0f} °C"),
        (
            field.endswith("tolerance") and 0.25 < value <= 25,
            f"if percent are meant, that is {value / 100:g}",
        ),
        (field.endswith("kJ_per_mol") and value > 1000, f"if J/mol are meant, that is {value / 1000:g}"),
        (field.startswith("cure") and value > 336, f"if minutes are meant, that is {value / 60:g} hours"),
    )
    return next((hint for applies, hint in hints if applies), "")


def _text_hint(field: str, value: str) -> str:
    if "statements" in field:
        return f"is it {value.strip().upper()}?" if value.strip().upper()[:1] == "H" else ""
    try:
        number = float(value.replace(",", "."))
    except ValueError:
        return ""
    return "" if field == "name" else f"write the number without quotes and with a point: {number:g}"

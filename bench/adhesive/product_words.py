"""Say in one line what is wrong with an adhesive file: the field, its value, and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel, ValidationError

from bench.adhesive import faults
from bench.adhesive.product import ACTIVATION_SPAN_KJ_PER_MOL, Product
from bench.adhesive.product_rules import ratio_ways, weigh_it, written
from bench.speech import say, tongue

_LOW_KJ, _HIGH_KJ = ACTIVATION_SPAN_KJ_PER_MOL


def _allowed(field: str) -> str:
    """Say what a field takes, for the end of the sentence "give ..."."""
    return {**_of_mix(), **_of_times(), **_of_hazards()}.get(field, say("what an adhesive file takes there"))


def _of_mix() -> Mapping[str, str]:
    density = say("the density in g/cm³, from {least} to {most}", least=written(0.5), most=written(4))
    blend = say(
        "pairs of parts by mass and equivalent weight, e.g. [[80, 189], [20, 0]]; 0 where it does not react"
    )
    return {
        "name": say("the name on the tin in quotes, up to 80 characters"),
        "kind": _one_of('"two-part"', '"ready"'),
        "colour": _one_of('"clear"', '"white"', '"tinted"'),
        "form": _one_of('"liquid"', '"paste"'),
        "shelf_life_months": say("whole months unopened, from 1 to 240"),
        "typical": _one_of("true", "false"),
        "ratio": say("a table [ratio] with {ways}", ways=ratio_ways()),
        "ratio.by_mass": _parts("[100, 50]"),
        "ratio.by_volume": _parts("[2, 1]"),
        "ratio.eew_g_per_eq": say("the epoxy equivalent weight in g/eq, from 10 to 10000"),
        "ratio.ahew_g_per_eq": say("the amine hydrogen equivalent weight in g/eq, from 10 to 10000"),
        "ratio.eew_blend": blend,
        "ratio.ahew_blend": blend,
        "ratio.tolerance": say("a fraction from 0.005 to 0.25; 0.05 means within 5 %"),
        "density": say(
            "a table [density] with {fields}", fields=_all_of("resin_g_per_cm3", "hardener_g_per_cm3")
        ),
        "density.resin_g_per_cm3": density,
        "density.hardener_g_per_cm3": density,
    }


def _of_times() -> Mapping[str, str]:
    hours = say("hours from first contact, up to 336")
    celsius = say("degrees Celsius, from -10 to 60")
    return {
        "working_time": say(
            "a table [working_time] with {fields}",
            fields=_all_of("minutes", "test_mass_g", "test_temperature_C"),
        ),
        "working_time.minutes": say("minutes, from 3 to 480"),
        "working_time.test_mass_g": say("the grams it was measured with, from 5 to 5000"),
        "working_time.test_temperature_C": celsius,
        "working_time.method": say("the test method in quotes"),
        "working_time.film_open_minutes": say("minutes, from 1 to 480"),
        "working_time.activation_kJ_per_mol": say(
            "kJ/mol, from {least} to {most}, or leave it out", least=written(_LOW_KJ), most=written(_HIGH_KJ)
        ),
        "working_time.range_C": say(
            "two temperatures in brackets, each from {least} to {most} °C, e.g. {such}",
            least=-10,
            most=60,
            such="[10, 35]",
        ),
        "cure": say(
            "a table [cure] with {fields}", fields=_all_of("firm_h", "handle_h", "grout_h", "temperature_C")
        ),
        "cure.firm_h": hours,
        "cure.handle_h": hours,
        "cure.grout_h": hours,
        "cure.temperature_C": celsius,
        "service": say("a table [service] with {fields}", fields="range_C"),
        "service.range_C": say(
            "two temperatures in brackets, each from {least} to {most} °C, e.g. {such}",
            least=-60,
            most=300,
            such="[-20, 60]",
        ),
    }


def _of_hazards() -> Mapping[str, str]:
    codes = say(
        'the codes on the label in quotes and brackets, e.g. ["H315", "H317"], or [] where it has none'
    )
    return {
        "hazard": say("a table [hazard] with revision, and tables [hazard.resin] and [hazard.hardener]"),
        "hazard.resin": say("a table [hazard.resin] with statements"),
        "hazard.hardener": say("a table [hazard.hardener] with statements"),
        "hazard.resin.statements": codes,
        "hazard.hardener.statements": codes,
        "hazard.revision": say('the revision of the GHS that the wording follows, e.g. "GHS 10"'),
    }


def _parts(such: str) -> str:
    return say("two numbers in brackets, parts of resin, then of hardener, e.g. {such}", such=such)


def _all_of(*fields: str) -> str:
    return say("{this} and {that}", this=", ".join(fields[:-1]), that=fields[-1])


def _one_of(*values: str) -> str:
    return say("{this} or {that}", this=", ".join(values[:-1]), that=values[-1])


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
        todo = say("give {allowed}", allowed=_allowed(field))
        todo = f"{todo}; {weigh_it()}" if field.startswith("density.") else todo
        return faults.FieldMissing(
            say("{field} is missing", field=field), where=where, todo=todo, field=field
        )
    shown = _shown(item["input"])
    if in_list and item["type"] != "missing":
        what = say("{field} holds {value}, which is not allowed", field=field, value=shown)
    else:
        what = say("{field} = {value}, which is not allowed", field=field, value=shown)
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
    if near:
        todo = say("did you mean {field}?", field=near[0])
    else:
        todo = say("take it out; allowed here: {fields}", fields=", ".join(known))
    what = say("{field} is not a field of an adhesive file", field=field)
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


def _shown(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return say("a table")
    if isinstance(value, int) and abs(value) > _FAR_OFF:
        return say("a number of many digits")
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(_shown(item) for item in value)}]"[:60]
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def _todo(field: str, value: object) -> str:
    hint, todo = _hint(field, value), say("give {allowed}", allowed=_allowed(field))
    return f"{todo} ({hint})" if hint else todo


def _hint(field: str, value: object) -> str:
    """Guess the slip behind a value: another unit, a number in quotes, a code of another time."""
    if isinstance(value, str):
        return _text_hint(field, value)
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not abs(value) < _FAR_OFF:
        return ""
    return _number_hint(field, float(value))


def _number_hint(field: str, value: float) -> str:
    """Guess another unit; what is to be written into the file stands there as the file has it."""
    if field.endswith("minutes") and 0 < value < 3:
        return say("if hours are meant, that is {minutes:g} minutes", minutes=value * 60)
    if field.endswith("minutes") and value > 480:
        return say("if seconds are meant, that is {minutes:g} minutes", minutes=value / 60)
    if field.startswith("density") and 500 <= value <= 4000:
        return say("if kg/m³ is meant, that is {value}", value=written(value / 1000))
    if field.startswith("density") and 4 < value < 500:
        return say("is it the mix ratio? that belongs in [ratio]")
    if field.endswith("test_mass_g") and 0 < value < 5:
        return say("if kg are meant, that is {grams:g} g", grams=value * 1000)
    if field.endswith("_C") and 60 < value <= 120 and not tongue().fahrenheit:
        return say("if °F is meant, that is {celsius:.0f} °C", celsius=(value - 32) / 1.8)
    if field.endswith("tolerance") and 0.25 < value <= 25:
        return say("if percent are meant, that is {value}", value=written(value / 100))
    if field.endswith("kJ_per_mol") and value > 1000:
        return say("if J/mol are meant, that is {value}", value=written(value / 1000))
    if field.startswith("cure") and value > 336:
        return say("if minutes are meant, that is {hours:g} hours", hours=value / 60)
    return ""


def _text_hint(field: str, value: str) -> str:
    if "statements" in field:
        code = value.strip().upper()
        return say("is it {code}?", code=code) if code[:1] == "H" else ""
    try:
        number = float(value.replace(",", "."))
    except ValueError:
        return ""
    if field == "name":
        return ""
    return say("write the number without quotes and with a point: {value}", value=written(number))

"""What a label gives, as questions in the order in which it is read out."""

from __future__ import annotations

from typing import Any

from bench.screens.labelling.model import WAY, Number, Option, Question
from bench.speech import plain_temperature, say

REVISIONS = ("GHS 10", "GHS 9", "GHS 8", "GHS 7", "GHS 6", "GHS 5", "GHS 4", "GHS 11")


def _number(key: str, title: str, field: str, unit: str, **more: Any) -> Question:
    return Question(key, "numbers", title, (field,), numbers=(Number(title, unit),), **more)


def _celsius(key: str, title: str, field: str, *, below_zero: bool = False) -> Question:
    number = Number(title, below_zero=below_zero, celsius=True)
    return Question(key, "numbers", title, (field,), numbers=(number,))


def _pair(key: str, field: str, first: Number, second: Number, **more: Any) -> Question:
    return Question(key, "numbers", first.title, (field,), numbers=(first, second), **more)


def questions() -> tuple[Question, ...]:
    """Return all questions in the order in which a label is read out."""
    return (
        Question("name", "letters", say("The name on the tin"), ("name",)),
        *_of_kind(),
        *_of_ratio(),
        *_of_equivalents(),
        *_of_densities(),
        *_of_working_time(),
        *_of_cure(),
        *_of_statements(),
        *_of_the_rest(),
    )


def _of_kind() -> tuple[Question, ...]:
    return (
        Question(
            "kind",
            "choice",
            say("Is it mixed?"),
            ("kind",),
            options=(
                Option("two-part", say("Two parts"), say("Resin and hardener, mixed before use")),
                Option("ready", say("Ready to use"), say("Nothing is mixed")),
            ),
        ),
        Question(
            "colour",
            "choice",
            say("What does it look like?"),
            ("colour",),
            says=say("Under clear glass the bed shows."),
            options=(
                Option("clear", say("Clear")),
                Option("white", say("White")),
                Option("tinted", say("Tinted")),
            ),
        ),
        Question(
            "form",
            "choice",
            say("How does it flow?"),
            ("form",),
            options=(
                Option("liquid", say("Liquid"), say("It runs off the stick")),
                Option("paste", say("Paste"), say("It stands")),
                Option(None, say("It does not say")),
            ),
        ),
    )


def _of_ratio() -> tuple[Question, ...]:
    return (
        Question(
            WAY,
            "choice",
            say("How does it give the mix ratio?"),
            (),
            says=say("By mass is the surest."),
            options=(
                Option("by_mass", say("Parts by mass"), say("So many grams to so many grams")),
                Option("by_volume", say("Parts by volume"), say("So many spoons or millilitres to so many")),
                Option(
                    "equivalents",
                    say("Equivalent weights"),
                    say("EEW and AHEW, from the data sheets of both parts"),
                ),
            ),
            two_part=True,
        ),
        _pair(
            "by_mass",
            "ratio.by_mass",
            Number(say("Parts of resin, by mass")),
            Number(say("Parts of hardener, by mass")),
            two_part=True,
            way="by_mass",
        ),
        _pair(
            "by_volume",
            "ratio.by_volume",
            Number(say("Parts of resin, by volume")),
            Number(say("Parts of hardener, by volume")),
            two_part=True,
            way="by_volume",
        ),
    )


def _of_equivalents() -> tuple[Question, ...]:
    return (
        Question(
            "eew",
            "numbers",
            say("Epoxy equivalent weight of the resin"),
            ("ratio.eew_g_per_eq", "ratio.eew_blend"),
            numbers=(Number(say("Epoxy equivalent weight of the resin"), "g/eq"),),
            blend="ratio.eew_blend",
            two_part=True,
            way="equivalents",
        ),
        Question(
            "ahew",
            "numbers",
            say("Amine hydrogen equivalent weight of the hardener"),
            ("ratio.ahew_g_per_eq", "ratio.ahew_blend"),
            numbers=(Number(say("Amine hydrogen equivalent weight, hardener"), "g/eq"),),
            blend="ratio.ahew_blend",
            two_part=True,
            way="equivalents",
        ),
    )


def _of_densities() -> tuple[Question, ...]:
    return (
        _number(
            "resin_density",
            say("Density of the resin"),
            "density.resin_g_per_cm3",
            "g/cm³",
            weighed="resin",
        ),
        _number(
            "hardener_density",
            say("Density of the hardener"),
            "density.hardener_g_per_cm3",
            "g/cm³",
            weighed="hardener",
            two_part=True,
        ),
    )


def _of_working_time() -> tuple[Question, ...]:
    test = say("{mass_g:g} g at {room}", mass_g=200, room=plain_temperature(23))
    return (
        _number("minutes", say("Working time"), "working_time.minutes", "min"),
        _number(
            "test_mass",
            say("Measured with how much of it?"),
            "working_time.test_mass_g",
            "g",
            two_part=True,
        ),
        _celsius("test_temperature", say("Measured at what temperature?"), "working_time.test_temperature_C"),
        Question(
            "method",
            "choice",
            say("Measured by which method?"),
            ("working_time.method",),
            options=(
                Option("EN 14022", "EN 14022", test),
                Option("ISO 9514", "ISO 9514"),
                Option("ASTM D2471", "ASTM D2471"),
                Option(None, say("It does not say")),
            ),
        ),
        _number(
            "film",
            say("Open time of a spread film"),
            "working_time.film_open_minutes",
            "min",
            may_be_silent=True,
        ),
        _pair(
            "range",
            "working_time.range_C",
            Number(say("May be used from"), below_zero=True, celsius=True),
            Number(say("May be used up to"), below_zero=True, celsius=True),
            may_be_silent=True,
        ),
    )


def _of_cure() -> tuple[Question, ...]:
    return (
        _number("firm", say("Firm after how many hours?"), "cure.firm_h", "h"),
        _number("handle", say("May be handled after how many hours?"), "cure.handle_h", "h"),
        _number("grout", say("May be grouted after how many hours?"), "cure.grout_h", "h"),
        _celsius("cure_temperature", say("Those hours hold at"), "cure.temperature_C", below_zero=True),
        _pair(
            "service",
            "service.range_C",
            Number(say("Once cured it stands cold down to"), below_zero=True, celsius=True),
            Number(say("Once cured it stands heat up to"), below_zero=True, celsius=True),
            may_be_silent=True,
        ),
    )


def _of_statements() -> tuple[Question, ...]:
    resin, hardener = "hazard.resin.statements", "hazard.hardener.statements"
    return (
        Question("resin_codes", "codes", say("What does the resin's label state?"), (resin,)),
        Question(
            "hardener_codes",
            "codes",
            say("What does the hardener's label state?"),
            (hardener,),
            two_part=True,
        ),
        Question(
            "revision",
            "choice",
            say("Which revision of the GHS?"),
            ("hazard.revision",),
            says=say("It stands in section 2 or 16 of the safety data sheet."),
            options=tuple(Option(name, name) for name in REVISIONS),
        ),
    )


def _of_the_rest() -> tuple[Question, ...]:
    return (
        _number(
            "shelf_life", say("Shelf life, unopened"), "shelf_life_months", say("months"), may_be_silent=True
        ),
        _number(
            "tolerance",
            say("The mix ratio may be off by (usually {percent} %)", percent=5),
            "ratio.tolerance",
            "%",
            may_be_silent=True,
            percent=True,
            two_part=True,
        ),
        _number(
            "activation",
            say("Activation energy (usually {energy})", energy=55),
            "working_time.activation_kJ_per_mol",
            "kJ/mol",
            may_be_silent=True,
        ),
    )

"""What a label gives, as questions in the order in which it is read out, and how each answer is said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from bench.adhesive.label import Label

View = Literal["letters", "choice", "numbers", "blend", "codes"]


@dataclass(frozen=True)
class Option:
    """One choice: its value in the file (None: the label does not state it), its name, a line about it."""

    value: Any
    text: str
    says: str = ""


@dataclass(frozen=True)
class Number:
    """What the pad asks for. below_zero: a temperature may be negative."""

    title: str
    unit: str = ""
    below_zero: bool = False


@dataclass(frozen=True)
class Question:
    """One thing on the label. fields: the file's, of which any one answers it; the first is what is typed.

    may_be_silent: the file may leave it out. percent: typed and said as a percentage of what the file has.
    blend: the field that holds a blend instead. weighed: a density,
    which can be found on the bench.
    """

    key: str
    view: View
    title: str
    fields: tuple[str, ...]
    says: str = ""
    options: tuple[Option, ...] = ()
    numbers: tuple[Number, ...] = ()
    may_be_silent: bool = False
    percent: bool = False
    blend: str = ""
    weighed: str = ""
    two_part: bool = False
    way: str = ""


def _number(
    key: str, title: str, field: str, unit: str, *, below_zero: bool = False, **more: Any
) -> Question:
    return Question(key, "numbers", title, (field,), numbers=(Number(title, unit, below_zero),), **more)


def _pair(key: str, field: str, first: Number, second: Number, **more: Any) -> Question:
    return Question(key, "numbers", first.title, (field,), numbers=(first, second), **more)


NAME = Question("name", "letters", "The name on the tin", ("name",))
WAY = Question(
    "way",
    "choice",
    "How does it give the mix ratio?",
    (),
    says="By mass is the surest.",
    options=(
        Option("by_mass", "Parts by mass", "So many grams to so many grams"),
        Option("by_volume", "Parts by volume", "So many spoons or millilitres to so many"),
        Option("equivalents", "Equivalent weights", "EEW and AHEW, from the data sheets of both parts"),
    ),
    two_part=True,
)
QUESTIONS = (
    NAME,
    Question(
        "kind",
        "choice",
        "Is it mixed?",
        ("kind",),
        options=(
            Option("two-part", "Two parts", "Resin and hardener, mixed before use"),
            Option("ready", "Ready to use", "Nothing is mixed"),
        ),
    ),
    Question(
        "colour",
        "choice",
        "What does it look like?",
        ("colour",),
        says="Under clear glass the bed shows.",
        options=(Option("clear", "Clear"), Option("white", "White"), Option("tinted", "Tinted")),
    ),
    Question(
        "form",
        "choice",
        "How does it flow?",
        ("form",),
        options=(
            Option("liquid", "Liquid", "It runs off the stick"),
            Option("paste", "Paste", "It stands"),
            Option(None, "It does not say"),
        ),
    ),
    WAY,
    _pair(
        "by_mass",
        "ratio.by_mass",
        Number("Parts of resin, by mass"),
        Number("Parts of hardener, by mass"),
        two_part=True,
        way="by_mass",
    ),
    _pair(
        "by_volume",
        "ratio.by_volume",
        Number("Parts of resin, by volume"),
        Number("Parts of hardener, by volume"),
        two_part=True,
        way="by_volume",
    ),
    Question(
        "eew",
        "numbers",
        "Epoxy equivalent weight of the resin",
        ("ratio.eew_g_per_eq", "ratio.eew_blend"),
        numbers=(Number("Epoxy equivalent weight of the resin", "g/eq"),),
        blend="ratio.eew_blend",
        two_part=True,
        way="equivalents",
    ),
    Question(
        "ahew",
        "numbers",
        "Amine hydrogen equivalent weight of the hardener",
        ("ratio.ahew_g_per_eq", "ratio.ahew_blend"),
        numbers=(Number("Amine hydrogen equivalent weight, hardener", "g/eq"),),
        blend="ratio.ahew_blend",
        two_part=True,
        way="equivalents",
    ),
    _number("resin_density", "Density of the resin", "density.resin_g_per_cm3", "g/cm³", weighed="resin"),
    _number(
        "hardener_density",
        "Density of the hardener",
        "density.hardener_g_per_cm3",
        "g/cm³",
        weighed="hardener",
        two_part=True,
    ),
    _number("minutes", "Working time", "working_time.minutes", "min"),
    _number(
        "test_mass", "Measured with how much of it?", "working_time.test_mass_g", "g", two_part=True
    ),
    _number(
        "test_temperature", "Measured at what temperature?", "working_time.test_temperature_C", "°C"
    ),
    Question(
        "method",
        "choice",
        "Measured by which method?",
        ("working_time.method",),
        options=(
            Option("EN 14022", "EN 14022", "200 g at 23 °C"),
            Option("ISO 9514", "ISO 9514"),
            Option("ASTM D2471", "ASTM D2471"),
            Option(None, "It does not say"),
        ),
    ),
    _number(
        "film", "Open time of a spread film", "working_time.film_open_minutes", "min", may_be_silent=True
    ),
    _pair(
        "range",
        "working_time.range_C",
        Number("May be used from", "°C", True),
        Number("May be used up to", "°C", True),
        may_be_silent=True,
    ),
    _number("firm", "Firm after how many hours?", "cure.firm_h", "h"),
    _number("handle", "May be handled after how many hours?", "cure.handle_h", "h"),
    _number("grout", "May be grouted after how many hours?", "cure.grout_h", "h"),
    _number("cure_temperature", "Those hours hold at", "cure.temperature_C", "°C", below_zero=True),
    _pair(
        "service",
        "service.range_C",
        Number("Once cured it stands cold down to", "°C", True),
        Number("Once cured it stands heat up to", "°C", True),
        may_be_silent=True,
    ),
    Question("resin_codes", "codes", "What does the resin's label state?", ("hazard.resin.statements",)),
    Question(
        "hardener_codes",
        "codes",
        "What does the hardener's label state?",
        ("hazard.hardener.statements",),
        two_part=True,
    ),
    Question(
        "revision",
        "choice",
        "Which revision of the GHS?",
        ("hazard.revision",),
        says="It stands in section 2 or 16 of the safety data sheet.",
        options=tuple(Option(f"GHS {n}", f"GHS {n}") for n in (10, 9, 8, 7, 6, 5, 4, 11)),
    ),
    _number(
        "shelf_life", "Shelf life, unopened", "shelf_life_months", "months", may_be_silent=True
    ),
    _number(
        "tolerance",
        "The mix ratio may be off by (usually 5 %)",
        "ratio.tolerance",
        "%",
        may_be_silent=True,
        percent=True,
        two_part=True,
    ),
    _number(
        "activation",
        "Activation energy (usually 55)",
        "working_time.activation_kJ_per_mol",
        "kJ/mol",
        may_be_silent=True,
    ),
)


def questions_for(label: Label) -> list[Question]:
    """Return the questions that this label raises, in order."""
    ready = label.get("kind") == "ready"
    return [q for q in QUESTIONS if not (q.two_part and ready) and q.way in ("", label.way)]


def is_answered(label: Label, question: Question) -> bool:
    """Tell whether a question was answered, be it that the label does not say."""
    if question is WAY:
        return bool(label.way)
    return any(label.knows(field) for field in question.fields)


def question_of(label: Label, field: str) -> Question | None:
    """Return the question about a field of the file, or about one within it."""
    asked = questions_for(label)
    for question in asked:
        if any(f == field or f.startswith(f"{field}.") or field.startswith(f"{f}.") for f in question.fields):
            return question
    return WAY if field.startswith("ratio") and WAY in asked else None


def said(label: Label, question: Question) -> str:
    """Say an answer, '–' while there is none."""
    if question is WAY:
        return next((o.text for o in WAY.options if o.value == label.way), "–")
    field = next((f for f in question.fields if f in label.answers), "")
    if not field:
        return "It does not say" if is_answered(label, question) else "–"
    value = label.get(field)
    if field == question.blend:
        return "A blend: " + ", ".join(f"{parts:g} at {weight:g}" for parts, weight in value)
    if question.view == "codes":
        return ", ".join(value)
    if question.view == "numbers":
        values = value if isinstance(value, tuple) else (value,)
        values = tuple(100 * x for x in values) if question.percent else values
        joint = " : " if question.way else " to "
        return f"{joint.join(f'{x:g}' for x in values)} {question.numbers[0].unit}".strip()
    return next((o.text for o in question.options if o.value == value), str(value))

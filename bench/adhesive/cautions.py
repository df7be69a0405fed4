"""What a person must have read before a mix: this product, this batch, this day. At most one screen.

Written short, so that one screen holds it in type that is read at arm's length; the first aid in the
label's own words is a screen of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.adhesive import hazards
from bench.adhesive.heat import cups_needed, exotherm
from bench.adhesive.heat_constants import HOT_C
from bench.adhesive.product import PartHazards, Product
from bench.adhesive.working_time import film_open_s, working_time_s
from bench.speech import plain_temperature, say

_BURNS = "H314"


def first_of_all() -> str:
    """Say what goes before anything that is said here."""
    return say("The product's safety data sheet, local rules and licensed practice.")


def always() -> tuple[str, ...]:
    """Say the four that always stand.

    HSE dermatitis table: nitrile or butyl, EN 374, thin ones at most 30 min.
    """
    return (
        say("Gloves: a fresh nitrile pair each mix, at once if nicked; 30 minutes at most."),
        say("Eyes: goggles to pour, nip or lift. In the eye: rinse for minutes, lenses out, get help."),
        say("Air: window open, up-wind of the cup. Dizzy: out to fresh air."),
        say("Skin: wipe off at once, soap and water. Never solvent on skin."),
    )


def _today() -> tuple[str, ...]:
    """Say what is for the day: common practice, no source; that an allergy to epoxy stays is HSE's advice."""
    return (
        say("Cuts: cover them first. A sliver through the glove: wash, new pair."),
        say("Rash or itch: stop, see a doctor. Sensitisation is for life."),
        say("Swallowed: rinse the mouth, no vomiting, get help."),
        say("Tablet: in its sleeve, changed with the gloves."),
    )


def _afterwards(two_part: bool) -> str:
    if two_part:
        return say(
            "The left-over cup cools outdoors on stone. No resin, hardener, rinsing or grout water down the "
            "drain. No dry sanding before full cure."
        )
    return say(
        "Left-overs harden in the open. No adhesive, rinsing or grout water down the drain. No dry sanding "
        "before full cure."
    )


@dataclass(frozen=True)
class Caution:
    """One short group for a screen: a title, its lines, and the codes of the statements among them."""

    title: str
    lines: tuple[str, ...]
    codes: tuple[str, ...] = ()


def cautions(
    product: Product,
    *,
    temperature_C: float,
    mass_g: float,
    first_today: bool,
    mix_C: float | None = None,
    burns: bool = False,
) -> tuple[Caution, ...]:
    """Return the groups to be read and acknowledged before the gloves go on.

    In full at the first mix of the day (and whenever product, batch or room have changed: the caller
    knows); after that what is new, which is this batch, and the four that always stand. mix_C: the
    bottles', where they were kept warm or cold. burns: the maker looked, and the hardener's label lists
    H314 though the file does not. Raises as `working_time_s` does.
    """
    first = Caution(say("First"), (first_of_all(),))
    batch_says = _this_batch(product, temperature_C, mass_g, mix_C)
    if not first_today:
        return (first, batch_says, Caution(say("As always"), always()))
    product_says = [first, *_parts(product, burns)]
    today = Caution(say("Gloves, eyes, air, skin"), (*always(), *_today()))
    afterwards = Caution(say("Afterwards"), (_afterwards(product.is_two_part),))
    return (*product_says, batch_says, today, afterwards)


def asks_after_hardener(product: Product) -> bool:
    """Whether the maker must look at the hardener's label: the file lists no H314 for it, or nothing."""
    return product.is_two_part and _BURNS not in _codes(product.hazard.hardener)


def _parts(product: Product, burns: bool) -> list[Caution]:
    table = product.hazard
    if not product.is_two_part:
        return [_part(say("The adhesive"), _codes(table.resin), table.revision)]
    resin = _part(say("Resin"), _codes(table.resin), table.revision)
    codes = _codes(table.hardener)
    if not asks_after_hardener(product):
        return [resin, _part(say("Hardener"), codes, table.revision)]
    if burns:
        told = _part(say("Hardener"), codes, table.revision).lines if codes else ()
        lines = (_line(_BURNS), *told)
        return [resin, Caution(_title(say("Hardener"), (_BURNS,), table.revision), lines, (_BURNS, *codes))]
    hardener = _part(say("Hardener"), codes, table.revision)
    ask = say("No H314 is listed: read its label before you open it.")
    return [resin, Caution(hardener.title, (*hardener.lines, ask), hardener.codes)]


def _part(name: str, codes: tuple[str, ...], revision: str) -> Caution:
    lines = [_line(code) for code in codes]
    table = hazards.table_revision()
    if not codes:
        lines = [say("The file lists no statement: read the label.")]
    elif revision != table:
        lines.append(
            say(
                "Worded as in {table}; the label follows {revision} and counts.",
                table=table,
                revision=revision,
            )
        )
    return Caution(_title(name, codes, revision), tuple(lines), codes)


def _title(name: str, codes: tuple[str, ...], revision: str) -> str:
    signal = hazards.signal_word(codes)
    if not signal:
        return say("{part} ({revision})", part=name, revision=revision)
    return say("{part}: {signal} ({revision})", part=name, signal=signal, revision=revision)


def _line(code: str) -> str:
    return f"{code} {hazards.wording(code)}"


def _codes(part: PartHazards | None) -> tuple[str, ...]:
    return part.statements if part else ()


def _this_batch(product: Product, temperature_C: float, mass_g: float, mix_C: float | None) -> Caution:
    minutes = working_time_s(product, temperature_C=temperature_C, mass_g=mass_g, mix_C=mix_C) / 60
    room, whole = plain_temperature(temperature_C), int(minutes)
    if mix_C is None:
        lines = [
            say("{mass_g:.1f} g at {room}: {minutes} minutes.", mass_g=mass_g, room=room, minutes=whole),
        ]
    else:
        lines = [
            say(
                "{mass_g:.1f} g at {room}, bottles at {bottles}: {minutes} minutes.",
                mass_g=mass_g,
                room=room,
                bottles=plain_temperature(mix_C),
                minutes=whole,
            )
        ]
    if product.is_two_part:
        lines += _heat_lines(product, temperature_C, mass_g, mix_C)
    film_s = film_open_s(product, temperature_C)
    if film_s is not None and film_s < minutes * 60:
        lines.append(
            say(
                "The spread film closes after {minutes} minutes: spread palm-sized strips.",
                minutes=int(film_s / 60),
            )
        )
    return Caution(say("This batch"), tuple(lines))


def _heat_lines(product: Product, temperature_C: float, mass_g: float, mix_C: float | None) -> list[str]:
    left = exotherm(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
    if left.to_hot_s is None:
        return [say("A full cup warms itself and goes early, so spread it once stirred.")]
    lines = [
        say(
            "Left in the cup it passes {hot} after about {minutes} minutes.",
            hot=plain_temperature(HOT_C),
            minutes=int(left.to_hot_s / 60),
        ),
        say("Spread it at once; put a cup that warms down outdoors on stone, never hold it or cover it."),
    ]
    if left.runs_away:
        cups = cups_needed(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
        lines.append(
            say(
                "Too much for one cup: mix {cups} cups of {each_g:.1f} g, one after the other.",
                cups=cups,
                each_g=mass_g / cups,
            )
        )
    return lines


def first_aid(product: Product) -> Caution:
    """Return what the label asks for when it has happened, in its own words; advice where it is silent."""
    codes = hazards.first_aid_for((*_codes(product.hazard.resin), *_codes(product.hazard.hardener)))
    lines = tuple(_line(code) for code in codes)
    if not lines:
        lines = (
            say("Eyes: rinse with water for several minutes."),
            say("Feeling unwell: get medical help."),
        )
    return Caution(say("If it happens"), (*lines, say("Take the label along to the doctor.")), codes)

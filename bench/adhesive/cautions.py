"""What a person must have read before a mix: this product, this batch, this day. At most one screen.

Written short, so that one screen holds it in type that is read at arm's length; the first aid in the
label's own words is a screen of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.adhesive import hazards
from bench.adhesive.heat import cups_needed, exotherm
from bench.adhesive.product import PartHazards, Product
from bench.adhesive.working_time import film_open_s, working_time_s

_BURNS = "H314"

FIRST_OF_ALL = "The product's safety data sheet, local rules and licensed practice."
# The four that always stand. HSE dermatitis table: nitrile or butyl, EN 374, thin ones at most 30 min.
ALWAYS = (
    "Gloves: a fresh nitrile pair each mix, at once if nicked; 30 minutes at most.",
    "Eyes: goggles to pour, nip or lift. In the eye: rinse for minutes, lenses out, get help.",
    "Air: window open, up-wind of the cup. Dizzy: out to fresh air.",
    "Skin: wipe off at once, soap and water. Never solvent on skin.",
)
# Of a day: common practice, no source; that an allergy to epoxy stays is HSE's advice.
TODAY = (
    "Cuts: cover them first. A sliver through the glove: wash, new pair.",
    "Rash or itch: stop, see a doctor. Sensitisation is for life.",
    "Swallowed: rinse the mouth, no vomiting, get help.",
    "Tablet: in its sleeve, changed with the gloves.",
)
_AFTERWARDS = "{0} No {1}, rinsing or grout water down the drain. No dry sanding before full cure."
_LEFT_MIXED = "The left-over cup cools outdoors on stone.", "resin, hardener"
_LEFT_READY = "Left-overs harden in the open.", "adhesive"


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
    first = Caution("First", (FIRST_OF_ALL,))
    batch_says = _this_batch(product, temperature_C, mass_g, mix_C)
    if not first_today:
        return (first, batch_says, Caution("As always", ALWAYS))
    product_says = [first, *_parts(product, burns)]
    afterwards = _AFTERWARDS.format(*(_LEFT_MIXED if product.is_two_part else _LEFT_READY))
    today = Caution("Gloves, eyes, air, skin", (*ALWAYS, *TODAY))
    return (*product_says, batch_says, today, Caution("Afterwards", (afterwards,)))


def asks_after_hardener(product: Product) -> bool:
    """Whether the maker must look at the hardener's label: the file lists no H314 for it, or nothing."""
    return product.is_two_part and _BURNS not in _codes(product.hazard.hardener)


def _parts(product: Product, burns: bool) -> list[Caution]:
    if not product.is_two_part:
        return [_part("The adhesive", product.hazard.resin, product.hazard.revision)]
    resin = _part("Resin", product.hazard.resin, product.hazard.revision)
    hardener = _part("Hardener", product.hazard.hardener, product.hazard.revision)
    if burns and asks_after_hardener(product):
        listed = (f"{_BURNS} {hazards.wording(_BURNS)}", *(x for x in hardener.lines if hardener.codes))
        codes = (_BURNS, *hardener.codes)
        title = hardener.title.replace("Warning", "Danger")
        title = title if "Danger" in title else title.replace("Hardener", "Hardener: Danger")
        hardener = Caution(title, listed, codes)
    elif asks_after_hardener(product):
        ask = "No H314 is listed: read its label before you open it."
        hardener = Caution(hardener.title, (*hardener.lines, ask), hardener.codes)
    return [resin, hardener]


def _part(name: str, part: PartHazards | None, revision: str) -> Caution:
    codes = _codes(part)
    lines = [f"{code} {hazards.wording(code)}" for code in codes]
    if not codes:
        lines = ["The file lists no statement: read the label."]
    elif revision != hazards.table_revision():
        lines.append(f"Worded as in {hazards.table_revision()}; the label follows {revision} and counts.")
    signal = hazards.signal_word(codes)
    title = ": ".join(filter(None, (name, signal)))
    return Caution(f"{title} ({revision})", tuple(lines), codes)


def _codes(part: PartHazards | None) -> tuple[str, ...]:
    return part.statements if part else ()


def _this_batch(product: Product, temperature_C: float, mass_g: float, mix_C: float | None) -> Caution:
    minutes = working_time_s(product, temperature_C=temperature_C, mass_g=mass_g, mix_C=mix_C) / 60
    bottles = "" if mix_C is None else f", bottles at {mix_C:g} °C"
    lines = [f"{mass_g:.1f} g at {temperature_C:g} °C{bottles}: {int(minutes)} minutes."]
    if product.is_two_part:
        lines += _heat_lines(product, temperature_C, mass_g, mix_C)
    film_s = film_open_s(product, temperature_C)
    if film_s is not None and film_s < minutes * 60:
        lines.append(f"The spread film closes after {int(film_s / 60)} minutes: spread palm-sized strips.")
    return Caution("This batch", tuple(lines))


def _heat_lines(product: Product, temperature_C: float, mass_g: float, mix_C: float | None) -> list[str]:
    left = exotherm(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
    if left.to_hot_s is None:
        return ["A full cup warms itself and goes early, so spread it once stirred."]
    lines = [
        f"Left in the cup it passes 60 °C after about {int(left.to_hot_s / 60)} minutes.",
        "Spread it at once; put a cup that warms down outdoors on stone, never hold it or cover it.",
    ]
    if left.runs_away:
        cups = cups_needed(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C)
        lines.append(f"Too much for one cup: mix {cups} cups of {mass_g / cups:.1f} g, one after the other.")
    return lines


def first_aid(product: Product) -> Caution:
    """Return what the label asks for when it has happened, in its own words; advice where it is silent."""
    codes = hazards.first_aid_for((*_codes(product.hazard.resin), *_codes(product.hazard.hardener)))
    lines = tuple(f"{code} {hazards.wording(code)}" for code in codes)
    if not lines:
        lines = ("Eyes: rinse with water for several minutes.", "Feeling unwell: get medical help.")
    return Caution("If it happens", (*lines, "Take the label along to the doctor."), codes)

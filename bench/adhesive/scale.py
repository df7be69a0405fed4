"""The scale: its steps, what each reading is worth, and readings that cannot be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.adhesive.faults import AmountNotAllowed
from bench.adhesive.part_words import part_word
from bench.speech import say


def sane(field: str, value: float, low: float, high: float, allowed: str) -> None:
    """Raise AmountNotAllowed unless low <= value <= high; not a number is not allowed either.

    allowed: what may be given, as it is said.
    """
    if not low <= value <= high:
        what = say("{value:g} is not allowed", value=value)
        raise AmountNotAllowed(field, value, what, say("give {allowed}", allowed=allowed))


def checked_pour_g(field: str, mass_g: float) -> float:
    """Return a reading of the scale, or raise AmountNotAllowed where it cannot be one of a batch."""
    part = part_word(field.removeprefix("poured_").removesuffix("_g"))
    if mass_g == 0:
        what = say("the scale shows {mass_g:.1f} g of {part}", mass_g=mass_g, part=part)
        todo = say("wait for the reading, or tap the scale: small ones swallow slow drips and switch off")
        raise AmountNotAllowed(field, mass_g, what, todo)
    allowed = say("the grams of {part} on the scale, up to 5000", part=part)
    if 0 < mass_g < 0.05:
        allowed = say(
            "the grams of {part} on the scale, up to 5000 (if kg are meant, that is {grams:g} g)",
            part=part,
            grams=mass_g * 1000,
        )
    sane(field, mass_g, 0.001, 5000, allowed)
    return mass_g


def checked_reading_g(field: str, mass_g: float, step_g: float) -> float:
    """Return a reading of a scale with this step, or raise AmountNotAllowed: what the scale cannot show.

    Less than a step is what kilograms look like when they are typed for grams.
    """
    checked_pour_g(field, mass_g)
    if mass_g < step_g:
        what = say(
            "{mass_g:g} g is less than the {step_g:g} g that the scale can show", mass_g=mass_g, step_g=step_g
        )
        todo = say("give grams; if kg are meant, that is {grams:g} g", grams=mass_g * 1000)
        raise AmountNotAllowed(field, mass_g, what, todo)
    return mass_g


@dataclass(frozen=True)
class Scale:
    """A kitchen or pocket scale. step_g: the smallest step it shows. [g]

    Tared between the parts, each reading is right to half a step; cumulative, the second mass is the
    difference of two readings and so is known to a whole step only.
    """

    step_g: float = 0.1
    cumulative: bool = False

    def __post_init__(self) -> None:
        allowed = say("the step of the scale in grams, e.g. {step_g:g}", step_g=0.1)
        sane("scale_g", self.step_g, 0.001, 50, allowed)

    @property
    def second_reading_g(self) -> float:
        """How far the second mass may be off its reading. [g]"""
        return self.step_g if self.cumulative else self.step_g / 2

    def nearest_g(self, mass_g: float) -> float:
        """Return the mass on the scale's own steps; half-way goes down."""
        return self.on_step_g(max(0, math.ceil(mass_g / self.step_g - 0.5 - 1e-9)))

    def on_step_g(self, steps: int) -> float:
        """Return so many steps as grams, without the dust of binary fractions: 3 of 0.1 g are 0.3."""
        return float(f"{steps * self.step_g:.9g}")


USUAL_SCALE = Scale()

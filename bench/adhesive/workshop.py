"""Cautions of the bench that no adhesive label states: cutting board, glass, and grout."""

from __future__ import annotations

from typing import Literal

from bench.adhesive.cautions import Caution, first_of_all
from bench.adhesive.hazards import wording
from bench.speech import say

Work = Literal["board", "glass", "grout"]

# Wet cement is above pH 12 (from memory of data sheets), which gives it these statements.
_GROUT_CODES = ("H315", "H318", "H317", "H335")


def workshop_cautions(work: Work) -> tuple[Caution, ...]:
    """Return the groups to have at hand for cutting board, for glass, or for grout."""
    first = Caution(say("First"), (first_of_all(),))
    if work == "board":
        return (first, Caution(say("Cutting board"), _board()))
    if work == "glass":
        return (first, Caution(say("Cutting and lifting glass"), _glass()))
    statements = tuple(f"{code} {wording(code)}" for code in _GROUT_CODES)
    return (
        first,
        Caution(say("Cement grout often states"), statements, _GROUT_CODES),
        Caution(say("Grouting"), _grout()),
    )


def _board() -> tuple[str, ...]:
    """Say what dust of a board does.

    Silica: 29 CFR 1926.1153, 50 µg/m³ over eight hours; NIOSH 2015-185, fibre cement up to half quartz.
    """
    return (
        say("Backer board can be half crystalline silica; its dust scars the lungs for good."),
        say("Score and snap it, outdoors where you can. No saw or grinder without dust collection."),
        say("The workplace limit is 50 µg/m³ of respirable silica over eight hours: no dust should be seen."),
        say("Wipe up wet; never sweep dry."),
    )


def _glass() -> tuple[str, ...]:
    """Say what splinters do. Eyewear: ANSI Z87.1 or EN 166; the rest is common practice, no source."""
    return (
        say("Goggles marked EN 166 or ANSI Z87.1 on you and on whoever stands by."),
        say("Nip inside a bag or a clear box; brush splinters up, never with the hand."),
        say("A splinter in the eye: do not rub, cover both eyes, go to a hospital."),
        say("Closed shoes; no food or drink on the bench."),
    )


def _grout() -> tuple[str, ...]:
    return (
        say("Wet grout burns slowly and without pain: waterproof gloves, goggles, no kneeling in it."),
        say("Mix the powder outdoors or in moving air; do not breathe its dust."),
        say("On skin: rinse with plenty of water. In the eye: rinse for several minutes, get medical help."),
        say("Grout water goes into a bucket to settle and then with the rubbish, never down the drain."),
    )

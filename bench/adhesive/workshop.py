"""Cautions of the bench that no adhesive label states: cutting board, glass, and grout."""

from __future__ import annotations

from typing import Literal

from bench.adhesive.cautions import FIRST_OF_ALL, Caution
from bench.adhesive.hazards import wording

Work = Literal["board", "glass", "grout"]

# Silica: 29 CFR 1926.1153, 50 µg/m³ over eight hours; NIOSH 2015-185, fibre cement up to half quartz.
_BOARD = (
    "Backer board can be half crystalline silica; its dust scars the lungs for good.",
    "Score and snap it, outdoors where you can. No saw or grinder without dust collection.",
    "The workplace limit is 50 µg/m³ of respirable silica over eight hours: no dust should be seen.",
    "Wipe up wet; never sweep dry.",
)
# Eyewear: ANSI Z87.1 or EN 166. The rest is common practice, no source.
_GLASS = (
    "Goggles marked EN 166 or ANSI Z87.1 on you and on whoever stands by.",
    "Nip inside a bag or a clear box; brush splinters up, never with the hand.",
    "A splinter in the eye: do not rub, cover both eyes, go to a hospital.",
    "Closed shoes; no food or drink on the bench.",
)
# Wet cement is above pH 12 (from memory of data sheets), which gives it these statements.
_GROUT_CODES = ("H315", "H318", "H317", "H335")
_GROUT = (
    "Wet grout burns slowly and without pain: waterproof gloves, goggles, no kneeling in it.",
    "Mix the powder outdoors or in moving air; do not breathe its dust.",
    "On skin: rinse with plenty of water. In the eye: rinse for several minutes, get medical help.",
    "Grout water goes into a bucket to settle and then with the rubbish, never down the drain.",
)


def workshop_cautions(work: Work) -> tuple[Caution, ...]:
    """Return the groups to have at hand for cutting board, for glass, or for grout."""
    first = Caution("First", (FIRST_OF_ALL,))
    if work == "board":
        return (first, Caution("Cutting board", _BOARD))
    if work == "glass":
        return (first, Caution("Cutting and lifting glass", _GLASS))
    statements = tuple(f"{code} {wording(code)}" for code in _GROUT_CODES)
    return (
        first,
        Caution("Cement grout often states", statements, _GROUT_CODES),
        Caution("Grouting", _GROUT),
    )

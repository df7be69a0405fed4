"""How long grout, ink and sealer dry: one table that the maker can set, and the product's sheet before it."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace

from bench.finish.faults import AmountOutOfRange, TooColdForGrout
from bench.speech import say

COLD_BELOW_C = 16.0  # 60 °F, from which cement grout cures as it should: ANSI A108.10, a summary of it
LEAST_GROUT_C = 5.0  # below it no grout is mixed: common practice, no source
_COLD = 2.0  # how much longer all takes in the cold: common practice, no source
MOST_H = 24.0 * 60


@dataclass(frozen=True)
class DryingTimes:
    """Hours that must pass, each from the act before. All of them are common practice without a source.

    beside_h: from one grout until another may be worked beside it. tint_h: from grouting until an ink takes.
    seal_h: from grouting until it may be sealed (48 to 72 h from memory of data sheets). ink_h: from an ink
    until the seal. outdoors_h: from the seal until it may hang outdoors.
    """

    beside_h: float = 12.0
    tint_h: float = 24.0
    seal_h: float = 72.0
    ink_h: float = 24.0
    outdoors_h: float = 72.0

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if not (math.isfinite(value) and 0 < value <= MOST_H):
                allowed = say("hours, more than 0 and at most {most:g}", most=MOST_H)
                raise AmountOutOfRange(drying_words()[field.name], value, allowed)
        if self.tint_h > self.seal_h:
            allowed = say("at least the {least:g} h until it takes ink", least=self.tint_h)
            raise AmountOutOfRange(drying_words()["seal_h"], self.seal_h, allowed)


def drying_words() -> dict[str, str]:
    """Say each time of the table by its name there."""
    return {
        "beside_h": say("until another grout beside it"),
        "tint_h": say("until grout takes ink"),
        "seal_h": say("until grout is sealed"),
        "ink_h": say("until ink is sealed"),
        "outdoors_h": say("from the seal until outdoors"),
    }


def sheet_first() -> str:
    """Say whose word on drying comes first."""
    return say("Common practice, no source: the product's sheet comes first.")


def drying_times(given: DryingTimes, temperature_C: float) -> DryingTimes:
    """Return the table for a room: twice as long below 16 °C. Raises TooColdForGrout below 5 °C."""
    if temperature_C < LEAST_GROUT_C:
        raise TooColdForGrout(temperature_C, LEAST_GROUT_C)
    if temperature_C >= COLD_BELOW_C:
        return given
    longer = {field.name: min(MOST_H, _COLD * getattr(given, field.name)) for field in fields(given)}
    return replace(given, **longer)

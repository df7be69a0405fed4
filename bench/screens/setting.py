"""One thing that can be set: its choices, or the number that is asked for, and how a value is said."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from bench.book.events import BenchSet

EPS = 1e-9  # 0.1 mm to the pad and back is no rounding


@dataclass(frozen=True)
class Option:
    """One choice: its value, its name, and a line about it."""

    value: Any
    text: str
    says: str = ""


def _same(value: float) -> float:
    return value


@dataclass(frozen=True)
class Number:
    """What the pad asks for, and within what bounds. shown, typed: to the unit of the pad and back."""

    title: str
    unit: str
    least: float
    most: float
    shown: Callable[[float], float] = _same
    typed: Callable[[float], float] = _same
    decimals: int = 2

    @property
    def bounds(self) -> tuple[float, float]:
        """Return the least and the most in the unit of the pad, to its decimals and never beyond."""
        steps = 10**self.decimals
        least, most = self.shown(self.least) * steps, self.shown(self.most) * steps
        return math.ceil(least - EPS) / steps, math.floor(most + EPS) / steps


@dataclass(frozen=True)
class Setting:
    """One thing to set. words: how a value is said that is no option; when: it is asked only then."""

    key: str
    name: str
    options: tuple[Option, ...] = ()
    number: Number | None = None
    words: Callable[[Any], str] = str
    when: Callable[[BenchSet], bool] = lambda bench: True


def said_of(setting: Setting, value: Any) -> str:
    """Say a value: the name of its option, else in the setting's words."""
    named = next((o.text for o in setting.options if o.value == value), None)
    return named if named is not None else setting.words(value)

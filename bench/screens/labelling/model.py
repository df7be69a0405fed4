"""What a question about a label is made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

WAY = "way"  # the key of the question how the mix ratio is given, which no field of the file answers
View = Literal["letters", "choice", "numbers", "blend", "codes"]


@dataclass(frozen=True)
class Option:
    """One choice: its value in the file (None: the label does not state it), its name, a line about it."""

    value: Any
    text: str
    says: str = ""


@dataclass(frozen=True)
class Number:
    """What the pad asks for. celsius: typed in the unit spoken; below_zero: it may be negative."""

    title: str
    unit: str = ""
    below_zero: bool = False
    celsius: bool = False


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

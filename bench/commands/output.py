"""Write what a command found: a table for people, JSON for programs, never half a file."""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from bench.adhesive.workshop import Work, workshop_cautions
from bench.drawing.panel import LeftOut
from bench.speech import Tongue, in_area, say, speak, tongue
from bench.whole import CannotWrite, write_file

__all__ = [
    "CannotWrite",
    "caution_lines",
    "figure",
    "figure_of_area",
    "for_programs",
    "left_out_words",
    "table",
    "write_file",
    "write_json",
]


@contextmanager
def for_programs() -> Iterator[bool]:
    """Speak plain English until the end of it: what a program reads is the same in every language.

    Yields whether something else was spoken, so that sentences which stand already are to be said again.
    """
    spoken = tongue()
    speak(Tongue())
    try:
        yield spoken != Tongue()
    finally:
        speak(spoken)


def write_json(data: Any, target: str) -> None:
    """Write JSON to a file, or to stdout for '-'; infinity has no word in JSON and becomes null."""
    to_stdout = target == "-"  # whose encoding may know no more than ASCII
    text = json.dumps(_finite(data), indent=1, ensure_ascii=to_stdout, allow_nan=False) + "\n"
    if to_stdout:
        sys.stdout.write(text)
    else:
        write_file(Path(target), text.encode())


def _finite(value: Any) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, dict):
        return {k: _finite(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(v) for v in value]
    return value


def caution_lines(work: Work) -> list[str]:
    """Return the cautions of some work of the bench, a line a group."""
    groups = workshop_cautions(work)
    return [f"{g.title}: {('; ' if g.codes else ' ').join(g.lines)}" for g in groups]


def left_out_words(some: LeftOut) -> str:
    """Say what of a drawing was left out, and why."""
    return say("left out: {count} × {what}: {why}", count=some.count, what=some.told, why=some.why)


def figure(value: float, decimals: int = 0) -> str:
    """Say a number alone, as in a cell of a table."""
    return say("{value:.{decimals}f}", value=value, decimals=decimals)


def figure_of_area(mm2: float, decimals: int = 0) -> str:
    """Say an area under a head that has `area_unit`; a digit more of inches, as `area` does."""
    return figure(in_area(mm2), decimals + 1 if tongue().inches else decimals)


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return rows under their heads, numbers to the right, the first column to the left."""
    grid = [list(head), *[list(r) for r in rows]]
    widths = [max(len(row[k]) for row in grid) for k in range(len(head))]
    lines = [
        "  ".join(
            c.ljust(w) if k == 0 else c.rjust(w) for k, (c, w) in enumerate(zip(r, widths, strict=True))
        )
        for r in grid
    ]
    return "\n".join(line.rstrip() for line in lines)

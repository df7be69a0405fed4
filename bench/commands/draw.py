"""`potwatch draw`: write a drawing again as plain SVG in mm, at true size, with the sections of a plan."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from bench.commands.options import add_drawing, check_values
from bench.commands.output import write_file
from bench.commands.reading import drawn
from bench.drawing.panel import Panel
from bench.drawing.svg_out import write_svg
from bench.fault import Fault
from bench.speech import say

MOST_BYTES = 64 * 2**20  # a plan of 150,000 tesserae has a third of it


class NoPlan(Fault):
    """A file is no plan, or not one of this drawing."""

    def __init__(self, path: Path, what: str) -> None:
        self.path = path
        todo = say("name a plan that 'potwatch plan --json' wrote for this drawing")
        super().__init__(what, where=str(path), todo=todo)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    parser.add_argument("--svg", required=True, metavar=say("FILE.svg"), help=say("where to; '-' is stdout"))
    parser.add_argument(
        "--plan", type=Path, metavar=say("PLAN.json"), help=say("mark and number its sections")
    )


def run(args: argparse.Namespace) -> int:
    check_values(args)
    panel, said = drawn(args)
    label, numbers = (None, None) if args.plan is None else sections_of(panel, args.plan)
    data = write_svg(panel, label, numbers=numbers)
    if args.svg == "-":
        sys.stdout.buffer.write(data)
    else:
        write_file(Path(args.svg), data)
        if said:
            print(said)
    return 0


def _bytes_of(path: Path) -> bytes:
    """Return a plan's file; raises NoPlan for one that could go on without end, or is far too large."""
    if path.exists() and not path.is_file():
        raise NoPlan(path, say("this is a folder or a device, not a file"))
    with path.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise NoPlan(path, say("it is larger than {mib} MiB", mib=MOST_BYTES // 2**20))
    return data


def sections_of(panel: Panel, path: Path) -> tuple[NDArray[np.int32], list[int]]:
    """Return the section of each tessera, -1 for none, and the numbers of the sections.

    Raises NoPlan for a file that cannot be read, is no plan, or names other tesserae than the drawing.
    """
    try:
        told = {str(t["id"]): int(t["section"]) for t in json.loads(_bytes_of(path))["tesserae"]}
    except OSError as error:
        reason = error.strerror or say("unknown reason")
        raise NoPlan(path, say("it cannot be opened ({reason})", reason=reason)) from None
    except (ValueError, KeyError, TypeError, OverflowError, RecursionError):
        raise NoPlan(path, say("this is no plan")) from None
    missing = next((one for one in panel.ids if one not in told), None)
    if missing is not None:
        why = say("it does not know tessera '{tessera}', so it is of another drawing", tessera=missing)
        raise NoPlan(path, why)
    if len(told) != panel.tessera_count:
        raise NoPlan(path, say("it knows other tesserae, so it is of another drawing"))
    numbers = sorted({number for number in told.values() if number > 0})
    place = {number: k for k, number in enumerate(numbers)}
    return np.array([place.get(told[one], -1) for one in panel.ids], np.int32), numbers

"""Options that several commands share, and the checks of their values."""

from __future__ import annotations

import argparse
import math
from pathlib import Path

from bench.book.events import BenchSet
from bench.drawing.from_picture import WAYS
from bench.fault import Fault
from bench.job.learning import Stated
from bench.pace import PROMISES, ByPatch


class ValueOutOfRange(Fault):
    """An option's value cannot be."""

    def __init__(self, option: str, value: float, allowed: str) -> None:
        self.option, self.value, self.allowed = option, value, allowed
        hint = ""
        if option == "--working-time" and 0 < value < 3:
            hint = f"; if hours are meant, that is {60 * value:g} minutes"
        super().__init__(f"{value:g} cannot be", where=option, todo=f"give {allowed}{hint}")


DEFAULTS = BenchSet()

# option -> (least, most, may it be the least itself, what to give)
RANGES: dict[str, tuple[float, float, bool, str]] = {
    "--width-mm": (5, 20_000, True, "millimetres from 5 to 20000"),
    "--height-mm": (5, 20_000, True, "millimetres from 5 to 20000"),
    "--pace": (0, 120, False, "medium tesserae a minute, more than 0 and at most 120"),
    "--working-time": (3, 480, True, "minutes, from 3 to 480"),
    "--bottles": (-10, 60, True, "degrees Celsius from -10 to 60"),
    "--temperature": (-10, 60, True, "degrees Celsius from -10 to 60"),
    "--patch-cm2": (1, 2000, True, "cm² of bed from 1 to 2000"),
    "--half-life": (0, 1000, False, "glue-ups, more than 0 and at most 1000"),
    "--laying-hours-a-day": (0, 24, False, "hours of laying dry a day, more than 0 and at most 24"),
    "--sure": (0.5, 0.99, True, "a share from 0.5 to 0.99, e.g. 0.9 for 9 in 10"),
    "--scale-g": (0, 50, False, "the scale's step in grams, more than 0 and at most 50"),
    "--bed-mm": (0, 10, False, "the bed's thickness in mm, more than 0 and at most 10"),
    "--waste": (0, 2, True, "a share from 0 to 2, e.g. 0.1"),
    "--residue-g": (0, 100, True, "grams from 0 to 100"),
    "--area-cm2": (0, 100_000, False, "square centimetres, more than 0 and at most 100000"),
    "--hands": (1, 4, True, "pairs of hands at one mix, 1 to 4"),
    "--hours-a-day": (0, 24, False, "hours of glueing up a day, more than 0 and at most 24"),
    "--gap-mm": (0, 5, True, "millimetres from 0 to 5"),
    "--piece-mm": (1, 100, True, "millimetres from 1 to 100"),
    "--joint-mm": (0, 10, True, "millimetres from 0 to 10"),
    "--depth-mm": (0, 50, False, "the depth of the joints in mm, more than 0 and at most 50"),
    "--glass-mm": (0, 50, False, "the thickness of the glass in mm, more than 0 and at most 50"),
    "--grout-density": (0, 10, False, "g of powder in a cm³ of joint, more than 0 and at most 10"),
    "--water": (0, 2, True, "water as a share of the powder, from 0 to 2, e.g. 0.31"),
    "--pace-cm2-min": (0, 10_000, False, "cm² of panel a minute, more than 0 and at most 10000"),
    "--pot-life-min": (15, 480, False, "minutes, more than 15 to mix it and at most 480"),
    "--backer-g-cm2": (0, 100, True, "g of backer board in a cm², from 0 to 100"),
    "--bed-g-cm2": (0, 100, True, "g of adhesive in a cm², from 0 to 100"),
    "--frame-g": (0, 200_000, True, "g of frame, from 0 to 200000"),
    "--cut-waste": (0, 0.95, True, "the share of a sheet that is not laid, from 0 to 0.95, e.g. 0.35"),
    "--like": (0, 20, True, "ΔE00 up to which colours are one glass, from 0 (equal ones alone) to 20"),
    "--poured-resin-g": (0, 10_000, True, "grams, at most 10000"),
    "--poured-hardener-g": (0, 10_000, True, "grams, at most 10000"),
}


def number(text: str) -> float:
    """Return an option's number; a comma for the decimal mark is told by name."""
    try:
        return float(text)
    except ValueError:
        hint = f": write a point, {text.replace(',', '.')}" if text.count(",") == 1 else ""
        raise argparse.ArgumentTypeError(f"{text!r} is no number{hint}") from None


def check_values(args: argparse.Namespace) -> None:
    """Raise ValueOutOfRange for the first option whose value cannot be."""
    for option, (least, most, closed, allowed) in RANGES.items():
        value = getattr(args, option[2:].replace("-", "_"), None)
        if value is None:
            continue
        above = value >= least if closed else value > least
        if not (math.isfinite(value) and above and value <= most):
            raise ValueOutOfRange(option, value, allowed)


def add_drawing(parser: argparse.ArgumentParser, *, needed: bool = True) -> None:
    """Add the drawing and how it is read; needed: without one there is nothing to do."""
    parser.add_argument(
        "drawing",
        type=Path,
        metavar="DRAWING",
        nargs=None if needed else "?",
        help="an SVG drawing; a picture with --as",
    )
    parser.add_argument("--as", dest="way", choices=WAYS, help="read a picture as this")
    parser.add_argument("--width-mm", type=number, help="true width of the page")
    parser.add_argument("--height-mm", type=number, help="true height of the page")
    parser.add_argument(
        "--gap-mm", type=number, help="as lines: breaks up to this are closed, 1.5 unless given"
    )
    parser.add_argument(
        "--colours", type=Path, metavar="PICTURE", help="as lines: a second picture to take the colours from"
    )
    parser.add_argument("--piece-mm", type=number, default=6.0, help="as study: edge of a tessera")
    parser.add_argument("--joint-mm", type=number, default=0.8, help="as study: width of the joints")


def add_adhesive(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--adhesive", default=DEFAULTS.adhesive, metavar="NAME|FILE.toml", help="a shipped type or a file"
    )
    parser.add_argument(
        "--temperature", type=number, default=DEFAULTS.temperature_C, metavar="C", help="of the room, °C"
    )


def add_promise(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--pace",
        type=number,
        metavar="PER_MIN",
        help="medium tesserae, or usual patches, set a minute; else the book's",
    )
    parser.add_argument("--working-time", type=number, metavar="MIN", help="in place of the label's minutes")
    parser.add_argument(
        "--hands", type=int, default=DEFAULTS.hands, metavar="PAIRS", help="pairs of hands at one mix"
    )
    parser.add_argument(
        "--sure", type=sure, default=DEFAULTS.sure, help=f"the promise: {', '.join(PROMISES)}, or e.g. 0.9"
    )


def sure(text: str) -> float:
    """Return a promise told in words or as a share."""
    return PROMISES[text] if text in PROMISES else number(text)


def add_transfer(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--transfer",
        choices=("single", "patch", "face-down"),
        help="set piece by piece, or by the patch with film on the faces",
    )
    parser.add_argument(
        "--patch-cm2",
        type=number,
        metavar="A",
        help=f"bed of a usual patch, {DEFAULTS.patch_cm2:g} cm² unless told",
    )
    parser.add_argument(
        "--half-life",
        type=half_life,
        default=DEFAULTS.half_life,
        metavar="N",
        help="glue-ups after which one counts half; 'never': all count alike",
    )


def half_life(text: str) -> float | None:
    """Return after how many glue-ups one counts half; None for never."""
    return None if text == "never" else number(text)


def stated_of(args: argparse.Namespace) -> Stated:
    """Return what the options say of the hands; a pace by the patch is in usual patches a minute."""
    if args.transfer in (None, "single"):
        return Stated(args.pace, None, args.half_life)
    patch_cm2 = DEFAULTS.patch_cm2 if args.patch_cm2 is None else args.patch_cm2
    return Stated(None, ByPatch(patch_cm2, args.pace), args.half_life)


def add_bed(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--bed-mm", type=number, default=DEFAULTS.bed_mm, help="thickness of the bed")
    parser.add_argument("--scale-g", type=number, default=DEFAULTS.scale_g, help="step of the scale")

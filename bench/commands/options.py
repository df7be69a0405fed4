"""Options that several commands share, and the checks of their values."""

from __future__ import annotations

import argparse
import math
from pathlib import Path

from bench.book.events import BenchSet
from bench.drawing.from_picture import WAYS
from bench.fault import Fault
from bench.job.learning import Stated
from bench.pace.capacity import PROMISES
from bench.pace.patches import ByPatch
from bench.speech import say


class ValueOutOfRange(Fault):
    """An option's value cannot be."""

    def __init__(self, option: str, value: float, allowed: str) -> None:
        self.option, self.value, self.allowed = option, value, allowed
        todo = say("give {allowed}", allowed=allowed)
        if option == "--working-time" and 0 < value < 3:
            minutes = 60 * value
            todo = say(
                "give {allowed}; if hours are meant, that is {minutes:g} minutes",
                allowed=allowed,
                minutes=minutes,
            )
        super().__init__(say("{value:g} cannot be", value=value), where=option, todo=todo)


DEFAULTS = BenchSet()

# option -> (least, most, may it be the least itself)
RANGES: dict[str, tuple[float, float, bool]] = {
    "--width-mm": (5, 20_000, True),
    "--height-mm": (5, 20_000, True),
    "--pace": (0, 120, False),
    "--working-time": (3, 480, True),
    "--bottles": (-10, 60, True),
    "--temperature": (-10, 60, True),
    "--patch-cm2": (1, 2000, True),
    "--half-life": (0, 1000, False),
    "--laying-hours-a-day": (0, 24, False),
    "--sure": (0.5, 0.99, True),
    "--scale-g": (0, 50, False),
    "--bed-mm": (0, 10, False),
    "--waste": (0, 2, True),
    "--residue-g": (0, 100, True),
    "--area-cm2": (0, 100_000, False),
    "--hands": (1, 4, True),
    "--hours-a-day": (0, 24, False),
    "--gap-mm": (0, 5, True),
    "--piece-mm": (1, 100, True),
    "--joint-mm": (0, 10, True),
    "--depth-mm": (0, 50, False),
    "--glass-mm": (0, 50, False),
    "--grout-density": (0, 10, False),
    "--water": (0, 2, True),
    "--pace-cm2-min": (0, 10_000, False),
    "--pot-life-min": (15, 480, False),
    "--backer-g-cm2": (0, 100, True),
    "--bed-g-cm2": (0, 100, True),
    "--frame-g": (0, 200_000, True),
    "--cut-waste": (0, 0.95, True),
    "--like": (0, 20, True),
    "--poured-resin-g": (0, 10_000, True),
    "--poured-hardener-g": (0, 10_000, True),
}


def _allowed(option: str) -> str:
    """Say what may be given for an option; shares with a point, in every language, as they are typed."""
    least, most, _ = RANGES[option]
    if option in ("--width-mm", "--height-mm", "--gap-mm", "--piece-mm", "--joint-mm"):
        return say("millimetres from {least} to {most}", least=least, most=most)
    if option in ("--temperature", "--bottles"):
        return say("degrees Celsius from {least} to {most}", least=least, most=most)
    return {
        "--pace": say("medium tesserae a minute, more than 0 and at most 120"),
        "--working-time": say("minutes, from 3 to 480"),
        "--patch-cm2": say("cm² of bed from 1 to 2000"),
        "--half-life": say("glue-ups, more than 0 and at most 1000"),
        "--laying-hours-a-day": say("hours of laying dry a day, more than 0 and at most 24"),
        "--sure": say("a share from 0.5 to 0.99, e.g. 0.9 for 9 in 10"),
        "--scale-g": say("the scale's step in grams, more than 0 and at most 50"),
        "--bed-mm": say("the bed's thickness in mm, more than 0 and at most 10"),
        "--waste": say("a share from 0 to 2, e.g. 0.1"),
        "--residue-g": say("grams from 0 to 100"),
        "--area-cm2": say("square centimetres, more than 0 and at most 100000"),
        "--hands": say("pairs of hands at one mix, 1 to 4"),
        "--hours-a-day": say("hours of glueing up a day, more than 0 and at most 24"),
        "--depth-mm": say("the depth of the joints in mm, more than 0 and at most 50"),
        "--glass-mm": say("the thickness of the glass in mm, more than 0 and at most 50"),
        "--grout-density": say("g of powder in a cm³ of joint, more than 0 and at most 10"),
        "--water": say("water as a share of the powder, from 0 to 2, e.g. 0.31"),
        "--pace-cm2-min": say("cm² of panel a minute, more than 0 and at most 10000"),
        "--pot-life-min": say("minutes, more than 15 to mix it and at most 480"),
        "--backer-g-cm2": say("g of backer board in a cm², from 0 to 100"),
        "--bed-g-cm2": say("g of adhesive in a cm², from 0 to 100"),
        "--frame-g": say("g of frame, from 0 to 200000"),
        "--cut-waste": say("the share of a sheet that is not laid, from 0 to 0.95, e.g. 0.35"),
        "--like": say("ΔE00 up to which colours are one glass, from 0 (equal ones alone) to 20"),
        "--poured-resin-g": say("grams, at most 10000"),
        "--poured-hardener-g": say("grams, at most 10000"),
    }[option]


def number(text: str) -> float:
    """Return an option's number; a comma for the decimal mark is told by name."""
    try:
        return float(text)
    except ValueError:
        why = say("{typed!r} is no number", typed=text)
        if text.count(",") == 1:
            pointed = text.replace(",", ".")
            why = say("{typed!r} is no number: write a point, {pointed}", typed=text, pointed=pointed)
        raise argparse.ArgumentTypeError(why) from None


def check_values(args: argparse.Namespace) -> None:
    """Raise ValueOutOfRange for the first option whose value cannot be."""
    for option, (least, most, closed) in RANGES.items():
        value = getattr(args, option[2:].replace("-", "_"), None)
        if value is None:
            continue
        above = value >= least if closed else value > least
        if not (math.isfinite(value) and above and value <= most):
            raise ValueOutOfRange(option, value, _allowed(option))


def add_drawing(parser: argparse.ArgumentParser, *, needed: bool = True) -> None:
    """Add the drawing and how it is read; needed: without one there is nothing to do."""
    parser.add_argument(
        "drawing",
        type=Path,
        metavar=say("DRAWING"),
        nargs=None if needed else "?",
        help=say("an SVG drawing; a picture with --as"),
    )
    parser.add_argument("--as", dest="way", choices=WAYS, help=say("read a picture as this"))
    parser.add_argument("--width-mm", type=number, help=say("true width of the page"))
    parser.add_argument("--height-mm", type=number, help=say("true height of the page"))
    parser.add_argument(
        "--gap-mm", type=number, help=say("as lines: breaks up to this are closed, 1.5 unless given")
    )
    parser.add_argument(
        "--colours",
        type=Path,
        metavar=say("PICTURE"),
        help=say("as lines: a second picture to take the colours from"),
    )
    parser.add_argument("--piece-mm", type=number, default=6.0, help=say("as study: edge of a tessera"))
    parser.add_argument("--joint-mm", type=number, default=0.8, help=say("as study: width of the joints"))


def add_adhesive(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--adhesive",
        default=DEFAULTS.adhesive,
        metavar=say("NAME|FILE.toml"),
        help=say("a shipped type or a file"),
    )
    parser.add_argument(
        "--temperature", type=number, default=DEFAULTS.temperature_C, metavar="C", help=say("of the room, °C")
    )


def add_promise(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--pace",
        type=number,
        metavar=say("PER_MIN"),
        help=say("medium tesserae, or usual patches, set a minute; else the book's"),
    )
    parser.add_argument(
        "--working-time", type=number, metavar="MIN", help=say("in place of the label's minutes")
    )
    parser.add_argument(
        "--hands",
        type=int,
        default=DEFAULTS.hands,
        metavar=say("PAIRS"),
        help=say("pairs of hands at one mix"),
    )
    parser.add_argument(
        "--sure",
        type=sure,
        default=DEFAULTS.sure,
        help=say("the promise: {names}, or e.g. 0.9", names=", ".join(PROMISES)),
    )


def add_panel(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--panel", type=int, metavar="N", help=say("a panel by its number; else the last one")
    )


def add_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", metavar=say("FILE"), help=say("write JSON; '-' is stdout"))


def sure(text: str) -> float:
    """Return a promise told in words or as a share."""
    return PROMISES[text] if text in PROMISES else number(text)


def add_transfer(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--transfer",
        choices=("single", "patch", "face-down"),
        help=say("set piece by piece, or by the patch with film on the faces"),
    )
    parser.add_argument(
        "--patch-cm2",
        type=number,
        metavar="A",
        help=say("bed of a usual patch, {cm2:g} cm² unless told", cm2=DEFAULTS.patch_cm2),
    )
    parser.add_argument(
        "--half-life",
        type=half_life,
        default=DEFAULTS.half_life,
        metavar="N",
        help=say("glue-ups after which one counts half; 'never': all count alike"),
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
    parser.add_argument("--bed-mm", type=number, default=DEFAULTS.bed_mm, help=say("thickness of the bed"))
    parser.add_argument("--scale-g", type=number, default=DEFAULTS.scale_g, help=say("step of the scale"))

"""`potwatch practice`: a whole glue-up on a fast clock, on screen or, without a display, as pictures."""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.commands.options import ValueOutOfRange, number
from bench.drawing.load import load_drawing
from bench.resources import resource
from bench.speech import say


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--drawing", type=Path, metavar=say("DRAWING.svg"), help=say("instead of the demo"))
    parser.add_argument(
        "--pictures", type=Path, metavar=say("FOLDER"), help=say("draw offscreen into this folder")
    )
    parser.add_argument("--factor", type=number, default=10.0, help=say("how much faster the clock runs"))
    parser.add_argument("--seed", type=int, default=0, help=say("of the made-up hand"))


def run(args: argparse.Namespace) -> int:
    if not 1 <= args.factor <= 100:
        raise ValueOutOfRange("--factor", args.factor, say("a factor from 1 to 100"))
    if args.seed < 0:
        raise ValueOutOfRange("--seed", args.seed, say("a whole number from 0"))
    path = args.drawing or resource("assets", "demo", "lemons.svg")
    data, _ = load_drawing(path)
    if args.pictures is not None:
        from bench.screens.practice import practise_offscreen  # draws

        practise_offscreen(data, path.name, args.pictures, seed=args.seed)
        return 0
    from bench.app import run_practice  # draws

    code: int = run_practice(data, path.name, factor=args.factor, seed=args.seed)
    return code

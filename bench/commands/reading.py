"""The panel that a command is about, read from the drawing it names."""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.drawing import Panel, load_drawing


def add_drawing(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("drawing", type=Path, metavar="DRAWING.svg")
    parser.add_argument("--width-mm", type=float, help="true width of the page")
    parser.add_argument("--height-mm", type=float, help="true height of the page")


def panel_named(args: argparse.Namespace) -> Panel:
    """Return the panel of the drawing. Raises DrawingFault for whatever is wrong with it."""
    _, panel = load_drawing(args.drawing, width_mm=args.width_mm, height_mm=args.height_mm)
    return panel

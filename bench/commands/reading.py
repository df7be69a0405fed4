"""Read what a command is given: an SVG drawing, or a picture in the way that --as names."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from bench.drawing.from_picture import NoPictureHere, PictureNeedsWay, is_picture, picture_size_mm
from bench.drawing.load import file_bytes
from bench.drawing.panel import Panel
from bench.drawing.photo import Picture, read_picture
from bench.drawing.svg import read_drawing

Read = tuple[Panel, str]


def drawn(args: argparse.Namespace) -> Read:
    """Return the panel that the given file draws, and what there is to say of its reading, if anything.

    Raises PictureNeedsWay for a picture without --as, NoPictureHere for --as without a picture.
    """
    data, name = file_bytes(args.drawing), args.drawing.name
    if not is_picture(data):
        if args.way is not None:
            raise NoPictureHere(name)
        return read_drawing(data, name, width_mm=args.width_mm, height_mm=args.height_mm), ""
    if args.way is None:
        raise PictureNeedsWay(name)
    return READ_AS[args.way](args, read_picture(data, name))


def _as_lines(args: argparse.Namespace, picture: Picture) -> Read:
    from bench.drawing.lines import LineHow, panel_of_lines  # only where a picture is read

    colours = None if args.colours is None else read_picture(file_bytes(args.colours), args.colours.name)
    panel, report = panel_of_lines(
        picture,
        width_mm=args.width_mm,
        height_mm=args.height_mm,
        how=LineHow() if args.gap_mm is None else LineHow(gap_mm=args.gap_mm),
        colours=colours,
    )
    return panel, report.told()


def _as_study(args: argparse.Namespace, picture: Picture) -> Read:
    from bench.drawing.lay import panel_of_study  # only where a picture is read

    size_mm = picture_size_mm(picture, args.width_mm, args.height_mm)
    return panel_of_study(picture, size_mm, piece_mm=args.piece_mm, joint_mm=args.joint_mm), ""


READ_AS: dict[str, Callable[[argparse.Namespace, Picture], Read]] = {"lines": _as_lines, "study": _as_study}

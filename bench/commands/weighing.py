"""Weight, hanging and stiffness on the command line: options, and what they come to in lines and JSON."""

from __future__ import annotations

import argparse
from typing import Any

from bench.commands.options import number
from bench.drawing.panel import Panel
from bench.fault import Fault
from bench.finish.bend import BOARDS_GPA, Bend, bend_of
from bench.finish.hanging import Hung, hung, hung_by_wire, wire_angle_deg
from bench.finish.hanging_words import bend_lines, duty, hung_lines, part_lines, weight_words
from bench.finish.units import Units
from bench.finish.weight import SPREADS, Weight, spreads_with
from bench.speech import say


class SpreadNotTold(Fault):
    def __init__(self, text: str) -> None:
        self.text = text
        todo = say("give PART=SHARE, e.g. backer=0.05, PART of {parts}", parts=", ".join(SPREADS))
        super().__init__(say("'{given}' tells no spread", given=text[:40]), where="--spread", todo=todo)


class OneWayOnly(Fault):
    def __init__(self) -> None:
        todo = say("give one of --wire-angle and --hook-above-mm, the second with --apart-mm")
        what = say("the wire's slope is given twice, or only in part")
        super().__init__(what, where="--wire-angle", todo=todo)


def add_weight(parser: argparse.ArgumentParser) -> None:
    """Add the options that tell what else weighs, how it hangs, and how stiff its board is."""
    parser.add_argument("--frame-g", type=number, default=0.0, help=say("mass of the frame"))
    parser.add_argument(
        "--spread",
        action="append",
        default=[],
        metavar=say("PART=SHARE"),
        help=say("± of {parts}", parts=", ".join(SPREADS)),
    )
    parser.add_argument("--points", type=int, metavar="N", help=say("fixings that it hangs on"))
    parser.add_argument(
        "--apart-mm", type=number, help=say("distance of the outer ones, or of a wire's rings")
    )
    parser.add_argument("--wire-angle", type=number, metavar="DEG", help=say("slope of a wire at its rings"))
    parser.add_argument("--hook-above-mm", type=number, help=say("how far the hook stands above the rings"))
    parser.add_argument(
        "--board-mm", type=number, help=say("thickness of the board, to tell whether it bends")
    )
    parser.add_argument("--board", choices=tuple(BOARDS_GPA), default="cement board", help=say("what it is"))
    parser.add_argument("--board-GPa", type=number, help=say("its bending modulus by its maker, instead"))


def spreads_of(args: argparse.Namespace) -> Any:
    """Return the spreads with those told by --spread; raises SpreadNotTold or AmountOutOfRange."""
    told = {}
    for text in args.spread:
        name, _, share = text.partition("=")
        try:
            told[name.strip()] = float(share)
        except ValueError:
            raise SpreadNotTold(text) from None
    return spreads_with(told)


def asks_weight(args: argparse.Namespace) -> bool:
    """Tell whether anything was said of which the weight is wanted."""
    told = (args.backer_g_cm2, args.bed_g_cm2, args.points, args.board_mm, _angle_deg(args))
    return any(one is not None for one in told) or args.frame_g != 0


def loads_of(args: argparse.Namespace, weight: Weight) -> Hung | None:
    """Return what fixings and wire bear of the heavier end of the weight; None where nobody asks.

    Raises AmountOutOfRange or OneWayOnly.
    """
    angle_deg = _angle_deg(args)
    if angle_deg is not None:
        points = 1 if args.points is None else args.points
        return hung_by_wire(weight.p90_g, points=points, angle_deg=angle_deg)
    if args.points is None:
        return None
    return hung(weight.p90_g, points=args.points, apart_mm=args.apart_mm or 0.0)


def _angle_deg(args: argparse.Namespace) -> float | None:
    both = args.wire_angle is not None and args.hook_above_mm is not None
    if both or (args.hook_above_mm is not None and args.apart_mm is None):
        raise OneWayOnly
    if args.hook_above_mm is not None:
        return wire_angle_deg(args.apart_mm, args.hook_above_mm)
    return None if args.wire_angle is None else float(args.wire_angle)


def sag_of(args: argparse.Namespace, panel: Panel, weight: Weight) -> Bend | None:
    """Return how the board bends, carried flat by the edges farther apart; None where nobody asks."""
    if args.board_mm is None:
        return None
    across_mm, span_mm = sorted((panel.width_mm, panel.height_mm))
    stiffness = BOARDS_GPA[args.board] if args.board_GPa is None else args.board_GPa
    return bend_of(
        weight.p90_g, span_mm=span_mm, width_mm=across_mm, board_mm=args.board_mm, board_GPa=stiffness
    )


def weight_lines(
    args: argparse.Namespace, weight: Weight, loads: Hung | None, bend: Bend | None
) -> list[str]:
    """Say what the panel weighs, what bears it, and whether it bends, by what was told."""
    parts = ", ".join(part_lines(weight))
    lines = [say("panel: {weight}, 10 to 90 % sure: {parts}", weight=weight_words(weight), parts=parts)]
    lines += [say("the backer is not counted")] if args.backer_g_cm2 is None else []
    lines += [say("the bed is not counted")] if args.bed_g_cm2 is None else []
    lines += hung_lines(loads) if loads is not None else ()
    if bend is not None:
        lines += bend_lines(bend, Units())
    return [*lines, duty()]


def weight_json(weight: Weight, loads: Hung | None, bend: Bend | None) -> dict[str, Any]:
    """Return the figures; what was not asked for is null. [g], [mm]"""
    return {
        "weight_g": {"p10": weight.p10_g, "p50": weight.total_g, "p90": weight.p90_g},
        "parts_g": weight.parts_g,
        "load_each_g": None if loads is None else loads.each_g,
        "load_worst_g": None if loads is None else loads.worst_g,
        "wire_tension_g": None if loads is None else loads.tension_g,
        "sag_mm": None if bend is None else bend.sag_mm,
    }

"""`potwatch finish`: the joints of a drawing, grout for them in zones, and what the glass weighs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import Any

from bench.commands.finish_zones import ZONES, Zoned, zone_lines, zoned, zones_json
from bench.commands.options import DEFAULTS, ValueOutOfRange, add_drawing, add_json, check_values, number
from bench.commands.output import caution_lines, for_programs, write_json
from bench.commands.reading import drawn
from bench.commands.seeing import Look, add_seeing, seen_in, seen_json, seen_lines, write_seen
from bench.commands.weighing import (
    add_weight,
    asks_weight,
    loads_of,
    sag_of,
    spreads_of,
    weight_json,
    weight_lines,
)
from bench.drawing.panel import Panel
from bench.finish.batches import AREA_PACE_CM2_MIN, POT_LIFE_MIN
from bench.finish.faults import JointsDeeperThanGlass
from bench.finish.grout import POWDER_G_PER_CM3, WASTE, WATER_SHARE, Grout, grout_for
from bench.finish.joints import ADHESIVE_LEFT_MM, GLASS_MM, joint_depth_mm
from bench.finish.sun import SUNS
from bench.finish.weight import Weight, weight_of
from bench.speech import area, plain_length, say, size


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    usual = joint_depth_mm()
    parser.add_argument(
        "--depth-mm",
        type=number,
        help=say(
            "of the joints; else the glass less {left:g}: {usual:g}", left=ADHESIVE_LEFT_MM, usual=usual
        ),
    )
    parser.add_argument("--glass-mm", type=number, default=GLASS_MM, help=say("thickness of the glass"))
    parser.add_argument(
        "--grout-density",
        type=number,
        default=POWDER_G_PER_CM3,
        help=say("g of dry powder in a cm³ of joint"),
    )
    parser.add_argument("--water", type=number, default=WATER_SHARE, help=say("share of the powder, by mass"))
    parser.add_argument("--waste", type=number, default=WASTE, help=say("share lost, e.g. 0.1"))
    parser.add_argument(
        "--backer-g-cm2", type=number, help=say("mass of the backer board, to tell the weight")
    )
    parser.add_argument("--bed-g-cm2", type=number, help=say("mass of the adhesive bed, to tell the weight"))
    parser.add_argument(
        "--zones",
        choices=ZONES,
        help=say("by the drawing's groups (usual), its colours, or one; also in JSON"),
    )
    parser.add_argument("--sun", choices=SUNS, help=say("where it will hang, to tell what fades"))
    parser.add_argument(
        "--pace-cm2-min", type=number, default=AREA_PACE_CM2_MIN, help=say("panel grouted and wiped a minute")
    )
    parser.add_argument("--pot-life-min", type=number, default=POT_LIFE_MIN, help=say("of the mixed grout"))
    parser.add_argument("--scratches", action="store_true", help=say("sand scratches this glass"))
    parser.add_argument(
        "--adhesive",
        default=DEFAULTS.adhesive,
        metavar=say("NAME|FILE.toml"),
        help=say("of the bed, for --sun"),
    )
    add_weight(parser)
    add_seeing(parser)
    add_json(parser)


def run(args: argparse.Namespace) -> int:
    check_values(args)
    depth_mm = _depth_mm(args)
    panel, said = drawn(args)
    grout = _grout(args, panel.joint_area_mm2, depth_mm)
    zones = zoned(args, panel, depth_mm)
    seen = seen_in(args, panel, zones)
    weight = weight_of(
        panel,
        glass_mm=args.glass_mm,
        grout_g=grout.stays_g,
        backer_g_per_cm2=args.backer_g_cm2 or 0.0,
        bed_g_per_cm2=args.bed_g_cm2 or 0.0,
        frame_g=args.frame_g,
        spreads=spreads_of(args),
    )
    loads, bend = loads_of(args, weight), sag_of(args, panel, weight)
    if args.json != "-":
        weighs = weight_lines(args, weight, loads, bend) if asks_weight(args) else []
        told = report(args, panel, grout, weight, zones, [*weighs, *seen_lines(seen, zones.names)])
        print(*filter(None, (said, told)), sep="\n")
    if args.json is not None:
        data: dict[str, Any] = {
            "joint_area_mm2": grout.joint_area_mm2,
            "joint_volume_cm3": grout.joint_volume_cm3,
            "powder_g": grout.powder_g,
            "water_g": grout.water_g,
            "glass_mass_g": weight.glass_g,
            **(weight_json(weight, loads, bend) if asks_weight(args) else {}),
        }
        write_json(data | _sentences_json(args, panel, depth_mm, zones, seen), args.json)
    if args.picture is not None:
        write_seen(args.picture, panel, seen)
    return 0


def _sentences_json(
    args: argparse.Namespace, panel: Panel, depth_mm: float, zones: Zoned, seen: tuple[Look, ...]
) -> dict[str, Any]:
    """Return that part of the JSON that has words in it, in English whatever is spoken."""
    data: dict[str, Any] = {}
    asked = args.zones is not None or args.sun is not None
    with for_programs() as otherwise:
        if otherwise and (asked or seen):
            zones = zoned(args, panel, depth_mm)
            seen = seen_in(args, panel, zones)
        if asked:
            data |= zones_json(args, panel, zones)
        if seen:
            data |= seen_json(seen, zones.names)
    return data


def _depth_mm(args: argparse.Namespace) -> float:
    if args.depth_mm is not None:
        if args.depth_mm > args.glass_mm:
            raise JointsDeeperThanGlass(args.depth_mm, args.glass_mm)
        return float(args.depth_mm)
    if args.glass_mm <= ADHESIVE_LEFT_MM:
        allowed = say(
            "more than {least:g} and at most 50 mm, or the joints' depth with --depth-mm",
            least=ADHESIVE_LEFT_MM,
        )
        raise ValueOutOfRange("--glass-mm", args.glass_mm, allowed)
    return joint_depth_mm(args.glass_mm)


def _grout(args: argparse.Namespace, joint_area_mm2: float, depth_mm: float) -> Grout:
    return grout_for(
        joint_area_mm2,
        depth_mm,
        powder_g_per_cm3=args.grout_density,
        water_share=args.water,
        waste=args.waste,
    )


def report(
    args: argparse.Namespace,
    panel: Panel,
    grout: Grout,
    weight: Weight,
    zones: Zoned,
    weighs: Sequence[str],
) -> str:
    """Return the figures for a person to read, zones and cautions included; weighs: of the weight."""
    lines = [
        say(
            "{name}: {size}, {joints} of joints, {deep} deep: {volume:.1f} cm³",
            name=panel.name,
            size=size(panel.width_mm, panel.height_mm),
            joints=area(grout.joint_area_mm2, 1),
            deep=plain_length(_depth_mm(args)),
            volume=grout.joint_volume_cm3,
        ),
        say(
            "grout: {powder:.0f} g of powder and {water:.0f} g of water, {waste:.0f} % of waste in both; "
            "the bag's own figures come first",
            powder=grout.powder_g,
            water=grout.water_g,
            waste=100 * grout.waste,
        ),
        say(
            "glass: {area}, {thick} thick: {mass:.0f} g",
            area=area(panel.glass_area_mm2),
            thick=plain_length(args.glass_mm),
            mass=weight.glass_g,
        ),
    ]
    lines += weighs
    lines += [*zone_lines(args, panel, zones), ""]
    lines += [say("note: {note}", note=text) for text in panel.warnings]
    return "\n".join([*lines, *caution_lines("grout")])

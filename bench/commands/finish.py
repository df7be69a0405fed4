"""`potwatch finish`: the joints of a drawing, grout for them, and what the glass weighs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from bench.commands.options import ValueOutOfRange, add_drawing, check_values
from bench.commands.output import caution_lines, table, write_json
from bench.commands.reading import drawn
from bench.commands.weighing import (
    add_weight,
    asks_weight,
    loads_of,
    sag_of,
    spreads_of,
    weight_json,
    weight_lines,
)
from bench.drawing import Panel
from bench.finish import (
    ADHESIVE_LEFT_MM,
    GLASS_MM,
    POWDER_G_PER_CM3,
    WASTE,
    WATER_SHARE,
    Grout,
    Weight,
    group_zones,
    grout_for,
    joint_depth_mm,
    weight_of,
    zone_joints_mm2,
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    usual = joint_depth_mm()
    parser.add_argument(
        "--depth-mm", type=float, help=f"of the joints; else the glass less {ADHESIVE_LEFT_MM:g}: {usual:g}"
    )
    parser.add_argument("--glass-mm", type=float, default=GLASS_MM, help="thickness of the glass")
    parser.add_argument(
        "--grout-density", type=float, default=POWDER_G_PER_CM3, help="g of dry powder in a cm³ of joint"
    )
    parser.add_argument("--water", type=float, default=WATER_SHARE, help="share of the powder, by mass")
    parser.add_argument("--waste", type=float, default=WASTE, help="share lost, e.g. 0.1")
    parser.add_argument("--backer-g-cm2", type=float, help="mass of the backer board, to tell the weight")
    parser.add_argument("--bed-g-cm2", type=float, help="mass of the adhesive bed, to tell the weight")
    add_weight(parser)
    parser.add_argument("--json", metavar="FILE", help="write JSON; '-' is stdout")


def run(args: argparse.Namespace) -> int:
    check_values(args)
    depth_mm = _depth_mm(args)
    panel, said = drawn(args)
    grout = _grout(args, panel.joint_area_mm2, depth_mm)
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
        print(*filter(None, (said, report(args, panel, grout, weight, depth_mm, weighs))), sep="\n")
    if args.json is not None:
        data = {
            "joint_area_mm2": grout.joint_area_mm2,
            "joint_volume_cm3": grout.joint_volume_cm3,
            "powder_g": grout.powder_g,
            "water_g": grout.water_g,
            "glass_mass_g": weight.glass_g,
            **(weight_json(weight, loads, bend) if asks_weight(args) else {}),
        }
        write_json(data, args.json)
    return 0


def _depth_mm(args: argparse.Namespace) -> float:
    if args.depth_mm is not None:
        return float(args.depth_mm)
    if args.glass_mm <= ADHESIVE_LEFT_MM:
        allowed = f"more than {ADHESIVE_LEFT_MM:g} and at most 50 mm, or the joints' depth with --depth-mm"
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
    depth_mm: float,
    weighs: Sequence[str],
) -> str:
    """Return the figures for a person to read, zones and cautions included; weighs: of the weight."""
    lines = [
        f"{panel.name}: {panel.width_mm:.0f} × {panel.height_mm:.0f} mm, "
        f"{grout.joint_area_mm2 / 100:.1f} cm² of joints, {depth_mm:g} mm deep: "
        f"{grout.joint_volume_cm3:.1f} cm³",
        f"grout: {grout.powder_g:.0f} g of powder and {grout.water_g:.0f} g of water, "
        f"{100 * grout.waste:.0f} % of waste in both; the bag's own figures come first",
        f"glass: {panel.glass_area_mm2 / 100:.0f} cm², {args.glass_mm:g} mm thick: {weight.glass_g:.0f} g",
    ]
    if depth_mm > args.glass_mm:
        lines.append(f"note: joints {depth_mm:g} mm deep are deeper than the glass, {args.glass_mm:g} mm")
    lines += weighs
    lines += ["", *_zones(args, panel, depth_mm)]
    lines += [f"note: {text}" for text in panel.warnings]
    return "\n".join([*lines, *caution_lines("grout")])


def _zones(args: argparse.Namespace, panel: Panel, depth_mm: float) -> list[str]:
    """Return the grout of each zone as a table; nothing where the drawing names no groups."""
    zone, names = group_zones(panel)
    if len(names) < 2:
        return []
    joints_mm2 = zone_joints_mm2(panel, zone, len(names))
    found = [
        (name, _grout(args, part, depth_mm)) for name, part in zip(names, joints_mm2.tolist(), strict=True)
    ]
    rows = [
        (name, f"{g.joint_area_mm2 / 100:.1f}", f"{g.powder_g:.1f}", f"{g.water_g:.1f}")
        for name, g in sorted(found, key=lambda one: -one[1].joint_area_mm2)
    ]
    return [table(("zone", "joints cm²", "powder g", "water g"), rows), ""]

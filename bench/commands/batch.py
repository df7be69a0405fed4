"""`potwatch batch`: resin and hardener for an area, and whether the scale can hold the ratio."""

from __future__ import annotations

import argparse
import math

from bench.adhesive import Scale, find_product, prescribe, working_time_s
from bench.commands.options import DEFAULTS, add_adhesive, add_bed, check_values
from bench.commands.output import write_json


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--area-cm2", type=float, required=True, help="area of the bed")
    add_adhesive(parser)
    add_bed(parser)
    parser.add_argument("--waste", type=float, default=DEFAULTS.waste, help="share lost, e.g. 0.1")
    parser.add_argument(
        "--residue-g", type=float, default=DEFAULTS.residue_g, help="what stays on cup and stick"
    )
    parser.add_argument("--poured-resin-g", type=float, help="resin already in the cup")
    parser.add_argument("--cumulative", action="store_true", help="the scale is not tared between the parts")
    parser.add_argument("--json", metavar="FILE", help="write JSON; '-' is stdout")


def run(args: argparse.Namespace) -> int:
    check_values(args)
    product = find_product(args.adhesive)
    batch = prescribe(
        product,
        bed_area_mm2=args.area_cm2 * 100.0,
        bed_mm=args.bed_mm,
        waste=args.waste,
        residue_g=args.residue_g,
        scale=Scale(step_g=args.scale_g, cumulative=args.cumulative),
        poured_resin_g=args.poured_resin_g,
    )
    time_s = working_time_s(product, temperature_C=args.temperature, mass_g=batch.total_g)
    data = {
        "resin_g": batch.resin_g,
        "hardener_g": batch.hardener_g,
        "total_g": batch.total_g,
        "worst_ratio_error": batch.worst_ratio_error,
        "scale_ok": batch.scale_ok,
        "volume_cm3": batch.volume_cm3,
        "mixed_density_g_per_cm3": batch.mixed_density_g_per_cm3,
        "working_time_s": time_s,
        "hardener_target_g": batch.hardener_target_g,
        "smallest_batch_g": batch.smallest_batch_g,
    }
    if args.json != "-":
        print(_report(product.name, product.is_two_part, data))
    if args.json is not None:
        write_json(data, args.json)
    return 0


def _report(name: str, two_part: bool, data: dict[str, float]) -> str:
    if not two_part:
        return f"{name}: {data['total_g']:.1f} g, open for {data['working_time_s'] / 60:.0f} min"
    error = data["worst_ratio_error"]
    held = (
        "the scale holds the ratio"
        if data["scale_ok"]
        else (
            "this scale cannot hold the ratio: "
            f"mix {data['smallest_batch_g']:.1f} g or more, or use a finer one"
        )
    )
    off = f"{100 * error:.1f} %" if math.isfinite(error) else "without bound"
    return (
        f"{name}: resin {data['resin_g']:.2f} g, hardener {data['hardener_g']:.2f} g, "
        f"{data['total_g']:.2f} g in all\n"
        f"working time {data['working_time_s'] / 60:.1f} min; ratio off by at most {off}: {held}"
    )

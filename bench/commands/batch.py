"""`potwatch batch`: resin and hardener for an area, and whether the scale can hold the ratio."""

from __future__ import annotations

import argparse
import math
from collections.abc import Mapping
from typing import Any

from bench.adhesive.batch import Batch, prescribe, scale_advice
from bench.adhesive.poured import Poured, judge_poured, poured_words
from bench.adhesive.product import Product
from bench.adhesive.product_file import find_product
from bench.adhesive.scale import Scale, checked_reading_g
from bench.adhesive.working_time import working_time_s
from bench.commands.options import DEFAULTS, add_adhesive, add_bed, add_json, check_values, number
from bench.commands.output import write_json
from bench.job.cup_heat import CupHeat, cup_heat, heat_words
from bench.speech import said, say


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--area-cm2", type=number, required=True, help=say("area of the bed"))
    add_adhesive(parser)
    add_bed(parser)
    parser.add_argument("--waste", type=number, default=DEFAULTS.waste, help=say("share lost, e.g. 0.1"))
    parser.add_argument(
        "--residue-g", type=number, default=DEFAULTS.residue_g, help=say("what stays on cup and stick")
    )
    parser.add_argument(
        "--bottles",
        type=number,
        metavar="C",
        help=say("of the bottles, °C, where they were kept cold or warm"),
    )
    parser.add_argument("--poured-resin-g", type=number, help=say("resin already in the cup"))
    parser.add_argument(
        "--poured-hardener-g", type=number, help=say("hardener already on it: judges the ratio")
    )
    parser.add_argument(
        "--cumulative", action="store_true", help=say("the scale is not tared between the parts")
    )
    add_json(parser)


def run(args: argparse.Namespace) -> int:
    check_values(args)
    product = find_product(args.adhesive)
    scale = Scale(step_g=args.scale_g, cumulative=args.cumulative)
    _check_readings(args, product, scale)
    batch = prescribe(
        product,
        bed_area_mm2=args.area_cm2 * 100.0,
        bed_mm=args.bed_mm,
        waste=args.waste,
        residue_g=args.residue_g,
        scale=scale,
        poured_resin_g=args.poured_resin_g,
    )
    poured = None
    if args.poured_hardener_g is not None:
        poured = judge_poured(product, resin_g=batch.resin_g, hardener_g=args.poured_hardener_g, scale=scale)
    mass_g = batch.total_g if poured is None else poured.resin_g + poured.hardener_g
    time_s = working_time_s(product, temperature_C=args.temperature, mass_g=mass_g, mix_C=args.bottles)
    heat = cup_heat(
        product, mass_g=mass_g, temperature_C=args.temperature, bed_mm=args.bed_mm, mix_C=args.bottles
    )
    data = _figures(batch, time_s, poured, heat)
    if args.json != "-":
        advice = scale_advice(product, batch, scale) or say("the scale holds the ratio")
        print(_report(said(product.name), product.is_two_part, data, advice))
        told = [*(poured_words(poured, tolerance=product.tolerance) if poured else ()), _warms(heat)]
        print("".join(f"{words.rstrip('.')}.\n" for words in told if words), end="")
    if args.json is not None:
        write_json(data, args.json)
    return 0


def _check_readings(args: argparse.Namespace, product: Product, scale: Scale) -> None:
    """Raise what is wrong with readings of the scale: 0.0, kilograms, hardener before resin."""
    resin_g, hardener_g = args.poured_resin_g, args.poured_hardener_g
    if resin_g == 0 and hardener_g:
        judge_poured(product, resin_g=0.0, hardener_g=hardener_g, scale=scale)
    for field, mass_g in (("poured_resin_g", resin_g), ("poured_hardener_g", hardener_g)):
        if mass_g is not None:
            checked_reading_g(field, mass_g, scale.step_g)


def _figures(
    batch: Batch, time_s: float, poured: Poured | None, heat: CupHeat | None
) -> dict[str, float | None]:
    """Return what the JSON holds. cups: into how many the mix must be split, 1 for none."""
    data: dict[str, float | None] = {
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
        "cups": 1 if heat is None else heat.cups,
        "hot_after_s": None if heat is None else heat.in_cup.to_hot_s,
    }
    if poured is not None:
        data |= {
            "ratio_error": poured.ratio_error,
            "ratio_worst_error": poured.worst_ratio_error,
            "resin_to_add_g": poured.resin_to_add_g,
            "hardener_to_add_g": poured.hardener_to_add_g,
        }
    return data


def _warms(heat: CupHeat | None) -> str:
    return "" if heat is None else ". ".join(heat_words(heat))


def _report(name: str, two_part: bool, data: Mapping[str, Any], advice: str) -> str:
    minutes = data["working_time_s"] / 60
    if not two_part:
        return say(
            "{name}: {total_g:.1f} g, open for {minutes:.0f} min",
            name=name,
            total_g=data["total_g"],
            minutes=minutes,
        )
    masses = say(
        "{name}: resin {resin_g:.2f} g, hardener {hardener_g:.2f} g, {total_g:.2f} g in all",
        name=name,
        resin_g=data["resin_g"],
        hardener_g=data["hardener_g"],
        total_g=data["total_g"],
    )
    error = data["worst_ratio_error"]
    if math.isfinite(error):
        times = say(
            "working time {minutes:.1f} min; ratio off by at most {percent:.1f} %: {advice}",
            minutes=minutes,
            percent=100 * error,
            advice=advice,
        )
    else:
        times = say(
            "working time {minutes:.1f} min; ratio off without bound: {advice}",
            minutes=minutes,
            advice=advice,
        )
    return f"{masses}\n{times}"

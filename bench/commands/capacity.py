"""`potwatch capacity`: how much can be set from one batch, from a pace or from past glue-ups."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import Any

from bench.adhesive.faults import OutsideRange
from bench.adhesive.product import Product
from bench.adhesive.product_file import find_product
from bench.adhesive.working_time import working_time_s
from bench.commands.options import add_adhesive, add_json, add_promise, add_transfer, check_values, stated_of
from bench.commands.output import write_json
from bench.commands.plan import known_for
from bench.job.learning import Known, hands_of
from bench.job.sizing import routine_of
from bench.pace.capacity import Capacity, capacity
from bench.pace.csv_file import read_glue_ups
from bench.pace.glueup import GlueUp
from bench.pace.life import learn_life
from bench.pace.patches import ByPatch
from bench.speech import area, plain_area, say, say_n

SMALL_BATCH_G = 10.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--glue-ups", type=Path, metavar=say("FILE.csv"), help=say("past glue-ups instead of the book")
    )
    add_promise(parser)
    add_transfer(parser)
    add_adhesive(parser)
    add_json(parser)


def run(args: argparse.Namespace) -> int:
    check_values(args)
    product = _product(args)
    time_s = working_time_s(product, temperature_C=args.temperature, mass_g=SMALL_BATCH_G)
    known = _known(args, product, time_s)
    found = capacity(
        known.hands.together(args.hands),
        known.life_of(args.adhesive),
        working_time_s=time_s,
        routine=routine_of(product),
        sure=args.sure,
    )
    by_patch = known.hands.by_patch
    data = capacity_json(found, by_patch)
    if args.json != "-":
        print(_report(found, by_patch))
    if args.json is not None:
        write_json(data, args.json)
    return 0


def _product(args: argparse.Namespace) -> Product:
    product = find_product(args.adhesive)
    if args.working_time is None:
        return product
    timed = product.working_time.model_copy(update={"minutes": args.working_time})
    return product.model_copy(update={"working_time": timed})


def _known(args: argparse.Namespace, product: Product, time_s: float) -> Known:
    if args.glue_ups is None:
        return known_for(stated_of(args), book=args.pace is None)
    from bench.book import SystemClock  # read only where there is a table to hold against it

    table = read_glue_ups(args.glue_ups, now_utc=SystemClock().utc())
    glue_ups = [_with_its_label(g, product) for g in table]
    if args.transfer is None and table:
        args.transfer = "patch" if table[-1].is_by_patch else "single"
    if args.patch_cm2 is None:
        args.patch_cm2 = _usual_patch_cm2(table)
    return Known(
        hands=hands_of(glue_ups, stated_of(args)),
        lives={args.adhesive: learn_life(glue_ups, working_time_s=time_s)},
    )


def _usual_patch_cm2(table: Sequence[GlueUp]) -> float | None:
    """Return the bed of a usual patch, the median of those set; None where there are none. [cm²]"""
    seen = [g.area_mm2 / 100.0 / g.patches for g in table if g.is_by_patch]
    return median(seen) if seen else None


def _with_its_label(glue_up: GlueUp, product: Product) -> GlueUp:
    """Judge a glue-up against the working time of its own day; one too cold or hot tells no life."""
    try:
        label_s = working_time_s(product, temperature_C=glue_up.temperature_C, mass_g=SMALL_BATCH_G)
    except OutsideRange:
        return replace(glue_up, learn_life=False)
    return replace(glue_up, label_s=label_s)


def capacity_json(found: Capacity, by_patch: ByPatch | None = None) -> dict[str, Any]:
    """Return the figures of a capacity as the JSON gives them, by the patch in usual patches."""
    fits: dict[str, Any] = {"capacity_effort": found.capacity_effort, "pieces_medium": found.pieces_medium}
    if by_patch is not None:
        bed_cm2 = found.capacity_effort * by_patch.patch_cm2
        fits = {"patches": found.pieces_medium, "patch_cm2": by_patch.patch_cm2, "bed_cm2": bed_cm2}
    return {
        "capacity_s": found.capacity_s,
        **fits,
        "stir_s": found.stir_s,
        "spread_s": found.spread_s,
        "clean_s": found.clean_s,
        "reserve_s": found.reserve_s,
        "pace_per_min": dict(found.pace_per_min),
        "life_s": dict(found.life_s),
    }


def _report(found: Capacity, by_patch: ByPatch | None) -> str:
    pace, life = found.pace_per_min, found.life_s
    fits = say_n(
        "{count} medium piece, {minutes:.1f} min of setting, sure of {sure:.0f} in 100",
        "{count} medium pieces, {minutes:.1f} min of setting, sure of {sure:.0f} in 100",
        round(found.pieces_medium),
        minutes=found.capacity_s / 60,
        sure=100 * found.sure,
    )
    if by_patch is not None:
        fits = say_n(
            "{count} patch of {each}, {bed} in all, {minutes:.1f} min of setting, "
            "sure of {sure:.0f} in 100",
            "{count} patches of {each}, {bed} in all, {minutes:.1f} min of setting, "
            "sure of {sure:.0f} in 100",
            found.pieces_medium,
            each=plain_area(100.0 * by_patch.patch_cm2),
            bed=area(100.0 * found.capacity_effort * by_patch.patch_cm2),
            minutes=found.capacity_s / 60,
            sure=100 * found.sure,
        )
    times = say(
        "working time {whole:.1f} min = stir {stir:.1f} + spread {spread:.1f} + set {set:.1f} + "
        "clean {clean:.1f} + reserve {reserve:.1f}",
        whole=found.working_time_s / 60,
        stir=found.stir_s / 60,
        spread=found.spread_s / 60,
        set=found.capacity_s / 60,
        clean=found.clean_s / 60,
        reserve=found.reserve_s / 60,
    )
    hands = say(
        "pace {p10:.1f} – {p50:.1f} – {p90:.1f} a minute, adhesive good for "
        "{life10:.0f} – {life50:.0f} – {life90:.0f} min (10–50–90 %)",
        **pace,
        **{f"life{p[1:]}": seconds / 60 for p, seconds in life.items()},
    )
    return "\n".join((fits, times, hands))

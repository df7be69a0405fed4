"""`potwatch capacity`: how much can be set from one batch, from a pace or from past glue-ups."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import Any

from bench.adhesive import OutsideRange, Product, find_product, working_time_s
from bench.commands.options import add_adhesive, add_promise, check_values
from bench.commands.output import write_json
from bench.commands.plan import known_for
from bench.job.learning import Known
from bench.job.sizing import routine_of
from bench.pace import Capacity, GlueUp, capacity, learn_hands, learn_life, read_glue_ups

SMALL_BATCH_G = 10.0


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--glue-ups", type=Path, metavar="FILE.csv", help="past glue-ups instead of the book")
    add_promise(parser)
    add_adhesive(parser)
    parser.add_argument("--json", metavar="FILE", help="write JSON; '-' is stdout")


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
    data = capacity_json(found)
    if args.json != "-":
        print(_report(found))
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
        return known_for(args.pace)
    from bench.book import SystemClock  # read only where there is a table to hold against it

    table = read_glue_ups(args.glue_ups, now_utc=SystemClock().utc())
    glue_ups = [_with_its_label(g, product) for g in table]
    return Known(
        hands=learn_hands(glue_ups, pace_per_min=args.pace),
        lives={args.adhesive: learn_life(glue_ups, working_time_s=time_s)},
    )


def _with_its_label(glue_up: GlueUp, product: Product) -> GlueUp:
    """Judge a glue-up against the working time of its own day; one too cold or hot tells no life."""
    try:
        label_s = working_time_s(product, temperature_C=glue_up.temperature_C, mass_g=SMALL_BATCH_G)
    except OutsideRange:
        return replace(glue_up, learn_life=False)
    return replace(glue_up, label_s=label_s)


def capacity_json(found: Capacity) -> dict[str, Any]:
    """Return the figures of a capacity as the JSON gives them."""
    return {
        "capacity_s": found.capacity_s,
        "capacity_effort": found.capacity_effort,
        "pieces_medium": found.pieces_medium,
        "stir_s": found.stir_s,
        "spread_s": found.spread_s,
        "clean_s": found.clean_s,
        "reserve_s": found.reserve_s,
        "pace_per_min": dict(found.pace_per_min),
        "life_s": dict(found.life_s),
    }


def _report(found: Capacity) -> str:
    pace, life = found.pace_per_min, found.life_s
    return (
        f"{found.pieces_medium:.0f} medium pieces, {found.capacity_s / 60:.1f} min of setting, "
        f"sure of {100 * found.sure:.0f} in 100\n"
        f"working time {found.working_time_s / 60:.1f} min = stir {found.stir_s / 60:.1f} + spread "
        f"{found.spread_s / 60:.1f} + set {found.capacity_s / 60:.1f} + clean {found.clean_s / 60:.1f} + "
        f"reserve {found.reserve_s / 60:.1f}\n"
        f"pace {pace['p10']:.1f} – {pace['p50']:.1f} – {pace['p90']:.1f} a minute, adhesive good for "
        f"{life['p10'] / 60:.0f} – {life['p50'] / 60:.0f} – {life['p90'] / 60:.0f} min (10–50–90 %)"
    )

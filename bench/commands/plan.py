"""`potwatch plan`: read a drawing, divide it, prescribe, and print or write the plan."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

import numpy as np

from bench.adhesive.product_file import find_product, shipped_products
from bench.book.events import BenchSet
from bench.commands.options import (
    DEFAULTS,
    add_adhesive,
    add_bed,
    add_drawing,
    add_promise,
    add_transfer,
    check_values,
    number,
)
from bench.commands.output import (
    figure,
    for_programs,
    write_file,
    write_json,
)
from bench.commands.plan_file import numbers_of, plan_json
from bench.commands.plan_words import outlook, report
from bench.commands.reading import drawn
from bench.drawing.panel import Panel
from bench.job.acts.opening import with_white_for_clear
from bench.job.bedding import products_of
from bench.job.learning import Known, Stated, learn, stated_by
from bench.job.planning import Plan, plan_ground
from bench.job.sizing import Sizer
from bench.speech import say


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    add_promise(parser)
    add_transfer(parser)
    add_adhesive(parser)
    add_bed(parser)
    parser.add_argument("--prefer", choices=("forms", "fewest"), default="forms")
    parser.add_argument(
        "--hours-a-day", type=number, default=DEFAULTS.hours_a_day, metavar="H", help=say("of glueing up")
    )
    parser.add_argument(
        "--laying-hours-a-day",
        type=number,
        default=DEFAULTS.laying_hours_a_day,
        metavar="H",
        help=say("of laying dry, beside the glueing up"),
    )
    parser.add_argument("--json", metavar=say("FILE"), help=say("write the plan as JSON; '-' is stdout"))
    parser.add_argument("--picture", type=Path, metavar=say("FILE.png"), help=say("draw the sections"))


def run(args: argparse.Namespace) -> int:
    check_values(args)
    panel, news = drawn(args)
    given = find_product(args.adhesive)
    bench = with_white_for_clear(bench_of(args), given)

    def look_up(name: str) -> Any:
        return given if name == args.adhesive else find_product(name)

    products = products_of(panel, bench, look_up, shipped_products())
    measures = Sizer(panel, bench, products, known_for(stated_by(bench), book=args.pace is None))
    plan = plan_ground(measures)
    data = plan_json(panel, bench, measures, plan)
    if args.picture is not None:
        _draw(panel, plan, data, args.picture)
    if args.json != "-":
        notes = (*panel.warnings, *plan.warnings)
        print(*filter(None, (news, report(panel, data, notes))), sep="\n")
        print(outlook(panel, measures, plan))
    if args.json is not None:
        write_json(data | _sentences_json(args, panel, measures, plan), args.json)
    return 0


def bench_of(args: argparse.Namespace) -> BenchSet:
    """Return the settings of the bench that the options give."""
    transfer = args.transfer or DEFAULTS.transfer
    return BenchSet(
        adhesive=args.adhesive,
        sure=args.sure,
        prefer=args.prefer,
        pace_per_min=args.pace if transfer == "single" else None,
        temperature_C=args.temperature,
        working_time_s=None if args.working_time is None else args.working_time * 60.0,
        bed_mm=args.bed_mm,
        scale_g=args.scale_g,
        hands=args.hands,
        hours_a_day=args.hours_a_day,
        laying_hours_a_day=args.laying_hours_a_day,
        transfer=transfer,
        patch_cm2=DEFAULTS.patch_cm2 if args.patch_cm2 is None else args.patch_cm2,
        patches_per_min=None if transfer == "single" else args.pace,
        half_life=args.half_life,
    )


def known_for(stated: Stated, *, book: bool) -> Known:
    """Return what is known of the hands: what is stated, and unless a pace is, what the book teaches."""
    if not book:
        return learn([], stated=stated, now_utc=None)
    from bench.book import Store, SystemClock, data_folder  # the book is opened only where it is needed
    from bench.job.learning import learn_from_book

    folder = data_folder()
    if not Store.exists(folder):
        return learn([], stated=stated, now_utc=None)
    store = Store.open(folder, read_only=True)
    try:
        return learn_from_book(store, stated, SystemClock().utc())
    finally:
        store.close()


def _sentences_json(args: argparse.Namespace, panel: Panel, measures: Sizer, plan: Plan) -> dict[str, Any]:
    """Return that part of the plan file that has sentences in it, in English whatever is spoken.

    They are said while a drawing is read and divided: where there are any, that is done again.
    """
    with for_programs() as otherwise:
        if otherwise and (panel.left_out or panel.warnings):
            panel, _ = drawn(args)
        if otherwise and plan.warnings:
            plan = plan_ground(measures)
    return {
        "left_out": [{"what": x.what, "count": x.count, "why": x.why} for x in panel.left_out],
        "warnings": [*panel.warnings, *plan.warnings],
    }


def _draw(panel: Panel, plan: Plan, data: dict[str, Any], path: Path) -> None:
    """Write the picture of the division, its figures beside it."""
    import io

    from bench.drawing.figures import with_figures
    from bench.drawing.picture import picture_png

    numbers, label = np.unique(numbers_of(panel, plan), return_inverse=True)  # every tessera has one
    picture = picture_png(panel, label.reshape(-1), numbers=numbers.tolist())
    rows = [
        (
            str(s["number"]),
            str(s["tessera_count"]),
            figure(s["expected_s"] / 60, 1),
            figure(s["batch"]["total_g"], 1),
            str(min(99, round(100 * s["in_time"]))),
        )
        for s in data["sections"]
    ]
    out = io.BytesIO()
    head = (say("section"), say("pieces"), say("min"), "g", say("sure of 100"))
    with_figures(picture, head, rows).save(out, format="PNG")
    write_file(path, out.getvalue())

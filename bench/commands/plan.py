"""`potwatch plan`: read a drawing, divide it, prescribe, and print or write the plan."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bench.adhesive import find_product, shipped_products
from bench.book.events import BenchSet
from bench.commands.options import DEFAULTS, add_adhesive, add_bed, add_drawing, add_promise, check_values
from bench.commands.output import table, write_file, write_json
from bench.commands.reading import drawn
from bench.drawing import Panel
from bench.job.acts.opening import with_white_for_clear
from bench.job.calendar import by_day, foreseen
from bench.job.foretelling import finishing_days, forecast_of, parts_foretold, parts_g, told
from bench.job.learning import Known, learn
from bench.job.planning import Plan, plan_ground
from bench.job.sizing import Sizer, products_of
from bench.sections import facts_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_drawing(parser)
    add_promise(parser)
    add_adhesive(parser)
    add_bed(parser)
    parser.add_argument("--prefer", choices=("forms", "fewest"), default="forms")
    parser.add_argument(
        "--hours-a-day", type=float, default=DEFAULTS.hours_a_day, metavar="H", help="of glueing up"
    )
    parser.add_argument("--json", metavar="FILE", help="write the plan as JSON; '-' is stdout")
    parser.add_argument("--picture", type=Path, metavar="FILE.png", help="draw the sections")


def run(args: argparse.Namespace) -> int:
    check_values(args)
    panel, said = drawn(args)
    given = find_product(args.adhesive)
    bench = with_white_for_clear(bench_of(args), given)

    def look_up(name: str) -> Any:
        return given if name == args.adhesive else find_product(name)

    products = products_of(panel, bench, look_up, shipped_products())
    measures = Sizer(panel, bench, products, known_for(args.pace))
    plan = plan_ground(measures)
    data = plan_json(panel, bench, measures, plan)
    if args.picture is not None:
        _draw(panel, plan, data, args.picture)
    if args.json != "-":
        print(report(panel, data) if not said else f"{said}\n{report(panel, data)}")
        print(outlook(panel, measures, plan))
    if args.json is not None:
        write_json(data, args.json)
    return 0


def bench_of(args: argparse.Namespace) -> BenchSet:
    """Return the settings of the bench that the options give."""
    return BenchSet(
        adhesive=args.adhesive,
        sure=args.sure,
        prefer=args.prefer,
        pace_per_min=args.pace,
        temperature_C=args.temperature,
        working_time_s=None if args.working_time is None else args.working_time * 60.0,
        bed_mm=args.bed_mm,
        scale_g=args.scale_g,
        hands=args.hands,
        hours_a_day=args.hours_a_day,
    )


def known_for(pace_per_min: float | None) -> Known:
    """Return what is known of the hands: of a stated pace nothing else, otherwise what the book teaches."""
    if pace_per_min is not None:
        return learn([], pace_per_min=pace_per_min, now_utc=None)
    from bench.book import Store, SystemClock, data_folder  # the book is opened only where it is needed
    from bench.job.learning import learn_from_book

    folder = data_folder()
    if not Store.exists(folder):
        return learn([], pace_per_min=None, now_utc=None)
    store = Store.open(folder, read_only=True)
    try:
        return learn_from_book(store, pace_per_min=None, now_utc=SystemClock().utc())
    finally:
        store.close()


def plan_json(panel: Panel, bench: BenchSet, measures: Sizer, plan: Plan) -> dict[str, Any]:
    """Return the plan file; shared/plan.schema.json describes it."""
    section = numbers_of(panel, plan)
    return {
        "schema": 1,
        "panel": {
            "width_mm": panel.width_mm,
            "height_mm": panel.height_mm,
            "tessera_count": panel.tessera_count,
            "glass_area_mm2": panel.glass_area_mm2,
            "joint_area_mm2": panel.joint_area_mm2,
        },
        "assumptions": _assumptions(bench, plan),
        "lower_bound": plan.lower_bound,
        "tesserae": [
            {"id": i, "x_mm": x, "y_mm": y, "area_mm2": a, "expected_s": t, "section": s}
            for i, (x, y), a, t, s in zip(
                panel.ids,
                panel.centroid_mm.tolist(),
                panel.area_mm2.tolist(),
                plan.expected_s.tolist(),
                section.tolist(),
                strict=True,
            )
        ],
        "sections": [_section(measures, promise) for promise in plan.promises],
        "left_out": [{"what": x.what, "count": x.count, "why": x.why} for x in panel.left_out],
        "warnings": [*panel.warnings, *plan.warnings],
    }


def numbers_of(panel: Panel, plan: Plan) -> NDArray[np.int32]:
    """Return the section of each tessera, (n,)."""
    number = np.zeros(panel.tessera_count, dtype=np.int32)
    for promise in plan.promises:
        number[list(promise.tesserae)] = promise.number
    return number


def _assumptions(bench: BenchSet, plan: Plan) -> dict[str, Any]:
    """Return the figures of the adhesive that most sections take."""
    names = [p.adhesive for p in plan.promises]
    main = max(plan.capacities, key=names.count)
    found = plan.capacities[main]
    return {
        "working_time_s": found.working_time_s,
        "stir_s": found.stir_s,
        "spread_s": found.spread_s,
        "clean_s": found.clean_s,
        "reserve_s": found.reserve_s,
        "capacity_s": found.capacity_s,
        "sure": bench.sure,
        "prefer": bench.prefer,
        "pace_per_min": found.pace_per_min["p50"],
        "temperature_C": bench.temperature_C,
    }


def _section(measures: Sizer, promise: Any) -> dict[str, Any]:
    members = np.asarray(promise.tesserae, dtype=np.int32)
    batch = measures.batch(promise.adhesive, members)
    return {
        "number": promise.number,
        "adhesive": measures.products[promise.adhesive].name,
        "tessera_count": len(promise.tesserae),
        "area_mm2": measures.bed_mm2(members),
        "expected_s": promise.expected_s,
        "capacity_s": promise.capacity_s,
        "in_time": promise.in_time,
        "batch": {
            "resin_g": batch.resin_g,
            "hardener_g": batch.hardener_g,
            "total_g": batch.total_g,
            "worst_ratio_error": batch.worst_ratio_error,
            "scale_ok": batch.scale_ok,
        },
    }


def report(panel: Panel, data: dict[str, Any]) -> str:
    """Return the plan for a person to read."""
    given, sections = data["assumptions"], data["sections"]
    rows = [
        (
            str(s["number"]),
            str(s["tessera_count"]),
            f"{s['area_mm2'] / 100:.1f}",
            f"{s['expected_s'] / 60:.1f}",
            f"{100 * s['in_time']:.0f} %",
            f"{s['batch']['resin_g']:.1f}",
            f"{s['batch']['hardener_g']:.1f}",
            "ok" if s["batch"]["scale_ok"] else "finer scale",
            s["adhesive"],
        )
        for s in sections
    ]
    head = ("section", "pieces", "cm²", "minutes", "in time", "resin g", "hardener g", "scale", "adhesive")
    total_g = sum(s["batch"]["total_g"] for s in sections)
    lines = [
        f"{panel.name}: {panel.width_mm:.0f} × {panel.height_mm:.0f} mm, "
        f"{panel.tessera_count} {'tessera' if panel.tessera_count == 1 else 'tesserae'}, "
        f"{panel.glass_area_mm2 / 100:.0f} cm² of glass, {panel.joint_area_mm2 / 100:.0f} cm² of joints",
        f"Working time {given['working_time_s'] / 60:.1f} min at {given['temperature_C']:.0f} °C: "
        f"stir {given['stir_s'] / 60:.1f}, spread {given['spread_s'] / 60:.1f}, "
        f"set {given['capacity_s'] / 60:.1f}, clean {given['clean_s'] / 60:.1f}, "
        f"in reserve {given['reserve_s'] / 60:.1f}; "
        f"{given['pace_per_min']:.1f} pieces a minute; sure of {100 * given['sure']:.0f} in 100",
        "",
        table(head, rows),
        "",
        f"{len(sections)} {'section' if len(sections) == 1 else 'sections'} "
        f"(the fewest there can be: {data['lower_bound']}), {total_g:.0f} g of adhesive in all",
    ]
    lines += [f"left out: {x['count']} × {x['what']}: {x['why']}" for x in data["left_out"]]
    lines += [f"note: {text}" for text in data["warnings"]]
    return "\n".join(lines)


def outlook(panel: Panel, measures: Sizer, plan: Plan) -> str:
    """Return what the whole panel is foretold to take, and which section comes on which day."""
    names = {p.number: p.adhesive for p in plan.promises}
    facts = facts_of(panel, numbers_of(panel, plan), measures.expected_s, stage={}, adhesive=names)
    bench = measures.bench
    steps = foreseen(
        facts, measures.products, temperature_C=bench.temperature_C, hours_a_day=bench.hours_a_day
    )
    left = forecast_of(measures, plan.promises)
    hours = "–".join(f"{left.hours[p]:.1f}" for p in ("p10", "p50", "p90"))
    lines = [f"foretold (10–50–90 %): {told(left.glue_ups)} glue-ups, {hours} h of them"]
    if steps:
        finished = finishing_days(steps[-1].day, len(plan.promises), left.glue_ups)
        lines[0] += f", the last on day {told(finished)}"
    lines += parts_foretold(parts_g(measures, plan.promises), left.adhesive_g or {})
    days = "; ".join(f"day {day}: {', '.join(map(str, numbers))}" for day, numbers in by_day(steps).items())
    if days:
        lines.append(f"foreseen at {bench.hours_a_day:g} h a day, neighbours firm first: {days}")
    return "\n".join(lines)


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
            f"{s['expected_s'] / 60:.1f}",
            f"{s['batch']['total_g']:.1f}",
            f"{min(99, round(100 * s['in_time']))}",
        )
        for s in data["sections"]
    ]
    out = io.BytesIO()
    with_figures(picture, ("section", "pieces", "min", "g", "sure of 100"), rows).save(out, format="PNG")
    write_file(path, out.getvalue())

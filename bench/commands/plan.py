"""`potwatch plan`: read a drawing, divide it, prescribe, and print or write the plan."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bench.adhesive import find_product, shipped_products
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
    figure_of_area,
    for_programs,
    left_out_words,
    table,
    write_file,
    write_json,
)
from bench.commands.reading import drawn
from bench.drawing import Panel
from bench.job.acts.opening import with_white_for_clear
from bench.job.bedding import products_of
from bench.job.calendar import by_day, foreseen, laid_first, laying_hours
from bench.job.foretelling import finishing_days, forecast_of, parts_foretold, parts_g, told
from bench.job.learning import Known, Stated, learn, stated_by
from bench.job.planning import Plan, plan_ground
from bench.job.sizing import Sizer
from bench.sections import facts_of
from bench.speech import area, area_unit, plain_area, said, say, say_n, size, temperature


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


def plan_json(panel: Panel, bench: BenchSet, measures: Sizer, plan: Plan) -> dict[str, Any]:
    """Return the plan file but for its sentences; shared/plan.schema.json describes it."""
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
    }


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
        **({"patch_cm2": bench.patch_cm2} if bench.by_patch else {}),
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


def report(panel: Panel, data: dict[str, Any], notes: Sequence[str]) -> str:
    """Return the plan for a person to read, with what the maker should know of it."""
    sections = data["sections"]
    rows = [
        (
            str(s["number"]),
            str(s["tessera_count"]),
            figure_of_area(s["area_mm2"], 1),
            figure(s["expected_s"] / 60, 1),
            say("{percent:.0f} %", percent=100 * s["in_time"]),
            figure(s["batch"]["resin_g"], 1),
            figure(s["batch"]["hardener_g"], 1),
            say("ok") if s["batch"]["scale_ok"] else say("finer scale"),
            said(s["adhesive"]),
        )
        for s in sections
    ]
    head = (
        *(say("section"), say("pieces"), area_unit(), say("minutes"), say("in time")),
        *(say("resin g"), say("hardener g"), say("scale"), say("adhesive")),
    )
    fewest = say_n(
        "{count} section (the fewest there can be: {fewest}), {mass:.0f} g of adhesive in all",
        "{count} sections (the fewest there can be: {fewest}), {mass:.0f} g of adhesive in all",
        len(sections),
        fewest=data["lower_bound"],
        mass=sum(s["batch"]["total_g"] for s in sections),
    )
    lines = [_panel_line(panel), _time_line(data["assumptions"]), "", table(head, rows), "", fewest]
    lines += [left_out_words(some) for some in panel.left_out]
    lines += [say("note: {note}", note=text) for text in notes]
    return "\n".join(lines)


def _panel_line(panel: Panel) -> str:
    return say_n(
        "{name}: {size}, {count} tessera, {glass} of glass, {joints} of joints",
        "{name}: {size}, {count} tesserae, {glass} of glass, {joints} of joints",
        panel.tessera_count,
        name=panel.name,
        size=size(panel.width_mm, panel.height_mm),
        glass=area(panel.glass_area_mm2),
        joints=area(panel.joint_area_mm2),
    )


def _time_line(given: dict[str, Any]) -> str:
    """Say what the working time is made of, the pace and the promise."""
    pace = say("{pace:.1f} pieces a minute", pace=given["pace_per_min"])
    if "patch_cm2" in given:
        each = plain_area(100.0 * given["patch_cm2"])
        pace = say("{pace:.1f} patches of {each} a minute", pace=given["pace_per_min"], each=each)
    return say(
        "Working time {whole:.1f} min at {temperature}: stir {stir:.1f}, spread {spread:.1f}, set {set:.1f}, "
        "clean {clean:.1f}, in reserve {reserve:.1f}; {pace}; sure of {sure:.0f} in 100",
        whole=given["working_time_s"] / 60,
        temperature=temperature(given["temperature_C"]),
        stir=given["stir_s"] / 60,
        spread=given["spread_s"] / 60,
        set=given["capacity_s"] / 60,
        clean=given["clean_s"] / 60,
        reserve=given["reserve_s"] / 60,
        pace=pace,
        sure=100 * given["sure"],
    )


def outlook(panel: Panel, measures: Sizer, plan: Plan) -> str:
    """Return what the whole panel is foretold to take, and which section comes on which day."""
    names = {p.number: p.adhesive for p in plan.promises}
    facts = facts_of(panel, numbers_of(panel, plan), measures.expected_s, stage={}, adhesive=names)
    bench = measures.bench
    steps = foreseen(
        facts, measures.products, temperature_C=bench.temperature_C, hours_a_day=bench.hours_a_day
    )
    to_lay = {p.number: laying_hours(measures, p.tesserae) for p in plan.promises}
    set_by = steps[-1].day if steps else 0
    steps = laid_first(steps, to_lay, bench.laying_hours_a_day)
    left = forecast_of(measures, plan.promises)
    foretold = say(
        "foretold (10–50–90 %): {glue_ups} glue-ups, {hours} h of them, {laying} h of laying dry",
        glue_ups=told(left.glue_ups),
        hours="–".join(figure(left.glueing_hours[p], 1) for p in ("p10", "p50", "p90")),
        laying=told(left.laying_hours),
    )
    if steps:
        finished = finishing_days(set_by, len(plan.promises), left.glue_ups, left.laying_days)
        foretold = say("{foretold}, the last on day {day}", foretold=foretold, day=told(finished))
    lines = [foretold, *parts_foretold(parts_g(measures, plan.promises), left.adhesive_g or {})]
    if steps:
        lines.append(_foreseen_line(bench, by_day(steps)))
    return "\n".join(lines)


def _foreseen_line(bench: BenchSet, days: Mapping[int, Sequence[int]]) -> str:
    """Say which section comes on which day."""
    return say(
        "foreseen at {glueing:g} h of glueing up and {laying:g} h of laying a day, "
        "neighbours firm first: {days}",
        glueing=bench.hours_a_day,
        laying=bench.laying_hours_a_day,
        days="; ".join(
            say("day {day}: {sections}", day=day, sections=", ".join(map(str, numbers)))
            for day, numbers in days.items()
        ),
    )


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

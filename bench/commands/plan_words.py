"""The plan for a person to read: its sections, what they rest on, and what is foretold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from bench.book.events import BenchSet
from bench.commands.output import (
    figure,
    figure_of_area,
    left_out_words,
    table,
)
from bench.commands.plan_file import numbers_of
from bench.drawing.panel import Panel
from bench.job.calendar import by_day, foreseen, laid_first, laying_hours
from bench.job.foretelling import finishing_days, forecast_of, parts_foretold, told
from bench.job.measuring import parts_g
from bench.job.planning import Plan
from bench.job.sizing import Sizer
from bench.sections.facts import facts_of
from bench.speech import area, area_unit, plain_area, said, say, say_n, size, temperature


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

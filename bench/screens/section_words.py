"""A section in words, for the card that opens when it is tapped, and what may be done with it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

import numpy as np

from bench.adhesive import Scale, scale_advice
from bench.fault import Fault
from bench.job.acts.opening import sizer
from bench.job.advice import SectionSheet, section_sheet, shorts
from bench.job.calendar import Day, calendar
from bench.job.foretelling import finishing_days, forecast_left, left_of, parts_foretold, parts_g, told
from bench.job.job import Job
from bench.job.stock import stock_of
from bench.job.stock_need import lasting
from bench.job.stock_words import lasting_words, short_words


@dataclass(frozen=True)
class SectionFacts:
    """What the card says: its name, its lines, and the one act that goes on with it ("" for none)."""

    number: int
    head: str
    lines: tuple[str, ...]
    act: str
    to: str  # the screen the act leads to
    may_chip: bool
    may_try: bool
    may_shape: bool


def section_facts(job: Job, number: int) -> SectionFacts:
    """Return a section's card."""
    sheet = section_sheet(job, number)
    act, to = _onward(sheet)
    is_set = sheet.life in ("soft", "firm", "hard")
    return SectionFacts(
        number=number,
        head=f"Section {number}, {sheet.life}",
        lines=(
            *_size_lines(sheet),
            job.product(sheet.adhesive).name,
            *(short_words(short) for short in shorts(job).get(number, ())),
            *_scale_lines(job, sheet),
            *_cure_lines(sheet),
        ),
        act=act,
        to=to,
        may_chip=is_set,
        may_try=is_set and sheet.cure_unsure,
        may_shape=sheet.life == "drawn",
    )


def _size_lines(sheet: SectionSheet) -> tuple[str, ...]:
    pieces = f"{sheet.pieces} pieces"
    if sheet.pieces != sheet.drawn_pieces:
        pieces += f" ({sheet.drawn_pieces} drawn)"
    size = f"{pieces}, {sheet.glass_cm2:.0f} cm²"
    if sheet.life in ("soft", "firm", "hard"):
        return (size,)
    minutes = f"{sheet.expected_s / 60:.0f} min to set"
    if sheet.life == "drawn":
        minutes += f", {sheet.laying_h:.1f} h to lay"
    return (size, minutes, f"sure of {100 * sheet.in_time:.0f} in 100")


def _scale_lines(job: Job, sheet: SectionSheet) -> tuple[str, ...]:
    """Say, while it can still be joined to another, that a section takes too little for the scale."""
    if sheet.life not in ("drawn", "dry"):
        return ()
    measures, bench = sizer(job), job.state.bench
    batch = measures.batch(sheet.adhesive, np.asarray(sheet.tesserae, dtype=np.int32))
    product, scale = measures.products[sheet.adhesive], Scale(bench.scale_g, bench.cumulative)
    said = scale_advice(product, batch, scale)
    return (said,) if said else ()


def _cure_lines(sheet: SectionSheet) -> tuple[str, ...]:
    if sheet.cure_unsure:
        return ("The clock changed: try by hand how far it has cured.",)
    if sheet.life == "soft":
        return (f"firm {sheet.firm_at}", f"hard {sheet.hard_at}")
    return (f"hard {sheet.hard_at}",) if sheet.life == "firm" else ()


def _onward(sheet: SectionSheet) -> tuple[str, str]:
    if sheet.life == "drawn":
        return f"Lay out section {sheet.number}", "dry"
    if sheet.life == "dry":
        return "Go to the cup", "cup"
    if sheet.life == "wet":
        return "Back to its glue-up", "glueup"
    return "", ""


def day_lines(job: Job) -> tuple[str, ...]:
    """Return the foreseen calendar, a line a day, what is foretold, and from when on it may be grouted."""
    from bench.job.finish_days import when_lines  # finishing is no part of a start

    days = calendar(job)
    if not days:
        return ("Nothing is left to foresee, or too much to foresee it.", *when_lines(job))
    bench = job.state.bench
    hours = (
        f"At {bench.hours_a_day:g} h of glueing up and {bench.laying_hours_a_day:g} h of laying a day, "
        "neighbours firm first."
    )
    lines = (f"{day.date:%a %d %b}: {', '.join(map(str, day.sections))}" for day in days)
    return (hours, *lines, *_supplies(job, days), *when_lines(job))


def _supplies(job: Job, days: tuple[Day, ...]) -> tuple[str, ...]:
    """Return the span of the finishing day, and the grams of each part, 10, 50 and 90 % sure.

    Where nothing can be foretold, e.g. in a room too hot for a single piece, it is said why.
    """
    planned = left_of(job)
    try:
        foretold = forecast_left(job)
    except Fault as fault:
        return (f"{fault.what[:1].upper()}{fault.what[1:]}. {fault.todo[:1].upper()}{fault.todo[1:]}.",)
    set_by = calendar(job, laying=False)[-1].day
    last = finishing_days(set_by, len(planned), foretold.glue_ups, foretold.laying_days)
    early, late = (days[0].date + timedelta(days=last[p] - days[0].day) for p in ("p10", "p90"))
    span = f"The last is set between {early:%a %d %b} and {late:%a %d %b}."
    if early == late:
        span = f"The last is set on {late:%a %d %b}."
    grams = parts_foretold(parts_g(sizer(job), planned), foretold.adhesive_g or {})
    left = (
        f"Low–likely–high: {told(foretold.glue_ups)} glue-ups, {told(foretold.glueing_hours)} h of them, "
        f"{told(foretold.laying_hours)} h of laying."
    )
    return (span, left, *lasting_lines(job, days), "To mix, low–likely–high:", *grams)


def lasting_lines(job: Job, days: tuple[Day, ...]) -> tuple[str, ...]:
    """Say of each part that runs out how far it lasts, in the foreseen order."""
    stock = stock_of(job.store)
    if not stock.bottles:
        return ()
    order = [n for day in days for n in day.sections]
    said = [lasting_words(x) for x in lasting(stock, sizer(job), left_of(job), order)]
    return tuple(f"{words}." for words in said if words)


def report_lines(job: Job) -> tuple[str, ...]:
    """Return what the maker should know of the drawing: what was left out and what looks odd."""
    panel = job.panel
    left_out = [f"Left out: {x.count} × {x.told}; {x.why}." for x in panel.left_out]
    return (*left_out, *(f"{x[0].upper()}{x[1:]}." if x else x for x in panel.warnings))

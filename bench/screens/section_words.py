"""A section in words, for the card that opens when it is tapped, and what may be done with it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

import numpy as np

from bench.adhesive.batch import scale_advice
from bench.adhesive.scale import Scale
from bench.fault import Fault
from bench.job.advice import SectionSheet, section_sheet, shorts
from bench.job.calendar import Day, calendar
from bench.job.foretelling import finishing_days, forecast_left, left_of, parts_foretold, told
from bench.job.job import Job
from bench.job.measuring import parts_g, sizer
from bench.job.stock import stock_of
from bench.job.stock_need import lasting
from bench.job.stock_words import lasting_words, short_words
from bench.pace.forecast import Forecast
from bench.screens.picture.life import life_word
from bench.speech import area, brief_day, large_first, said, say, say_n, short_day
from bench.speech.measures import MM2_PER_CM2

MOST_DATED = 60  # sections, up to which the last day is foretold without a pause


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
        head=say("Section {section}, {life}", section=number, life=life_word(sheet.life)),
        lines=(
            *_size_lines(sheet),
            said(job.product(sheet.adhesive).name),
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
    if sheet.pieces == sheet.drawn_pieces:
        pieces = say_n("{count} piece", "{count} pieces", sheet.pieces)
    else:
        pieces = say_n(
            "{count} piece ({drawn} drawn)",
            "{count} pieces ({drawn} drawn)",
            sheet.pieces,
            drawn=sheet.drawn_pieces,
        )
    size = f"{pieces}, {area(MM2_PER_CM2 * sheet.glass_cm2)}"
    if sheet.life in ("soft", "firm", "hard"):
        return (size,)
    minutes, laying_h = sheet.expected_s / 60, sheet.laying_h
    if sheet.life == "drawn":
        spans = say("{minutes:.0f} min to set, {hours:.1f} h to lay", minutes=minutes, hours=laying_h)
    else:
        spans = say("{minutes:.0f} min to set", minutes=minutes)
    return (size, spans, say("sure of {in_time:.0f} in 100", in_time=100 * sheet.in_time))


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
        return (say("The clock changed: try by hand how far it has cured."),)
    if sheet.life == "soft":
        return (say("firm from {when}", when=sheet.firm_at), say("hard from {when}", when=sheet.hard_at))
    return (say("hard from {when}", when=sheet.hard_at),) if sheet.life == "firm" else ()


def _onward(sheet: SectionSheet) -> tuple[str, str]:
    if sheet.life == "drawn":
        return say("Lay out section {section}", section=sheet.number), "dry"
    if sheet.life == "dry":
        return say("Go to the cup"), "cup"
    if sheet.life == "wet":
        return say("Back to its glue-up"), "glueup"
    return "", ""


def day_lines(job: Job) -> tuple[str, ...]:
    """Return the foreseen calendar, a line a day, what is foretold, and from when on it may be grouted."""
    from bench.job.finish_days import when_lines  # finishing is no part of a start

    days = calendar(job)
    if not days:
        return (say("Nothing is left to foresee, or too much to foresee it."), *when_lines(job))
    bench = job.state.bench
    hours = say(
        "Sections by day, at {hours:g} h of glueing up and {laying:g} h of laying, neighbours firm first.",
        hours=bench.hours_a_day,
        laying=bench.laying_hours_a_day,
    )
    lines = (f"{short_day(day.date)}: {', '.join(map(str, day.sections))}" for day in days)
    return (hours, *lines, *_supplies(job, days), *when_lines(job))


def _supplies(job: Job, days: tuple[Day, ...]) -> tuple[str, ...]:
    """Return the span of the finishing day, and the grams of each part, 10, 50 and 90 % sure.

    Where nothing can be foretold, e.g. in a room too hot for a single piece, it is said why.
    """
    planned = left_of(job)
    try:
        foretold = forecast_left(job)
    except Fault as fault:
        return (f"{large_first(fault.what)}. {large_first(fault.todo)}.",)
    set_by = calendar(job, laying=False)[-1].day
    last = finishing_days(set_by, len(planned), foretold.glue_ups, foretold.laying_days)
    early, late = (days[0].date + timedelta(days=last[p] - days[0].day) for p in ("p10", "p90"))
    span = say("The last is set between {early} and {late}.", early=short_day(early), late=short_day(late))
    if early == late:
        span = say("The last is set on {day}.", day=short_day(late))
    grams = parts_foretold(parts_g(sizer(job), planned), foretold.adhesive_g or {})
    left = say(
        "Low–likely–high: {glue_ups} glue-ups, {hours} h of them, {laying} h of laying.",
        glue_ups=told(foretold.glue_ups),
        hours=told(foretold.glueing_hours),
        laying=told(foretold.laying_hours),
    )
    return (span, left, *lasting_lines(job, days), say("To mix, low–likely–high:"), *grams)


def outlook(job: Job) -> str:
    """Say in one line what remains, until which day, and what runs out before; or why nothing is foretold."""
    try:
        left = forecast_left(job)
        days = calendar(job) if len(job.state.sections) <= MOST_DATED else ()
    except Fault as fault:
        return fault.what
    runs_out = next(iter(lasting_lines(job, days)), "")
    until = brief_day(days[-1].date) if len(days) > 1 and not runs_out else ""
    told_left = outlook_words(left, until)
    return f"{told_left}. {runs_out}" if told_left and runs_out else told_left


def lasting_lines(job: Job, days: tuple[Day, ...]) -> tuple[str, ...]:
    """Say of each part that runs out how far it lasts, in the foreseen order."""
    stock = stock_of(job.store)
    if not stock.bottles:
        return ()
    order = [n for day in days for n in day.sections]
    said = [lasting_words(x) for x in lasting(stock, sizer(job), left_of(job), order)]
    return tuple(f"{words}." for words in said if words)


def outlook_words(left: Forecast, until: str) -> str:
    """Say in as few words as it takes what remains, and until which day where that is foretold.

    "" where nothing remains. The hours stand under Days.
    """
    low, mid, high = (round(left.glue_ups[p]) for p in ("p10", "p50", "p90"))
    if not left.glue_ups["p50"]:
        return ""
    to_go = say_n("About {count} glue-up to go", "About {count} glue-ups to go", mid)
    if low < high:
        to_go = say_n(
            "About {count} glue-up to go ({low} to {high})",
            "About {count} glue-ups to go ({low} to {high})",
            mid,
            low=low,
            high=high,
        )
    return say("{to_go}, until {until}", to_go=to_go, until=until) if until else to_go

"""The papers of a panel as PDF: its maker's, with all that the book knows, and its client's."""

from __future__ import annotations

from datetime import datetime

from bench.drawing.template import PAPERS_MM
from bench.finish.money import Hours, Money, work_said
from bench.finish.money_words import amount_said, material_said, money_said, sum_lines
from bench.finish.record import Record, SectionRow, Shown
from bench.finish.record_page import Pages
from bench.finish.units import Units
from bench.finish.weight import Weight
from bench.speech import full_date, said, say, say_n, short_date

Paper = tuple[float, float]


def client_pdf(shown: Shown, written: datetime, units: Units, *, paper_mm: Paper = PAPERS_MM["A4"]) -> bytes:
    """Return the client's paper: picture, what it is made of, what it weighs, and how to care for it."""
    page = Pages(shown.name, paper_mm, written)
    _opening(page, shown, units)
    page.head(say("What it is made of"))
    for line in shown.materials:
        page.text(line)
    page.head(say("Weight"))
    page.text(say("About {weight}.", weight=weight_words(shown.weight, units)))
    page.head(say("Care"))
    for line in shown.care:
        page.text(line)
    return page.done()


def maker_pdf(record: Record, units: Units, *, paper_mm: Paper = PAPERS_MM["A4"]) -> bytes:
    """Return the maker's paper: sections and batches, glass, grout, weight, hours, and what it came to."""
    title = say("{panel}: the maker's record", panel=record.shown.name)
    page = Pages(title, paper_mm, record.written)
    _opening(page, record.shown, units)
    page.head(say("Sections"))
    _sections(page, record, units)
    page.picture(record.numbered, 120.0)
    page.head(say("Glass"))
    _glass(page, record, units)
    page.head(say("Grout and after"))
    for line in (*record.grout, *(f"{full_date(one.day)}: {one.text}" for one in record.done)):
        page.text(line)
    page.head(say("Weight and hanging"))
    for line in record.hanging:
        page.text(line)
    _hours(page, record.money)
    _money(page, record.money)
    if record.notes:
        page.head(say("Notes"))
        for line in record.notes:
            page.text(line)
    return page.done()


def weight_words(weight: Weight, units: Units) -> str:
    """Say the heavier end of the weight: what a hook must be chosen for."""
    return say(
        "{weight}, at most {most}", weight=units.weight(weight.total_g), most=units.weight(weight.p90_g)
    )


def _opening(page: Pages, shown: Shown, units: Units) -> None:
    page.picture(shown.picture, 130.0)
    page.text(_what(shown, units.size(shown.width_mm, shown.height_mm)))


def _what(shown: Shown, size: str) -> str:
    """Say how large it is, of how many pieces, and when it was set."""
    count, begun, ended = shown.pieces, shown.begun, shown.ended
    if begun is None or ended is None:
        return say("{size}, {count:,} pieces of glass.", size=size, count=count)
    if begun == ended:
        day = full_date(begun)
        return say("{size}, {count:,} pieces of glass, set on {day}.", size=size, count=count, day=day)
    return say(
        "{size}, {count:,} pieces of glass, set from {begun} to {ended}.",
        size=size,
        count=count,
        begun=full_date(begun),
        ended=full_date(ended),
    )


def _sections(page: Pages, record: Record, units: Units) -> None:
    if record.sections:
        head = (
            *(say("section"), say("day"), say("pieces"), say("batch")),
            *(say("lot"), say("room"), say("time"), say("promise")),
        )
        page.table(head, [_section(row, units) for row in record.sections])
        told = [row.kept for row in record.sections if row.kept is not None]
        if told:
            page.text(
                say(
                    "Promises kept: {kept} of {count}. Time: to done, of the working time.",
                    kept=sum(told),
                    count=len(told),
                )
            )
        for name in dict.fromkeys(row.adhesive for row in record.sections):
            numbers = ", ".join(str(row.section) for row in record.sections if row.adhesive == name)
            page.text(say("{adhesive}: section {numbers}.", adhesive=said(name), numbers=numbers))
    if record.unset:
        page.text(
            say_n("{count} section is not set yet.", "{count} sections are not set yet.", record.unset)
        )


def _glass(page: Pages, record: Record, units: Units) -> None:
    """Write the glasses in two columns, down the first and then the second."""
    head = ("", say("glass"), say("pieces"), say("area laid"))
    rows = [(g.letter, g.name, str(g.pieces), units.area(g.area_mm2)) for g in record.glass]
    half = (len(rows) + 1) // 2
    rows += [("", "", "", "")] * (2 * half - len(rows))
    page.table((*head, *head), [one + other for one, other in zip(rows[:half], rows[half:], strict=True)])


def _section(row: SectionRow, units: Units) -> tuple[str, ...]:
    both = say("{mass_g:.1f} g", mass_g=row.resin_g)
    if row.hardener_g:
        both = say("{resin_g:.1f} + {hardener_g:.1f} g", resin_g=row.resin_g, hardener_g=row.hardener_g)
    return (
        str(row.section),
        short_date(row.day),
        str(row.pieces),
        both if row.weighed else say("{masses} as planned", masses=both),
        row.lot or "–",
        units.temperature(row.temperature_C),
        say("{took:.0f} of {time:.0f} min", took=row.took_s / 60, time=row.working_time_s / 60),
        promise_words(row),
    )


def promise_words(row: SectionRow) -> str:
    """Say what was promised at the cup, and whether it was kept."""
    kept = {True: say("kept"), False: say("not kept"), None: say("nothing told of it")}[row.kept]
    if row.promised is None:
        return kept
    return say("{sure:.0f} in 100, {kept}", sure=100 * row.promised, kept=kept)


def _hours(page: Pages, money: Money) -> None:
    page.head(say("Hours"))
    if not money.hours:
        page.text(say("None are in the book yet."))
        return
    page.table((say("work"), say("hours"), ""), [_hour(one) for one in money.hours])
    page.text(say("Together {hours:.1f} hours.", hours=money.total_h))


def _hour(one: Hours) -> tuple[str, str, str]:
    hours = say("{hours:.1f}", hours=one.hours)
    return work_said(one.kind), hours, say("by the book") if one.timed else say("as told")


def _money(page: Pages, money: Money) -> None:
    """Write materials, and money where any is told."""
    page.head(say("Materials"))
    rows = [
        (
            material_said(one.material),
            amount_said(one.used, one.unit),
            amount_said(one.needed, one.unit),
            "–" if one.cost is None else money_said(one.cost),
        )
        for one in money.amounts
    ]
    page.table((say("material"), say("used"), say("still needed"), say("cost")), rows)
    for line in sum_lines(money):
        page.text(line)

"""The papers of a panel as PDF: its maker's, with all that the book knows, and its client's."""

from __future__ import annotations

from datetime import date, datetime

from bench.drawing.template import PAPERS_MM
from bench.finish.money import Hours, Money
from bench.finish.record import Record, SectionRow, Shown
from bench.finish.record_page import Pages
from bench.finish.units import Units
from bench.finish.weight import Weight

Paper = tuple[float, float]


def client_pdf(shown: Shown, written: datetime, units: Units, *, paper_mm: Paper = PAPERS_MM["A4"]) -> bytes:
    """Return the client's paper: picture, what it is made of, what it weighs, and how to care for it."""
    page = Pages(shown.name, paper_mm, written)
    _opening(page, shown, units)
    page.head("What it is made of")
    for line in shown.materials:
        page.text(line)
    page.head("Weight")
    page.text(f"About {weight_words(shown.weight, units)}.")
    page.head("Care")
    for line in shown.care:
        page.text(line)
    return page.done()


def maker_pdf(record: Record, units: Units, *, paper_mm: Paper = PAPERS_MM["A4"]) -> bytes:
    """Return the maker's paper: sections and batches, glass, grout, weight, hours, and what it came to."""
    page = Pages(f"{record.shown.name}: the maker's record", paper_mm, record.written)
    _opening(page, record.shown, units)
    page.head("Sections")
    _sections(page, record, units)
    page.picture(record.numbered, 120.0)
    page.head("Glass")
    _glass(page, record, units)
    page.head("Grout and after")
    for line in (*record.grout, *(f"{day_words(one.day)}: {one.text}" for one in record.done)):
        page.text(line)
    page.head("Weight and hanging")
    for line in record.hanging:
        page.text(line)
    _hours(page, record.money)
    _money(page, record.money)
    if record.notes:
        page.head("Notes")
        for line in record.notes:
            page.text(line)
    return page.done()


def day_words(day: date) -> str:
    """Say a day in full, e.g. '31 March 2027'."""
    return f"{day.day} {day:%B %Y}"


def weight_words(weight: Weight, units: Units) -> str:
    """Say the heavier end of the weight: what a hook must be chosen for."""
    return f"{units.weight(weight.total_g)}, at most {units.weight(weight.p90_g)}"


def _opening(page: Pages, shown: Shown, units: Units) -> None:
    page.picture(shown.picture, 130.0)
    size = units.size(shown.width_mm, shown.height_mm)
    page.text(f"{size}, {shown.pieces:,} pieces of glass{_when(shown)}.")


def _when(shown: Shown) -> str:
    if shown.begun is None or shown.ended is None:
        return ""
    if shown.begun == shown.ended:
        return f", set on {day_words(shown.begun)}"
    return f", set from {day_words(shown.begun)} to {day_words(shown.ended)}"


def _sections(page: Pages, record: Record, units: Units) -> None:
    if record.sections:
        head = ("section", "day", "pieces", "batch", "lot", "room", "time", "promise")
        page.table(head, [_section(row, units) for row in record.sections])
        told = [row.kept for row in record.sections if row.kept is not None]
        if told:
            page.text(f"Promises kept: {sum(told)} of {len(told)}. Time: to done, of the working time.")
        for name in dict.fromkeys(row.adhesive for row in record.sections):
            numbers = ", ".join(str(row.section) for row in record.sections if row.adhesive == name)
            page.text(f"{name}: section {numbers}.")
    if record.unset:
        page.text(f"{'1 section is' if record.unset == 1 else f'{record.unset} sections are'} not set yet.")


def _glass(page: Pages, record: Record, units: Units) -> None:
    """Write the glasses in two columns, down the first and then the second."""
    head = ("", "glass", "pieces", "area laid")
    rows = [(g.letter, g.name, str(g.pieces), units.area(g.area_mm2)) for g in record.glass]
    half = (len(rows) + 1) // 2
    rows += [("", "", "", "")] * (2 * half - len(rows))
    page.table((*head, *head), [one + other for one, other in zip(rows[:half], rows[half:], strict=True)])


def _section(row: SectionRow, units: Units) -> tuple[str, ...]:
    both = f"{row.resin_g:.1f} + {row.hardener_g:.1f} g" if row.hardener_g else f"{row.resin_g:.1f} g"
    return (
        str(row.section),
        f"{row.day:%d %b %Y}",
        str(row.pieces),
        both if row.weighed else f"{both} as planned",
        row.lot or "–",
        units.temperature(row.temperature_C),
        f"{row.took_s / 60:.0f} of {row.working_time_s / 60:.0f} min",
        promise_words(row),
    )


def promise_words(row: SectionRow) -> str:
    """Say what was promised at the cup, and whether it was kept."""
    sure = "" if row.promised is None else f"{100 * row.promised:.0f} in 100, "
    kept = {True: "kept", False: "not kept", None: "nothing told of it"}[row.kept]
    return f"{sure}{kept}"


def _hours(page: Pages, money: Money) -> None:
    page.head("Hours")
    if not money.hours:
        page.text("None are in the book yet.")
        return
    page.table(("work", "hours", ""), [_hour(one) for one in money.hours])
    page.text(f"Together {money.total_h:.1f} hours.")


def _hour(one: Hours) -> tuple[str, str, str]:
    return one.kind, f"{one.hours:.1f}", "by the book" if one.timed else "as told"


def _money(page: Pages, money: Money) -> None:
    """Write materials, and money where any is told."""
    page.head("Materials")
    rows = [
        (one.material, _amount(one.used, one.unit), _amount(one.needed, one.unit), _price(one.cost))
        for one in money.amounts
    ]
    page.table(("material", "used", "still needed", "cost"), rows)
    if any(one.price is not None for one in money.amounts):
        page.text(f"Materials with a price come to {money.cost:.2f}.")
        if money.unpriced:
            page.text(f"Without a price, and not counted: {'; '.join(money.unpriced)}.")
    if money.sold is not None:
        page.text(f"Sold for {money.sold:.2f}.")
    if money.hourly is not None:
        page.text(f"An hour of work earned {money.hourly:.2f}.")


def _amount(amount: float, unit: str) -> str:
    return f"{amount:.3f} {unit}" if unit == "m²" else f"{amount:.0f} {unit}"


def _price(cost: float | None) -> str:
    return "–" if cost is None else f"{cost:.2f}"

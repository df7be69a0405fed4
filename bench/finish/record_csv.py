"""The record as tables: one CSV file each for sections, batches, glass and hours, units in the heads."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from bench.finish.record import Record

SECTION_COLUMNS = (
    "section",
    "mix",
    "day",
    "pieces",
    "adhesive",
    "lot",
    "temperature_C",
    "working_time_s",
    "took_s",
    "promised",
    "promise_kept",
    "stage",
)
BATCH_COLUMNS = (
    "mix",
    "section",
    "day",
    "adhesive",
    "lot",
    "resin_g",
    "hardener_g",
    "weighed",
    "temperature_C",
)
GLASS_COLUMNS = ("letter", "glass", "kind", "pieces", "area_mm2")
HOUR_COLUMNS = ("work", "hours", "timed")


def tables_of(record: Record) -> dict[str, bytes]:
    """Return the files of a record's folder by name. Empty cell: not told; the units are always metric."""
    sections = [
        (
            row.section,
            row.mix,
            row.day.isoformat(),
            row.pieces,
            row.adhesive,
            row.lot,
            f"{row.temperature_C:g}",
            f"{row.working_time_s:.0f}",
            f"{row.took_s:.0f}",
            "" if row.promised is None else f"{row.promised:.3f}",
            _yes(row.kept),
            row.stage,
        )
        for row in record.sections
    ]
    batches = [
        (
            row.mix,
            row.section,
            row.day.isoformat(),
            row.adhesive,
            row.lot,
            f"{row.resin_g:.2f}",
            f"{row.hardener_g:.2f}",
            _yes(row.weighed),
            f"{row.temperature_C:g}",
        )
        for row in record.sections
    ]
    glass = [(g.letter, g.name, g.kind, g.pieces, f"{g.area_mm2:.1f}") for g in record.glass]
    hours = [(one.kind, f"{one.hours:.2f}", _yes(one.timed)) for one in record.money.hours]
    return {
        "sections.csv": _csv(SECTION_COLUMNS, sections),
        "batches.csv": _csv(BATCH_COLUMNS, batches),
        "glass.csv": _csv(GLASS_COLUMNS, glass),
        "hours.csv": _csv(HOUR_COLUMNS, hours),
    }


def _yes(told: bool | None) -> str:
    return "" if told is None else "yes" if told else "no"


def _csv(head: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    writer.writerow(head)
    writer.writerows([_plain(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def _plain(cell: object) -> object:
    """Keep a spreadsheet from taking a name for a formula."""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "@") else cell

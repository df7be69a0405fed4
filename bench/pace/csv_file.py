"""Glue-ups as a table: one row a glue-up, read with faults that name file, line and column."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from bench.pace.cells import number, seconds, time, whole, yes
from bench.pace.glueup import BadGlueUp, GlueUp
from bench.speech import say
from bench.table import BadTable, read_table

COLUMNS = (
    "started_utc",
    "small",
    "medium",
    "large",
    "seconds",
    "paused_s",
    "temperature_C",
    "finished_after_s",
    "stringy_after_s",
    "all_placed",
)
# Where it was set by the patch, or by several pairs of hands; and for a person to read.
BY_PATCH = ("patches", "area_cm2")
HANDS = "hands"
NOTE = "note"
MOST_ROWS = 100_000


def read_glue_ups(path: Path, *, now_utc: datetime | None = None) -> list[GlueUp]:
    """Read a table of glue-ups, oldest first; given `now_utc`, none may start after it.

    Columns in any order, others are ignored; a header alone gives no glue-ups. Patches and area_cm2 may be
    left out, or empty where it was set piece by piece; hands may, or be empty for one pair. A row that was
    neither finished, nor stringy, nor all placed was never closed. Anything that cannot be raises BadTable.
    """
    read: list[tuple[int, GlueUp]] = []
    for line, cell in read_table(path, COLUMNS, of=say("glue-ups"), besides=(*BY_PATCH, HANDS)):
        if len(read) == MOST_ROWS:
            what = say("more than {count} glue-ups", count=MOST_ROWS)
            raise BadTable(what, path=path, line=line, todo=say("give the newest ones"))
        glue_up = _glue_up(path, line, cell)
        if now_utc is not None and glue_up.started_utc is not None and glue_up.started_utc > now_utc:
            what, todo = say("starts in the future"), say("correct the date, or the clock of this machine")
            raise BadTable(what, path=path, line=line, column="started_utc", todo=todo)
        read.append((line, glue_up))
    if all(g.started_utc is not None for _, g in read):
        read.sort(key=lambda row: row[1].started_utc or datetime.min)
    _require_one_pair_of_hands(path, read)
    return [glue_up for _, glue_up in read]


def write_glue_ups(glue_ups: Sequence[GlueUp], notes: Sequence[str] = ()) -> str:
    """Return the table that `read_glue_ups` reads back the same; the label's time is not in it.

    Glue-ups that nothing, or not all, is learned from are left out: the table cannot say so, and whoever
    reads it would learn from them. Columns for patches and hands stand only where they are needed. notes:
    the words on each glue-up, in a column of their own, on one line; none: no such column.
    """
    patches = any(g.is_by_patch for g in glue_ups)
    hands = any(g.hands > 1 for g in glue_ups)
    besides = (*(BY_PATCH if patches else ()), *((HANDS,) if hands else ()), *((NOTE,) if notes else ()))
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow((*COLUMNS, *besides))
    for k, g in enumerate(glue_ups):
        if not g.teaches:
            continue
        started = (
            "" if g.started_utc is None else g.started_utc.astimezone(UTC).isoformat().replace("+00:00", "Z")
        )
        times = [_short(g.seconds), _short(g.paused_s), _short(g.temperature_C)]
        ends = [_short(g.finished_after_s), _short(g.stringy_after_s)]
        placed = "yes" if g.all_placed else "no"
        row = [started, g.small, g.medium, g.large, *times, *ends, placed]
        if patches:
            row += [g.patches, _short(g.area_mm2 / 100.0)] if g.is_by_patch else ["", ""]
        if hands:
            row.append(g.hands)
        table.writerow([*row, _plain(notes[k])] if notes else row)
    return out.getvalue()


def _plain(text: str) -> str:
    """Return words on one line that no spreadsheet takes for a formula."""
    words = " ".join(text.split())
    return f"'{words}" if words[:1] in ("=", "+", "-", "@") else words


def _short(value: float | None) -> str:
    """Return the shortest text that reads back as this number; nothing for None."""
    if value is None:
        return ""
    return str(int(value)) if value == int(value) else repr(float(value))


def _glue_up(path: Path, line: int, cell: dict[str, str]) -> GlueUp:
    try:
        finished, stringy = (seconds(cell, name) for name in ("finished_after_s", "stringy_after_s"))
        all_placed = yes(cell, "all_placed")
        return GlueUp(
            started_utc=time(cell, "started_utc"),
            small=whole(cell, "small"),
            medium=whole(cell, "medium"),
            large=whole(cell, "large"),
            seconds=number(cell, "seconds"),
            paused_s=number(cell, "paused_s"),
            temperature_C=number(cell, "temperature_C"),
            finished_after_s=finished,
            stringy_after_s=stringy,
            all_placed=all_placed,
            closed=all_placed or finished is not None or stringy is not None,
            patches=whole(cell, "patches") if cell["patches"] else 0,
            area_mm2=100.0 * number(cell, "area_cm2") if cell["area_cm2"] else 0.0,
            hands=whole(cell, HANDS) if cell[HANDS] else 1,
        )
    except BadGlueUp as fault:
        raise BadTable(fault.what, path=path, line=line, column=fault.field, todo=fault.todo) from None


def _require_one_pair_of_hands(path: Path, read: list[tuple[int, GlueUp]]) -> None:
    """Raise BadTable where a glue-up starts before an earlier one of the table was over."""
    busy_until, busy_line = -math.inf, 0
    for line, glue_up in read:
        if glue_up.started_utc is None:
            continue
        start_s = glue_up.started_utc.timestamp()
        if start_s < busy_until:
            what = say("starts while the glue-up of line {line} still goes on", line=busy_line)
            todo = say("correct the start, or leave one of the two out")
            raise BadTable(what, path=path, line=line, column="started_utc", todo=todo)
        if start_s + glue_up.clock_s > busy_until:
            busy_until, busy_line = start_s + glue_up.clock_s, line

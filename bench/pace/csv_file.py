"""Glue-ups as a table: one row a glue-up, read with faults that name file, line and column."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path

from bench.fault import Fault
from bench.pace.cells import number, seconds, time, whole, yes
from bench.pace.glueup import BadGlueUp, GlueUp

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
MOST_ROWS = 100_000
MOST_BYTES = 64 * 2**20


class BadTable(Fault):
    """Refuse a table of glue-ups; path, line (0: the file) and column ("": the line) say where."""

    def __init__(self, what: str, *, path: Path, line: int = 0, column: str = "", todo: str = "") -> None:
        place = str(path) + (f", line {line}" if line else "") + (f", column {column}" if column else "")
        super().__init__(what, where=place, todo=todo)
        self.path = path
        self.line = line
        self.column = column


def read_glue_ups(path: Path, *, now_utc: datetime | None = None) -> list[GlueUp]:
    """Read a table of glue-ups, oldest first; given `now_utc`, none may start after it.

    Columns in any order, others are ignored; a header alone gives no glue-ups. A row that was neither
    finished, nor stringy, nor all placed was never closed. Anything that cannot be raises BadTable.
    """
    rows = _rows(path, _text(path))
    order = _order(path, rows)
    read: list[tuple[int, GlueUp]] = []
    for line, cells in rows:
        if len(read) == MOST_ROWS:
            what = f"more than {MOST_ROWS} glue-ups"
            raise BadTable(what, path=path, line=line, todo="give the newest ones")
        glue_up = _glue_up(path, line, cells, order)
        if now_utc is not None and glue_up.started_utc is not None and glue_up.started_utc > now_utc:
            todo = "correct the date, or the clock of this machine"
            raise BadTable("starts in the future", path=path, line=line, column="started_utc", todo=todo)
        read.append((line, glue_up))
    if all(g.started_utc is not None for _, g in read):
        read.sort(key=lambda row: row[1].started_utc or datetime.min)
    _require_one_pair_of_hands(path, read)
    return [glue_up for _, glue_up in read]


def write_glue_ups(glue_ups: Sequence[GlueUp]) -> str:
    """Return the table that `read_glue_ups` reads back the same; the label's time is not in it.

    Glue-ups that nothing, or not all, is learned from are left out: the table cannot say so, and whoever
    reads it would learn from them.
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(COLUMNS)
    for g in filter(lambda g: g.teaches, glue_ups):
        started = (
            "" if g.started_utc is None else g.started_utc.astimezone(UTC).isoformat().replace("+00:00", "Z")
        )
        times = [_short(g.seconds), _short(g.paused_s), _short(g.temperature_C)]
        ends = [_short(g.finished_after_s), _short(g.stringy_after_s)]
        placed = "yes" if g.all_placed else "no"
        table.writerow([started, g.small, g.medium, g.large, *times, *ends, placed])
    return out.getvalue()


def _short(value: float | None) -> str:
    """Return the shortest text that reads back as this number; nothing for None."""
    if value is None:
        return ""
    return str(int(value)) if value == int(value) else repr(float(value))


def _text(path: Path) -> str:
    todo = "give a CSV file of glue-ups"
    try:
        if path.exists() and not (path.is_file() or path.is_dir()):  # either could go on without end
            raise BadTable("a device or a pipe, not a file", path=path, todo=todo)
        if path.stat().st_size > MOST_BYTES:
            raise BadTable(
                f"larger than {MOST_BYTES // 2**20} MiB", path=path, todo="give the newest glue-ups"
            )
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = fault.object[: fault.start].count(b"\n") + 1
        raise BadTable("not UTF-8 text", path=path, line=line, todo="save it as CSV in UTF-8") from None
    except FileNotFoundError:
        raise BadTable("no such file", path=path, todo=todo) from None
    except (OSError, ValueError) as fault:
        what = f"cannot be read ({getattr(fault, 'strerror', None) or fault})"
        raise BadTable(what, path=path, todo=todo) from None
    if not text.strip():
        raise BadTable("empty", path=path, todo=f"begin with the columns {','.join(COLUMNS)}")
    return text


def _rows(path: Path, text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield line number and cells of every line that is not blank."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as fault:
            what = f"no CSV ({fault})"
            raise BadTable(what, path=path, line=reader.line_num, todo="mend the quotes there") from None
        if any(cell.strip() for cell in cells):
            yield reader.line_num, [cell.strip() for cell in cells]


def _order(path: Path, rows: Iterator[tuple[int, list[str]]]) -> tuple[dict[str, int], int]:
    """Return where each column stands, and how many there are."""
    line, header = next(rows)
    twice = [name for name in COLUMNS if header.count(name) > 1]
    if twice:
        raise BadTable("column given twice", path=path, line=line, column=twice[0], todo="keep one")
    missing = [name for name in COLUMNS if name not in header]
    other = next((mark for mark in (";", "\t") if any(mark in cell for cell in header)), None)
    if missing and other:
        what = f"cells are parted by {'a tab' if other != ';' else 'semicolons'}"
        todo = "save it with commas between the cells and points as decimal marks"
        raise BadTable(what, path=path, line=line, todo=todo)
    if missing:
        what = f"no column {', '.join(missing)}"
        raise BadTable(what, path=path, line=line, todo=f"begin with the columns {','.join(COLUMNS)}")
    return {name: header.index(name) for name in COLUMNS}, len(header)


def _glue_up(path: Path, line: int, cells: list[str], order: tuple[dict[str, int], int]) -> GlueUp:
    place, width = order
    if len(cells) != width:
        what = f"{len(cells)} cells under {width} columns"
        raise BadTable(what, path=path, line=line, todo="give each column its cell")
    cell = {name: cells[at] for name, at in place.items()}
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
            what = f"starts while the glue-up of line {busy_line} still goes on"
            todo = "correct the start, or leave one of the two out"
            raise BadTable(what, path=path, line=line, column="started_utc", todo=todo)
        if start_s + glue_up.clock_s > busy_until:
            busy_until, busy_line = start_s + glue_up.clock_s, line

"""A table in a CSV file: its rows and the numbers in them, with faults that name file, line and column."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from bench.fault import Fault
from bench.speech import say

MOST_BYTES = 64 * 2**20

_WHOLE = re.compile(r"\d{1,9}", re.ASCII)
_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?", re.ASCII)


class BadTable(Fault):
    """Refuse a table; path, line (0: the file) and column ("": the line) say where."""

    def __init__(self, what: str, *, path: Path, line: int = 0, column: str = "", todo: str = "") -> None:
        super().__init__(what, where=_place(path, line, column), todo=todo)
        self.path = path
        self.line = line
        self.column = column


def _place(path: Path, line: int, column: str) -> str:
    if line and column:
        return say("{path}, line {line}, column {column}", path=path, line=line, column=column)
    if column:
        return say("{path}, column {column}", path=path, column=column)
    return say("{path}, line {line}", path=path, line=line) if line else str(path)


def _begin_with(columns: Sequence[str]) -> str:
    return say("begin with the columns {names}", names=",".join(columns))


def read_table(
    path: Path, columns: Sequence[str], *, of: str, besides: Sequence[str] = ()
) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield line number and cells of every row, blank lines left out.

    Columns in any order, others are ignored; a header alone gives no rows. of: what the rows are, in the
    plural, for the faults. besides: columns that may be missing; their cells are "" then. Raises BadTable for
    a file or a row that cannot be read.
    """
    rows = _rows(path, _text(path, columns, of))
    place, width = _order(path, next(rows), columns, besides)
    for line, cells in rows:
        if len(cells) != width:
            what = say("{cells} cells under {columns} columns", cells=len(cells), columns=width)
            raise BadTable(what, path=path, line=line, todo=say("give each column its cell"))
        yield line, {**dict.fromkeys(besides, ""), **{name: cells[at] for name, at in place.items()}}


def whole_in(text: str) -> int | None:
    """Return a count written in ASCII digits, None for anything else."""
    return int(text) if _WHOLE.fullmatch(text) else None


def number_in(text: str) -> float:
    """Return a decimal number, NaN for anything else and for what is not finite."""
    value = float(text) if _NUMBER.fullmatch(text) else math.nan
    return value if math.isfinite(value) else math.nan


def quoted(text: str) -> str:
    """Return a cell in quotes, cut to 40 characters."""
    return repr(text) if len(text) <= 40 else repr(text[:37] + "...")


def _text(path: Path, columns: Sequence[str], of: str) -> str:
    todo = say("give a CSV file of {rows}", rows=of)
    try:
        if path.exists() and not (path.is_file() or path.is_dir()):  # either could go on without end
            raise BadTable(say("a device or a pipe, not a file"), path=path, todo=todo)
        if path.stat().st_size > MOST_BYTES:
            what = say("larger than {mib} MiB", mib=MOST_BYTES // 2**20)
            raise BadTable(what, path=path, todo=say("give fewer {rows}", rows=of))
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = fault.object[: fault.start].count(b"\n") + 1
        what, todo = say("not UTF-8 text"), say("save it as CSV in UTF-8")
        raise BadTable(what, path=path, line=line, todo=todo) from None
    except FileNotFoundError:
        raise BadTable(say("no such file"), path=path, todo=todo) from None
    except (OSError, ValueError) as fault:
        what = say("cannot be read ({reason})", reason=getattr(fault, "strerror", None) or fault)
        raise BadTable(what, path=path, todo=todo) from None
    if not text.strip():
        raise BadTable(say("empty"), path=path, todo=_begin_with(columns))
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
            what, todo = say("no CSV ({reason})", reason=fault), say("mend the quotes there")
            raise BadTable(what, path=path, line=reader.line_num, todo=todo) from None
        if any(cell.strip() for cell in cells):
            yield reader.line_num, [cell.strip() for cell in cells]


def _order(
    path: Path, head: tuple[int, list[str]], columns: Sequence[str], besides: Sequence[str]
) -> tuple[dict[str, int], int]:
    """Return where each column stands, and how many there are."""
    line, header = head
    twice = [name for name in (*columns, *besides) if header.count(name) > 1]
    if twice:
        what, todo = say("column given twice"), say("keep one")
        raise BadTable(what, path=path, line=line, column=twice[0], todo=todo)
    missing = [name for name in columns if name not in header]
    other = next((mark for mark in (";", "\t") if any(mark in cell for cell in header)), None)
    if missing and other:
        what = say("cells are parted by semicolons") if other == ";" else say("cells are parted by a tab")
        todo = say("save it with commas between the cells and points as decimal marks")
        raise BadTable(what, path=path, line=line, todo=todo)
    if missing:
        what = say("no column {names}", names=", ".join(missing))
        raise BadTable(what, path=path, line=line, todo=_begin_with(columns))
    found = (*columns, *(name for name in besides if name in header))
    return {name: header.index(name) for name in found}, len(header)

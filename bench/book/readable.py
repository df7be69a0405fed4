"""Read of a damaged book what can be read, row by row."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import suppress
from typing import Any

from bench.book.seals import is_whole
from bench.book.worded import SEALED, Table

UNREADABLE = (sqlite3.Error, OverflowError, UnicodeDecodeError)  # what a damaged page may come to
MOST_MISSES = 2000  # rows in a row that cannot be read, after which a table is taken to be over


def rows_of(connection: sqlite3.Connection, table: str, what: str) -> Iterator[tuple[Any, ...]]:
    """Yield the rows of a table, rowid first, that can be read; pages that cannot are stepped over.

    Each row comes later than the one before: where pages are missing, SQLite may lead back to an earlier
    one, again and again.
    """
    at, misses = -1, 0
    while misses < MOST_MISSES:
        statement = f"SELECT rowid, {what} FROM {table} WHERE rowid > ? ORDER BY rowid LIMIT 1"
        try:
            row = connection.execute(statement, (at,)).fetchone()
        except UNREADABLE:
            row = (at,)
        if row is None:
            return
        if row[0] <= at:
            at, misses = at + 1, misses + 1
            continue
        at, misses = row[0], 0
        yield row


def sealed_rows(
    connection: sqlite3.Connection, table: Table, *more: str
) -> Iterator[tuple[list[Any], bool, int | None, tuple[Any, ...]]]:
    """Yield what each row says, as far as it is text, whether that is what it said, its seal, and more of it.

    The first column is the number it was given, or a text; more: what else is to be read.
    """
    first, *rest = SEALED[table]
    key = as_bytes([first]) if table in ("setting", "blob") else first
    seal = "seal" if has_seals(connection, table) else "NULL"
    parts = len(SEALED[table])
    for _, *row in rows_of(connection, table, ", ".join((key, as_bytes(rest), seal, *more))):
        said = [x if isinstance(x, int) else text_of(x) for x in row[:parts]]
        is_text = all(x == word or x == str(word).encode() for x, word in zip(row[:parts], said, strict=True))
        yield said, is_text and is_whole(row[parts], *said), row[parts], tuple(row[parts + 1 :])


def has_seals(connection: sqlite3.Connection, table: str) -> bool:
    """Tell whether the rows of a table have seals, as in newer books; yes where none can tell."""
    columns: list[str] = []
    with suppress(*UNREADABLE):
        columns = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
    return not columns or "seal" in columns


def can_be_counted(connection: sqlite3.Connection, table: str) -> bool:
    """Tell whether all rows of a table can be reached; of a table that was not made yet there are none."""
    with suppress(*UNREADABLE):
        if connection.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (table,)).fetchone():
            connection.execute(f"SELECT count(*) FROM {table}").fetchone()
        return True
    return False


def text_of(data: object) -> str:
    """Return a text that was read as bytes, with a mark in the place of what is none; '' for no bytes."""
    return data.decode("utf-8", errors="replace") if isinstance(data, bytes) else ""


def as_bytes(columns: Sequence[str]) -> str:
    """Return columns to be read as bytes: what is no text any more would not be given at all."""
    return ", ".join(f"CAST({column} AS BLOB)" for column in columns)

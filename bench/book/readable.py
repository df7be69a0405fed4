"""Read of a damaged book what can be read, row by row."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import suppress
from typing import Any

UNREADABLE = (sqlite3.Error, OverflowError, UnicodeDecodeError)  # what a damaged page may come to
MOST_MISSES = 2000  # rows in a row that cannot be read, after which a table is taken to be over


def rows_of(connection: sqlite3.Connection, table: str, what: str) -> Iterator[tuple[Any, ...]]:
    """Yield the rows of a table, rowid first, that can be read; pages that cannot are stepped over."""
    at, misses = -1, 0
    while misses < MOST_MISSES:
        statement = f"SELECT rowid, {what} FROM {table} WHERE rowid > ? ORDER BY rowid LIMIT 1"
        try:
            row = connection.execute(statement, (at,)).fetchone()
        except UNREADABLE:
            at, misses = at + 1, misses + 1
            continue
        if row is None:
            return
        at, misses = row[0], 0
        yield row


def has_seals(connection: sqlite3.Connection, table: str) -> bool:
    """Tell whether the rows of a table have seals, as they do from version 4 on; yes where none can tell."""
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

"""Rows that hold words: the names of panels, settings, and what is said in drafts; each with its seal."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from typing import Any, Literal

from bench.book.seals import is_whole, seal_of
from bench.speech import say

Table = Literal["panel", "setting", "draft"]

# what the seal of a row is of, in this order; what tells the row from others comes first
SEALED: Mapping[Table, tuple[str, ...]] = {
    "panel": ("panel_id", "name", "drawing_sha256", "created_utc"),
    "setting": ("key", "value"),
    "draft": ("draft_id", "name", "changed_utc", "body"),
}


def columns_of(table: Table) -> str:
    """Return the columns that a row is read by, its seal last."""
    return ", ".join((*SEALED[table], "seal"))


def says_what_it_said(row: Sequence[Any]) -> bool:
    """Tell whether a row, read by `columns_of`, says what it said when it was sealed."""
    return is_whole(row[-1], *row[:-1])


def changed_words(table: Table, key: object) -> str:
    """Say that a row has changed."""
    if table == "panel":
        return say("panel {number} has changed since it was written", number=key)
    if table == "draft":
        return say("draft {number} has changed since it was written", number=key)
    return say("a setting has changed since it was written")


def put_row(connection: sqlite3.Connection, table: Table, *values: object) -> None:
    """Write a row with its seal, in place of the one it had."""
    first, *rest = SEALED[table]
    slots = ", ".join("?" * (len(values) + 1))
    anew = ", ".join(f"{column} = excluded.{column}" for column in (*rest, "seal"))
    connection.execute(
        f"INSERT INTO {table} ({columns_of(table)}) VALUES ({slots}) "
        f"ON CONFLICT ({first}) DO UPDATE SET {anew}",
        (*values, seal_of(*values)),
    )


def add_row(connection: sqlite3.Connection, table: Literal["panel", "draft"], *values: object) -> int:
    """Write a new row with its seal and return the number it was given."""
    number, *columns = SEALED[table]
    slots = ", ".join("?" * len(values))
    found = connection.execute(
        f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({slots})", values
    ).lastrowid
    assert found is not None
    seal = seal_of(found, *values)
    connection.execute(f"UPDATE {table} SET seal = ? WHERE {number} = ?", (seal, found))
    return found

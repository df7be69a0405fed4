"""Rows that hold words, each with its seal.

Such are the names of panels, settings, what is said in drafts, kinds of files and what a draft has them for,
and where entries came from. What a file holds has its hash.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from typing import Any, Literal

from bench.book.seals import is_whole, seal_of
from bench.speech import say

Table = Literal["panel", "setting", "draft", "blob", "draft_file", "brought", "parted"]

LOST = "lost"  # the media of a file whose content no longer has its hash

# what the seal of a row is of, in this order; what tells the row from others comes first
SEALED: Mapping[Table, tuple[str, ...]] = {
    "panel": ("panel_id", "name", "drawing_sha256", "created_utc"),
    "setting": ("key", "value"),
    "draft": ("draft_id", "name", "changed_utc", "body"),
    "blob": ("sha256", "media"),
    "draft_file": ("draft_id", "role", "sha256"),
    "brought": ("seq", "book"),
    "parted": ("panel_id", "from_panel", "after_seq"),
}


def columns_of(table: Table) -> str:
    """Return the columns that a row is read by, its seal last."""
    return ", ".join((*SEALED[table], "seal"))


def says_what_it_said(row: Sequence[Any]) -> bool:
    """Tell whether a row, read by `columns_of`, says what it said when it was sealed."""
    return is_whole(row[-1], *row[:-1])


def changed_words(table: Table, key: object) -> str:
    """Say that a row has changed. key: the first of what its seal is of."""
    told = {
        "panel": lambda: say("panel {number} has changed since it was written", number=key),
        "setting": lambda: say("a setting has changed since it was written"),
        "draft": lambda: say("draft {number} has changed since it was written", number=key),
        "blob": lambda: say("the kind of the file {hash} kept in it has changed", hash=str(key)[:12]),
        "draft_file": lambda: say("what draft {number} has a file for has changed", number=key),
        "brought": lambda: say("where entry {entry} was written has changed", entry=key),
        "parted": lambda: say("the point where panel {number} branched off has changed", number=key),
    }
    return told[table]()


def put_row(connection: sqlite3.Connection, table: Table, *values: object) -> None:
    """Write a row that is all words with its seal, in place of the one it had."""
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


def put_file(connection: sqlite3.Connection, sha256: str, media: str, data: bytes) -> None:
    """Keep a file that is not there yet; one that was lost is kept anew."""
    connection.execute(
        "INSERT INTO blob (sha256, media, data, seal) VALUES (?, ?, ?, ?) ON CONFLICT (sha256) DO UPDATE "
        "SET media = excluded.media, data = excluded.data, seal = excluded.seal "
        "WHERE blob.media = ? AND excluded.media <> ?",
        (sha256, media, data, seal_of(sha256, media), LOST, LOST),
    )


def put_draft_file(
    connection: sqlite3.Connection, draft_id: int, role: str, sha256: str, data: bytes
) -> None:
    """Keep a file with a draft, in place of the one that had its role."""
    connection.execute(
        "INSERT OR REPLACE INTO draft_file (draft_id, role, sha256, data, seal) VALUES (?, ?, ?, ?, ?)",
        (draft_id, role, sha256, data, seal_of(draft_id, role, sha256)),
    )

"""Entries that were written on another tablet, and panels that parted because both were worked on.

Every book has an id of its own. An entry that was brought keeps its act, its time and the id of the book
it was written in; seq says only when it came. Where a panel was worked on in two places, the entries that
both share stand once: the second panel begins with the first one's, up to where they parted.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from typing import Any, NamedTuple

from bench.book.events import Event
from bench.book.faults import Damaged, translated
from bench.book.rows import bodies_of, utc_text
from bench.book.seals import seal_of
from bench.book.worded import changed_words, columns_of, put_row, says_what_it_said
from bench.speech import say

BOOK_ID_KEY = "book_id"
PARTED_SQL = f"SELECT {columns_of('parted')} FROM parted WHERE panel_id = ?"


class Parted(NamedTuple):
    """Where a panel parted from another: it shares the other's entries up to `after_seq`."""

    from_panel: int
    after_seq: int


def parted_of(rows: Sequence[tuple[int, int, int, int | None]], path: str) -> Parted | None:
    """Return what `PARTED_SQL` read; raises Damaged where it has changed."""
    for row in rows:
        if not says_what_it_said(row):
            raise Damaged(path, changed_words("parted", row[0]))
        return Parted(row[1], row[2])
    return None


class Written(NamedTuple):
    """An entry as it was written somewhere. book: the id of the book that it was first written in."""

    act_id: str
    at_utc: datetime
    event: Event
    book: str


class Elsewhere:
    """What a book knows of other books; `together` opens a transaction to write in."""

    def __init__(
        self, connection: sqlite3.Connection, where: str, together: Callable[[], AbstractContextManager[None]]
    ) -> None:
        self._connection, self._where, self._together = connection, where, together

    @property
    def book_id(self) -> str:
        """The id of this book, made with it."""
        rows = self._rows(f"SELECT {columns_of('setting')} FROM setting WHERE key = ?", BOOK_ID_KEY)
        if not rows:
            raise Damaged(self._where, say("it has no id"))
        if not says_what_it_said(rows[0]):
            raise Damaged(self._where, changed_words("setting", BOOK_ID_KEY))
        return str(rows[0][1])

    def parted(self, panel_id: int) -> Parted | None:
        """Return where a panel parted from another one of this book, None for most."""
        return parted_of(self._rows(PARTED_SQL, panel_id), self._where)

    def part(self, panel_id: int, from_panel: int, after_seq: int) -> None:
        """Let a panel that has no entries yet begin with another's, up to `after_seq`."""
        with self._together():
            put_row(self._connection, "parted", panel_id, from_panel, after_seq)

    def first_act(self, panel_id: int) -> str | None:
        """Return the act that opened a panel: the same on every tablet that it was brought to."""
        parted = self.parted(panel_id)
        if parted is not None:
            return self.first_act(parted.from_panel)
        rows = self._rows("SELECT act_id FROM event WHERE panel_id = ? ORDER BY seq LIMIT 1", panel_id)
        return str(rows[0][0]) if rows else None

    def written(self, act_ids: Sequence[str]) -> set[str]:
        """Return those of these acts that are in this book, on whichever panel."""
        return {act for act in act_ids if self._rows("SELECT 1 FROM event WHERE act_id = ? LIMIT 1", act)}

    def write(self, panel_id: int, entries: Sequence[Written]) -> None:
        """Write entries as they were written elsewhere; raises Unfit for one that would not read back."""
        here = self.book_id
        bodies = bodies_of([entry.event for entry in entries])
        with self._together():
            for entry, body in zip(entries, bodies, strict=True):
                row = panel_id, entry.act_id, utc_text(entry.at_utc), body
                seq = self._connection.execute(
                    "INSERT INTO event (panel_id, act_id, at_utc, body, seal) VALUES (?, ?, ?, ?, ?)",
                    (*row, seal_of(*row)),
                ).lastrowid
                if entry.book != here:
                    put_row(self._connection, "brought", seq, entry.book)

    def _rows(self, statement: str, *values: object) -> list[Any]:
        with translated(self._where, reading=True):
            return self._connection.execute(statement, values).fetchall()

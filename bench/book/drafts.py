"""Keep what is not yet a panel: drafts, each with the files it is made from, until they are done or dropped.

Unlike the events beside them drafts are rewritten, step by step, and dropped whole: they are work in hand
and no record. What a draft says is its maker's business; here it is text.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import datetime
from typing import Any, NamedTuple

from bench.book.faults import Damaged, NoSuchDraft, translated
from bench.book.rows import utc_text
from bench.book.worded import (
    add_row,
    changed_words,
    columns_of,
    put_draft_file,
    put_row,
    says_what_it_said,
)
from bench.speech import say


class DraftRow(NamedTuple):
    """A draft of the book."""

    draft_id: int
    name: str
    changed_utc: datetime
    body: str


class Drafts:
    """The drafts of one book; `together` opens a transaction to write in."""

    def __init__(
        self, connection: sqlite3.Connection, where: str, together: Callable[[], AbstractContextManager[None]]
    ) -> None:
        self._connection, self._where, self._together = connection, where, together

    def all(self) -> list[DraftRow]:
        """Return the drafts, the one worked on last first; raises Damaged for one changed on the disk."""
        found = [self._read(row) for row in self._rows(f"SELECT {columns_of('draft')} FROM draft")]
        return sorted(found, key=lambda row: (row.changed_utc, row.draft_id), reverse=True)

    def row(self, draft_id: int) -> DraftRow:
        """Return one draft, or raise NoSuchDraft."""
        found = next((row for row in self.all() if row.draft_id == draft_id), None)
        if found is None:
            raise NoSuchDraft(draft_id)
        return found

    def add(self, name: str, body: str, at_utc: datetime) -> int:
        """Add a draft without files and return its id."""
        with self._together():
            return add_row(self._connection, "draft", name, utc_text(at_utc), body)

    def change(self, draft_id: int, body: str, at_utc: datetime) -> None:
        """Write a draft anew, or raise NoSuchDraft."""
        with self._together():
            name = self.row(draft_id).name
            put_row(self._connection, "draft", draft_id, name, utc_text(at_utc), body)

    def put_file(self, draft_id: int, role: str, data: bytes) -> None:
        """Keep a file with a draft, in place of the one that had its role."""
        with self._together():
            if not self._rows("SELECT 1 FROM draft WHERE draft_id = ?", draft_id):
                raise NoSuchDraft(draft_id)
            put_draft_file(self._connection, draft_id, role, hashlib.sha256(data).hexdigest(), data)

    def roles(self, draft_id: int) -> list[str]:
        """Return the roles of the files that are kept with a draft; Damaged where one has changed."""
        statement = f"SELECT {columns_of('draft_file')} FROM draft_file WHERE draft_id = ? ORDER BY role"
        rows = self._rows(statement, draft_id)
        if not all(says_what_it_said(row) for row in rows):
            raise Damaged(self._where, changed_words("draft_file", draft_id))
        return [str(row[1]) for row in rows]

    def drop_file(self, draft_id: int, role: str) -> None:
        """Keep no file of that role any more; one that is not there is fine."""
        with self._together():
            self._connection.execute(
                "DELETE FROM draft_file WHERE draft_id = ? AND role = ?", (draft_id, role)
            )

    def file(self, draft_id: int, role: str) -> bytes | None:
        """Return a file of a draft, None where it has none of that role; Damaged where it has changed."""
        statement = "SELECT CAST(data AS BLOB), sha256 FROM draft_file WHERE draft_id = ? AND role = ?"
        rows = self._rows(statement, draft_id, role)
        if not rows:
            return None
        data = bytes(rows[0][0])
        if hashlib.sha256(data).hexdigest() != rows[0][1]:
            why = say("the file '{role}' of draft {draft} kept in it has changed", role=role, draft=draft_id)
            raise Damaged(self._where, why)
        return data

    def drop(self, draft_id: int) -> None:
        """Drop a draft with its files; one that is not there is fine."""
        with self._together():
            self._connection.execute("DELETE FROM draft WHERE draft_id = ?", (draft_id,))

    def _read(self, row: tuple[int, str, str, str, int | None]) -> DraftRow:
        if not says_what_it_said(row):
            raise Damaged(self._where, changed_words("draft", row[0]))
        return DraftRow(row[0], row[1], datetime.fromisoformat(row[2]), row[3])

    def _rows(self, statement: str, *values: object) -> list[Any]:
        with translated(self._where, reading=True):
            return self._connection.execute(statement, values).fetchall()

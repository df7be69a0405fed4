"""Read a book: its panels, their files and events, its countdowns and settings."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from bench.book.countdown import Mark
from bench.book.elsewhere import PARTED_SQL, parted_of
from bench.book.events import Envelope
from bench.book.faults import Damaged, LostFile, NoSuchBlob, translated
from bench.book.rows import EVENTS_SQL, MARKS_SQL, PanelRow, envelopes_of, mark_of_row, panel_of_row
from bench.book.schema import KIND
from bench.book.worded import LOST, changed_words, columns_of, says_what_it_said
from bench.speech import say

WORKSHOP = 0
WORKSHOP_NAME = "workshop"


class Reader:
    """What can be asked of a book over an open connection; `where` is the file, as faults tell it."""

    def __init__(self, connection: sqlite3.Connection, where: str) -> None:
        self.where = where
        self._connection = connection

    def panels(self) -> list[PanelRow]:
        """Return the panels, oldest first; the workshop is none."""
        rows = self._rows(
            f"SELECT {columns_of('panel')} FROM panel WHERE panel_id <> ? ORDER BY panel_id",
            WORKSHOP,
        )
        return [panel_of_row(row, self.where) for row in rows]

    def blob(self, sha256: str) -> bytes:
        """Return a kept file; raises NoSuchBlob, or Damaged where its content no longer has this hash."""
        rows = self._rows("SELECT data, media FROM blob WHERE sha256 = ?", sha256)
        if not rows:
            raise NoSuchBlob(sha256)
        if rows[0][1] == LOST:
            raise LostFile(self.where, sha256)
        data = bytes(rows[0][0])
        if hashlib.sha256(data).hexdigest() != sha256:
            raise Damaged(self.where, say("the file {hash} kept in it has changed", hash=sha256[:12]))
        return data

    def media(self, sha256: str) -> str | None:
        """Return what kind of file is kept under a hash, None where none is; Damaged where that changed."""
        rows = self._rows(f"SELECT {columns_of('blob')} FROM blob WHERE sha256 = ?", sha256)
        if rows and not says_what_it_said(rows[0]):
            raise Damaged(self.where, changed_words("blob", sha256))
        return str(rows[0][1]) if rows else None

    def events(self, panel_id: int, *, after_seq: int = 0) -> list[Envelope]:
        """Return a panel's events in order, those after `after_seq`; raises Damaged for one unreadable.

        A panel that parted from another begins with the other's events up to there.
        """
        rows = self._rows(f"{EVENTS_SQL} WHERE panel_id = ? AND seq > ? ORDER BY seq", panel_id, after_seq)
        own = envelopes_of(rows, self.where)
        parted = parted_of(self._rows(PARTED_SQL, panel_id), self.where)
        if parted is None or parted.after_seq <= after_seq:
            return own
        before = self.events(parted.from_panel, after_seq=after_seq)
        return [replace(x, panel_id=panel_id) for x in before if x.seq <= parted.after_seq] + own

    def all_events(self) -> list[Envelope]:
        """Return the events of all panels in the order in which they were written."""
        return envelopes_of(self._rows(f"{EVENTS_SQL} ORDER BY seq"), self.where)

    def of_kinds(self, kinds: Sequence[str]) -> list[Envelope]:
        """Return the events of these kinds of all panels, in order; found by an index, not by reading all."""
        slots = ", ".join("?" * len(kinds))
        return envelopes_of(
            self._rows(f"{EVENTS_SQL} WHERE {KIND} IN ({slots}) ORDER BY seq", *kinds), self.where
        )

    def last_seq(self, panel_id: int) -> int:
        """Return the number of a panel's newest event; 0 where it has none."""
        return int(self._rows("SELECT coalesce(max(seq), 0) FROM event WHERE panel_id = ?", panel_id)[0][0])

    def countdown(self, panel_id: int, mix: str) -> Mark | None:
        """Return the mark of a mix, None where none is kept for it, or what is kept has changed."""
        return self.countdowns(panel_id).get(mix)

    def countdowns(self, panel_id: int) -> dict[str, Mark]:
        """Return the marks of all mixes of a panel, by mix, those that changed on the disk left out."""
        rows = self._rows(f"{MARKS_SQL} WHERE panel_id = ? ORDER BY mix", panel_id)
        marks = {row[0]: mark_of_row(panel_id, row) for row in rows}
        return {mix: mark for mix, mark in marks.items() if mark is not None}

    def setting(self, key: str) -> str | None:
        """Return a setting of the app, None where it was never set, or has changed on the disk."""
        rows = self._rows(f"SELECT {columns_of('setting')} FROM setting WHERE key = ?", key)
        return str(rows[0][1]) if rows and says_what_it_said(rows[0]) else None

    def _rows(self, statement: str, *values: object) -> list[Any]:
        with translated(self.where, reading=True):
            return self._connection.execute(statement, values).fetchall()

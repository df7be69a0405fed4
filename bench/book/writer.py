"""Write into a book: panels, their events and files, countdowns, settings.

The life of an act: `append` checks that each event reads back as it was put in, writes all of them and
the countdown's mark in one transaction, and returns once the disk has them. Events are never changed:
the tables refuse it.

What belongs to no panel, the bottles of the workshop, has a book of its own under the id WORKSHOP. Its row
is made with its first entry and is not among the panels; events of it are read and written like a panel's.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from uuid import uuid4

from bench.book.countdown import Mark
from bench.book.drafts import Drafts
from bench.book.elsewhere import Elsewhere, Written
from bench.book.events import Envelope, Event
from bench.book.faults import ActWrittenBefore, NoSuchBlob, NoSuchPanel, OnlyReading
from bench.book.reader import WORKSHOP, WORKSHOP_NAME, Reader
from bench.book.rows import bodies_of, put_mark, utc_text
from bench.book.seals import seal_of
from bench.book.together import Together
from bench.book.worded import add_row, put_file, put_row


class Writer(Reader):
    """What can be written into a book over an open connection."""

    def __init__(self, connection: sqlite3.Connection, where: str, *, read_only: bool = False) -> None:
        super().__init__(connection, where)
        self.read_only = read_only
        self._follow(connection)

    def _follow(self, connection: sqlite3.Connection) -> None:
        """Read and write over this connection from now on."""
        self._connection = connection
        self._together = Together(connection, self.where)
        self.drafts = Drafts(connection, self.where, self.together)
        self.elsewhere = Elsewhere(connection, self.where, self.together)

    @contextmanager
    def together(self) -> Iterator[None]:
        """Write all that happens within, or nothing of it, e.g. a new panel and its first events."""
        if self.read_only:
            raise OnlyReading(self.where)
        with self._together():
            yield

    # Panels and files

    def add_panel(self, name: str, drawing_sha256: str, at_utc: datetime) -> int:
        """Add a panel and return its id; its drawing must have been put in before, or NoSuchBlob."""
        with self.together():
            if not self._rows("SELECT 1 FROM blob WHERE sha256 = ?", drawing_sha256):
                raise NoSuchBlob(drawing_sha256)
            return add_row(self._connection, "panel", name, drawing_sha256, utc_text(at_utc))

    def put_blob(self, data: bytes, media: str) -> str:
        """Keep a file by its content and return its SHA-256; the same content is kept once.

        One that was lost is kept anew.
        """
        sha256 = hashlib.sha256(data).hexdigest()
        with self.together():
            put_file(self._connection, sha256, media, data)
        return sha256

    # Events

    def append(
        self,
        panel_id: int,
        events: Sequence[Event],
        *,
        at_utc: datetime,
        act_id: str | None = None,
        marks: Sequence[tuple[str, Mark | None]] = (),
        continues: bool = False,
    ) -> tuple[Envelope, ...]:
        """Write one act whole, with the marks of its countdowns, and return what was written.

        continues: add what follows from the panel's newest act to it, so that both are undone together;
        an older act is closed, and ActWrittenBefore. A mark of None ends the countdown of that mix.
        Raises NoSuchPanel, ActWrittenBefore, Unfit,
        DiskFull, NotWritable, InUse; nothing of the act is then in the book.
        """
        act_id = act_id or uuid4().hex
        at_text, bodies = utc_text(at_utc), bodies_of(events)
        with self.together():
            if panel_id == WORKSHOP:
                self._have_workshop(at_text)
            self._require_panel(panel_id)
            if self._is_written(act_id) and not (continues and self._newest_act(panel_id) == act_id):
                raise ActWrittenBefore(act_id)
            insert = "INSERT INTO event (panel_id, act_id, at_utc, body, seal) VALUES (?, ?, ?, ?, ?)"
            rows = [(panel_id, act_id, at_text, body) for body in bodies]
            seqs = [self._insert(insert, *row, seal_of(*row)) for row in rows]
            for mix, mark in marks:
                self._write_mark(panel_id, mix, mark)
        at_utc = at_utc.astimezone(UTC)
        written = zip(seqs, events, strict=True)
        return tuple(Envelope(seq, panel_id, act_id, at_utc, event) for seq, event in written)

    def bring(self, panel_id: int, entries: Sequence[Written]) -> None:
        """Write entries of another tablet as they were written there; the acts are not checked again."""
        if not entries:
            return
        with self.together():
            if panel_id == WORKSHOP:
                self._have_workshop(utc_text(entries[0].at_utc))
            self._require_panel(panel_id)
            self.elsewhere.write(panel_id, entries)

    def _have_workshop(self, at_text: str) -> None:
        """Make the workshop's row where there is none; its drawing is an empty file."""
        if not self._rows("SELECT 1 FROM panel WHERE panel_id = ?", WORKSHOP):
            empty = self.put_blob(b"", "application/octet-stream")
            put_row(self._connection, "panel", WORKSHOP, WORKSHOP_NAME, empty, at_text)

    def _is_written(self, act_id: str) -> bool:
        return bool(self._rows("SELECT 1 FROM event WHERE act_id = ? LIMIT 1", act_id))

    def _newest_act(self, panel_id: int) -> str | None:
        rows = self._rows(
            "SELECT act_id FROM event WHERE panel_id = ? ORDER BY seq DESC LIMIT 1", panel_id
        )
        return str(rows[0][0]) if rows else None

    # Countdowns and settings

    def set_countdown(self, panel_id: int, mix: str, mark: Mark) -> None:
        """Keep the newest mark of a mix."""
        with self.together():
            self._require_panel(panel_id)
            self._write_mark(panel_id, mix, mark)

    def set_setting(self, key: str, value: str) -> None:
        """Keep a setting of the app."""
        with self.together():
            put_row(self._connection, "setting", key, value)

    def _write_mark(self, panel_id: int, mix: str, mark: Mark | None) -> None:
        if mark is None:
            self._connection.execute("DELETE FROM countdown WHERE panel_id = ? AND mix = ?", (panel_id, mix))
        else:
            put_mark(self._connection, panel_id, mix, mark)

    def _require_panel(self, panel_id: int) -> None:
        if not self._rows("SELECT 1 FROM panel WHERE panel_id = ?", panel_id):
            raise NoSuchPanel(panel_id, tuple(panel.panel_id for panel in self.panels()))

    def _insert(self, statement: str, *values: object) -> int:
        row = self._connection.execute(statement, values).lastrowid
        assert row is not None
        return row

"""Keep the book of all panels in one SQLite file.

The life of an act: `append` checks that each event reads back as it was put in, writes all of them and
the countdown's mark in one transaction, and returns once the disk has them. Events are never changed:
the tables refuse it. One program at a time may write; others may read. A store belongs to the thread
that opened it.

What belongs to no panel, the bottles of the workshop, has a book of its own under the id WORKSHOP. Its row
is made with its first entry and is not among the panels; events of it are read and written like a panel's.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Any, Self
from uuid import uuid4

from bench.book.countdown import Mark
from bench.book.drafts import Drafts
from bench.book.elsewhere import Elsewhere, Written
from bench.book.events import Envelope, Event
from bench.book.faults import (
    ActWrittenBefore,
    Damaged,
    NoSuchBlob,
    NoSuchPanel,
    NotReadable,
    OnlyReading,
    translated,
)
from bench.book.files import BOOK_NAME, Factory, make_folder, open_in_memory, open_to_read, open_to_write
from bench.book.lock import FolderLock
from bench.book.readings import Readings
from bench.book.rows import PanelRow, bodies_of, envelopes_of, mark_of_row, row_of_mark, utc_text
from bench.book.schema import KIND, migrate
from bench.book.together import Together

READINGS = "readings"  # a folder beside the book
WORKSHOP = 0

_EVENTS = (
    "SELECT seq, panel_id, act_id, at_utc, body, coalesce(book, '') FROM event LEFT JOIN brought USING (seq)"
)
_MARKS = "SELECT mix, total_s, spent_s, wall_utc, boot_s, boot_id, running, unsure, surely_s FROM countdown"


class Store:
    """The book: panels, their events, the files they came from, running countdowns, settings, drafts."""

    def __init__(
        self,
        connection: sqlite3.Connection,
        where: str,
        *,
        read_only: bool = False,
        lock: FolderLock | None = None,
        folder: Path | None = None,
    ) -> None:
        self.where = where
        self.read_only = read_only
        self.readings = Readings(None if folder is None else folder / READINGS, read_only=read_only)
        self._connection = connection
        self._lock = lock
        self._together = Together(connection, where)
        self.drafts = Drafts(connection, where, self.together)
        self.elsewhere = Elsewhere(connection, where, self.together)

    @classmethod
    def open(
        cls,
        folder: Path,
        *,
        read_only: bool = False,
        busy_s: float = 5.0,
        factory: Factory = sqlite3.Connection,
    ) -> Self:
        """Open the book in a folder; to write, folder and book are made where there are none.

        Waits up to `busy_s` for another program to finish a write. [s] `factory` makes the connection;
        tests pass one that fails. Raises NotWritable, NotReadable, InUse, Damaged, NewerBook; to read
        only, NoBook and OlderBook too. A file that raises is left as it was.
        """
        path = folder / BOOK_NAME
        if read_only:
            return cls(open_to_read(path, busy_s, factory), str(path), read_only=True, folder=folder)
        make_folder(folder)
        lock = FolderLock(folder)
        try:
            connection = open_to_write(path, busy_s, factory)
            try:
                with translated(str(path)):
                    migrate(connection)
            except BaseException:
                connection.close()
                raise
        except BaseException:
            lock.release()
            raise
        return cls(connection, str(path), lock=lock, folder=folder)

    @staticmethod
    def exists(folder: Path) -> bool:
        """Tell whether a folder holds a book at all; where no folder can be, NotReadable says so."""
        for place in (folder, *folder.parents):
            if place.is_dir():
                return (folder / BOOK_NAME).exists()
            if place.exists():
                raise NotReadable(str(place), "it is a file, and no folder")
        return False

    @classmethod
    def in_memory(cls) -> Self:
        """Return an empty book that leaves no trace: no file is ever made for it."""
        connection = open_in_memory(sqlite3.Connection)
        migrate(connection)
        return cls(connection, "practice book")

    def close(self) -> None:
        """Close the book and let the next program in; a second call does nothing."""
        self._connection.close()
        if self._lock is not None:
            self._lock.release()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @contextmanager
    def together(self) -> Iterator[None]:
        """Write all that happens within, or nothing of it, e.g. a new panel and its first events."""
        if self.read_only:
            raise OnlyReading(self.where)
        with self._together():
            yield

    # Panels and files

    def panels(self) -> list[PanelRow]:
        """Return the panels, oldest first; the workshop is none."""
        rows = self._rows(
            "SELECT panel_id, name, drawing_sha256, created_utc FROM panel WHERE panel_id <> ? "
            "ORDER BY panel_id",
            WORKSHOP,
        )
        return [PanelRow(row[0], row[1], row[2], datetime.fromisoformat(row[3])) for row in rows]

    def add_panel(self, name: str, drawing_sha256: str, at_utc: datetime) -> int:
        """Add a panel and return its id; its drawing must have been put in before, or NoSuchBlob."""
        with self.together():
            if not self._rows("SELECT 1 FROM blob WHERE sha256 = ?", drawing_sha256):
                raise NoSuchBlob(drawing_sha256)
            return self._insert(
                "INSERT INTO panel (name, drawing_sha256, created_utc) VALUES (?, ?, ?)",
                name,
                drawing_sha256,
                utc_text(at_utc),
            )

    def put_blob(self, data: bytes, media: str) -> str:
        """Keep a file by its content and return its SHA-256; the same content is kept once."""
        sha256 = hashlib.sha256(data).hexdigest()
        with self.together():
            self._connection.execute(
                "INSERT INTO blob (sha256, media, data) VALUES (?, ?, ?) ON CONFLICT DO NOTHING",
                (sha256, media, data),
            )
        return sha256

    def media(self, sha256: str) -> str | None:
        """Return what kind of file is kept under a hash, None where none is."""
        rows = self._rows("SELECT media FROM blob WHERE sha256 = ?", sha256)
        return str(rows[0][0]) if rows else None

    def blob(self, sha256: str) -> bytes:
        """Return a kept file; raises NoSuchBlob, or Damaged where its content no longer has this hash."""
        rows = self._rows("SELECT data FROM blob WHERE sha256 = ?", sha256)
        if not rows:
            raise NoSuchBlob(sha256)
        data = bytes(rows[0][0])
        if hashlib.sha256(data).hexdigest() != sha256:
            raise Damaged(self.where, f"the file {sha256[:12]} kept in it has changed")
        return data

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
            insert = "INSERT INTO event (panel_id, act_id, at_utc, body) VALUES (?, ?, ?, ?)"
            seqs = [self._insert(insert, panel_id, act_id, at_text, body) for body in bodies]
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
        self._connection.execute(
            "INSERT INTO panel (panel_id, name, drawing_sha256, created_utc) VALUES (?, 'workshop', ?, ?) "
            "ON CONFLICT DO NOTHING",
            (WORKSHOP, self.put_blob(b"", "application/octet-stream"), at_text),
        )

    def _is_written(self, act_id: str) -> bool:
        return bool(self._rows("SELECT 1 FROM event WHERE act_id = ? LIMIT 1", act_id))

    def _newest_act(self, panel_id: int) -> str | None:
        rows = self._rows(
            "SELECT act_id FROM event WHERE panel_id = ? ORDER BY seq DESC LIMIT 1", panel_id
        )
        return str(rows[0][0]) if rows else None

    def events(self, panel_id: int, *, after_seq: int = 0) -> list[Envelope]:
        """Return a panel's events in order, those after `after_seq`; raises Damaged for one unreadable.

        A panel that parted from another begins with the other's events up to there.
        """
        rows = self._rows(f"{_EVENTS} WHERE panel_id = ? AND seq > ? ORDER BY seq", panel_id, after_seq)
        own = envelopes_of(rows, self.where)
        parted = self.elsewhere.parted(panel_id)
        if parted is None or parted.after_seq <= after_seq:
            return own
        before = self.events(parted.from_panel, after_seq=after_seq)
        return [replace(x, panel_id=panel_id) for x in before if x.seq <= parted.after_seq] + own

    def all_events(self) -> list[Envelope]:
        """Return the events of all panels in the order in which they were written."""
        return envelopes_of(self._rows(f"{_EVENTS} ORDER BY seq"), self.where)

    def of_kinds(self, kinds: Sequence[str]) -> list[Envelope]:
        """Return the events of these kinds of all panels, in order; found by an index, not by reading all."""
        slots = ", ".join("?" * len(kinds))
        return envelopes_of(
            self._rows(f"{_EVENTS} WHERE {KIND} IN ({slots}) ORDER BY seq", *kinds), self.where
        )

    def last_seq(self, panel_id: int) -> int:
        """Return the number of a panel's newest event; 0 where it has none."""
        return int(self._rows("SELECT coalesce(max(seq), 0) FROM event WHERE panel_id = ?", panel_id)[0][0])

    # Countdowns and settings

    def countdown(self, panel_id: int, mix: str) -> Mark | None:
        """Return the mark of a mix, None where no countdown is kept for it."""
        return self.countdowns(panel_id).get(mix)

    def countdowns(self, panel_id: int) -> dict[str, Mark]:
        """Return the marks of all mixes of a panel, by mix."""
        rows = self._rows(f"{_MARKS} WHERE panel_id = ? ORDER BY mix", panel_id)
        return {row[0]: mark_of_row(row[1:]) for row in rows}

    def set_countdown(self, panel_id: int, mix: str, mark: Mark) -> None:
        """Keep the newest mark of a mix."""
        with self.together():
            self._require_panel(panel_id)
            self._write_mark(panel_id, mix, mark)

    def drop_countdown(self, panel_id: int, mix: str) -> None:
        """Keep no countdown for a mix any more; one that is not there is fine."""
        with self.together():
            self._write_mark(panel_id, mix, None)

    def setting(self, key: str) -> str | None:
        """Return a setting of the app, None where it was never set."""
        rows = self._rows("SELECT value FROM setting WHERE key = ?", key)
        return str(rows[0][0]) if rows else None

    def set_setting(self, key: str, value: str) -> None:
        """Keep a setting of the app."""
        with self.together():
            self._connection.execute(
                "INSERT OR REPLACE INTO setting (key, value) VALUES (?, ?)", (key, value)
            )

    def _write_mark(self, panel_id: int, mix: str, mark: Mark | None) -> None:
        if mark is None:
            self._connection.execute("DELETE FROM countdown WHERE panel_id = ? AND mix = ?", (panel_id, mix))
        else:
            self._connection.execute(
                "INSERT OR REPLACE INTO countdown VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                (panel_id, mix, *row_of_mark(mark)),
            )

    def _require_panel(self, panel_id: int) -> None:
        if not self._rows("SELECT 1 FROM panel WHERE panel_id = ?", panel_id):
            raise NoSuchPanel(panel_id, tuple(panel.panel_id for panel in self.panels()))

    def _insert(self, statement: str, *values: object) -> int:
        row = self._connection.execute(statement, values).lastrowid
        assert row is not None
        return row

    def _rows(self, statement: str, *values: object) -> list[Any]:
        with translated(self.where, reading=True):
            return self._connection.execute(statement, values).fetchall()

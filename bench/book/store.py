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
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Self
from uuid import uuid4

from bench.book.backups import Copy, back_up, is_due, set_aside
from bench.book.clock import Clock, SystemClock
from bench.book.countdown import Mark
from bench.book.drafts import Drafts
from bench.book.elsewhere import Elsewhere, Written
from bench.book.events import Envelope, Event
from bench.book.exchange import exchange, finish_exchange, prepared
from bench.book.faults import ActWrittenBefore, NoSuchBlob, NoSuchPanel, NotReadable, OnlyReading, translated
from bench.book.files import (
    BOOK_NAME,
    INCOMING,
    Factory,
    make_folder,
    open_in_memory,
    open_to_read,
    open_to_write,
)
from bench.book.lock import FolderLock
from bench.book.reader import WORKSHOP, WORKSHOP_NAME, Reader
from bench.book.readings import Readings
from bench.book.rows import bodies_of, put_mark, utc_text
from bench.book.schema import KNOWN_VERSION, LOST, migrate, version_of
from bench.book.seals import seal_of
from bench.book.together import Together
from bench.book.whole import check_whole
from bench.book.worded import add_row, put_row
from bench.fault import Fault
from bench.speech import say

READINGS = "readings"  # a folder beside the book


class Store(Reader):
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
        super().__init__(connection, where)
        self.read_only = read_only
        self.reading_because = ""  # why nothing can be written, where that was not asked for
        self.readings = Readings(None if folder is None else folder / READINGS, read_only=read_only)
        self.folder = folder
        self._lock = lock
        self._follow(connection)

    def _follow(self, connection: sqlite3.Connection) -> None:
        """Read and write over this connection from now on."""
        self._connection = connection
        self._together = Together(connection, self.where)
        self.drafts = Drafts(connection, self.where, self.together)
        self.elsewhere = Elsewhere(connection, self.where, self.together)

    @classmethod
    def open(
        cls,
        folder: Path,
        *,
        read_only: bool = False,
        busy_s: float = 5.0,
        factory: Factory = sqlite3.Connection,
        clock: Clock | None = None,
    ) -> Self:
        """Open the book in a folder; to write, folder and book are made where there are none.

        Waits up to `busy_s` for another program to finish a write. [s] `factory` makes the connection;
        tests pass one that fails. A book of an older version is copied to the backups, dated by `clock`,
        before it is brought up to date. Raises NotWritable, NotReadable, InUse, Damaged, NewerBook; to
        read only, NoBook and OlderBook too. A file that raises is left as it was.
        """
        path = folder / BOOK_NAME
        if read_only:
            return cls(open_to_read(path, busy_s, factory), str(path), read_only=True, folder=folder)
        make_folder(folder)
        lock = FolderLock(folder)
        try:
            connection = _brought_up(folder, busy_s, factory, clock or SystemClock())
        except BaseException:
            lock.release()
            raise
        return cls(connection, str(path), lock=lock, folder=folder)

    @staticmethod
    def exists(folder: Path) -> bool:
        """Tell whether a folder holds a book at all; where no folder can be, NotReadable says so."""
        for place in (folder, *folder.parents):
            if place.is_dir():
                return (folder / BOOK_NAME).exists() or (folder / INCOMING).exists()
            if place.exists():
                raise NotReadable(str(place), say("it is a file, and no folder"))
        return False

    @classmethod
    def in_memory(cls) -> Self:
        """Return an empty book that leaves no trace: no file is ever made for it."""
        connection = open_in_memory(sqlite3.Connection)
        migrate(connection)
        return cls(connection, say("practice book"))

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

    # Backups

    def check(self, at_utc: datetime) -> None:
        """Raise Damaged where the book is not whole; files kept in it are read too on the first of a day."""
        due = self.folder is not None and is_due(self.folder, at_utc)
        check_whole(self._connection, self.where, files=due)

    def back_up_daily(self, at_utc: datetime) -> Copy | None:
        """Copy the book to its backups where none was made on this day, and let go of the oldest.

        A book without entries is not worth one.
        Raises Damaged where the book is not whole: no copy of it takes the place of a good one.
        """
        if self.folder is None or self.read_only or not is_due(self.folder, at_utc):
            return None
        if not self._rows("SELECT 1 FROM event LIMIT 1"):
            return None
        return back_up(self._connection, self.folder, "daily", at_utc)

    def restore(self, copy: Copy, at_utc: datetime) -> Copy:
        """Put a copy in the place of the book, and return the copy under which the present one stays.

        No countdown that runs in it is trusted: what was said since it was made is not in it. Raises
        Damaged or NewerBook for a copy that is no whole book, DiskFull; the book is then as it was.
        """
        if self.read_only or self.folder is None:
            raise OnlyReading(self.where)
        with prepared(copy.path, self.folder) as ready:
            aside = set_aside(self._connection, self.folder, "before-restore", at_utc)
            with translated(self.where):
                self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            self._connection.close()
            try:
                exchange(ready, self.folder)
            finally:
                self._follow(open_to_write(self.folder / BOOK_NAME, 5.0, sqlite3.Connection))
        with suppress(Fault):  # what comes after builds on this one; it is restored in any case
            back_up(self._connection, self.folder, "restored", at_utc)
        return aside

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
            self._connection.execute(
                "INSERT INTO blob (sha256, media, data) VALUES (?, ?, ?) ON CONFLICT (sha256) DO UPDATE "
                "SET media = excluded.media, data = excluded.data WHERE blob.media = ?",
                (sha256, media, data, LOST),
            )
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

    def drop_countdown(self, panel_id: int, mix: str) -> None:
        """Keep no countdown for a mix any more; one that is not there is fine."""
        with self.together():
            self._write_mark(panel_id, mix, None)

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


def _brought_up(folder: Path, busy_s: float, factory: Factory, clock: Clock) -> sqlite3.Connection:
    """Return a connection to the book of a folder that is ours alone, at the present version."""
    finish_exchange(folder)
    path = folder / BOOK_NAME
    connection = open_to_write(path, busy_s, factory)
    try:
        with translated(str(path)):
            version = version_of(connection)
        if 0 < version < KNOWN_VERSION:
            back_up(connection, folder, f"before-version-{KNOWN_VERSION}", clock.utc())
        with translated(str(path)):
            migrate(connection)
    except BaseException:
        connection.close()
        raise
    return connection

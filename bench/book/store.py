"""Keep the book of all panels in one SQLite file: open it, back it up, close it.

One program at a time may write; others may read. A store belongs to the thread that opened it.
"""

from __future__ import annotations

import sqlite3
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from bench.book.backups import Copy, back_up, is_due, set_aside
from bench.book.clock import Clock, SystemClock
from bench.book.exchange import exchange, finish_exchange, prepared
from bench.book.faults import NotReadable, OnlyReading, translated
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
from bench.book.readings import Readings
from bench.book.schema import KNOWN_VERSION, migrate, version_of
from bench.book.whole import check_whole
from bench.book.writer import Writer
from bench.fault import Fault
from bench.speech import say

READINGS = "readings"  # a folder beside the book


class Store(Writer):
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
        super().__init__(connection, where, read_only=read_only)
        self.reading_because = ""  # why nothing can be written, where that was not asked for
        self.readings = Readings(None if folder is None else folder / READINGS, read_only=read_only)
        self.folder = folder
        self._lock = lock

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

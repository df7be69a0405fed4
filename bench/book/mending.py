"""Mend a damaged book: set it aside under a dated name, and keep what can be read of it.

The mended book is made beside the damaged one, on top of the newest backup that is whole and of the same
book, and takes its place in one step. The damaged file stays, for whoever can read more of it.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path

from bench.book.backups import SET_ASIDE, Copy, copies, made_beside, name_for
from bench.book.exchange import exchange, finish_exchange
from bench.book.faults import translated, written
from bench.book.files import (
    BOOK_NAME,
    beside,
    connected_to_read,
    make_folder,
    open_copy,
    sync_file,
    sync_folder,
)
from bench.book.lock import FolderLock
from bench.book.readable import UNREADABLE
from bench.book.salvage import Salvaged, goes_on_from, salvage
from bench.book.schema import KNOWN_VERSION, TABLES_SQL, migrate, tables_as_made, version_of
from bench.book.told import Mended
from bench.book.whole import check_whole
from bench.fault import Fault

DAMAGED = "damaged"


def mend(folder: Path, at_utc: datetime) -> Mended:
    """Mend the book of a folder, which must be closed; return what to tell of it.

    Raises InUse, NotWritable, DiskFull; the book is then as it was.
    """
    make_folder(folder)
    lock = FolderLock(folder)
    try:
        finish_exchange(folder)
        aside = _set_aside(folder, at_utc)
        with made_beside(folder) as new, _described(aside, folder) as at, _opened(at) as damaged:
            backup = _last_good(folder, damaged)
            if backup is not None:
                with written(new):
                    shutil.copyfile(backup.path, new)
            found = _made(new, damaged)
            exchange(new, folder)
    finally:
        lock.release()
    return _told(folder, aside, backup, found)


def _set_aside(folder: Path, at_utc: datetime) -> Path:
    """Give the damaged file, and the log beside it, a second name of its own; no room is needed for that."""
    path = folder / BOOK_NAME
    aside = name_for(folder, SET_ASIDE, DAMAGED, at_utc)
    with written(aside):
        for ending in ("-wal", "-journal", ""):  # the file last: a copy counts once it has its name
            if beside(path, ending).exists():
                _link(beside(path, ending), beside(aside, ending))
        sync_folder(aside.parent)
    return aside


def _link(path: Path, name: Path) -> None:
    try:
        os.link(path, name)
    except OSError:  # a file system without second names
        shutil.copyfile(path, name)
        sync_file(name)


@contextmanager
def _described(aside: Path, folder: Path) -> Iterator[Path]:
    """Have the damaged file; where only its tables are not described as they were made, a copy that does.

    One bit in the name of a column, and SQLite gives no row of the whole file. Without room for a copy the
    file is read as it is.
    """
    if _is_described(aside):
        yield aside
        return
    with made_beside(folder / SET_ASIDE) as copy:
        yield copy if _described_anew(aside, copy) else aside


def _is_described(aside: Path) -> bool:
    """Tell whether the tables of a file are described as they were made, or it is no file at all."""
    if not aside.exists() or aside.stat().st_size == 0:
        return True
    with _opened(aside) as damaged, suppress(*UNREADABLE):
        return damaged is not None and not tables_as_made() - set(damaged.execute(TABLES_SQL))
    return False


def _described_anew(aside: Path, copy: Path) -> bool:
    """Write a copy of a file with its tables described as they were made; tell whether that could be done.

    PRAGMA writable_schema opens what is described wrongly, and lets it be described (sqlite.org/pragma.html).
    """
    with suppress(*UNREADABLE, OSError):
        for ending in ("", "-wal"):
            if beside(aside, ending).exists():
                shutil.copyfile(beside(aside, ending), beside(copy, ending))
        with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
            connection.execute("PRAGMA writable_schema = ON")
            if version_of(connection) != KNOWN_VERSION:
                return False
            for kind, name, sql in tables_as_made():
                described = "UPDATE sqlite_master SET sql = ? WHERE type = ? AND name = ? AND sql <> ?"
                connection.execute(described, (sql, kind, name, sql))
        return True
    return False


@contextmanager
def _opened(aside: Path) -> Iterator[sqlite3.Connection | None]:
    """Have a connection that reads a damaged file, its log included; None where it cannot be opened."""
    if not aside.exists() or aside.stat().st_size == 0:  # SQLite throws a log without its file away
        yield None
        return
    connection = None
    with suppress(*UNREADABLE):
        connection = sqlite3.connect(f"{aside.absolute().as_uri()}?mode=ro", uri=True, isolation_level=None)
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    try:
        yield connection
    finally:
        if connection is not None:
            connection.close()
        with suppress(OSError):
            beside(aside, "-shm").unlink()


def _last_good(folder: Path, damaged: sqlite3.Connection | None) -> Copy | None:
    """Return the newest backup that is whole and that the damaged book goes on from."""
    for copy in copies(folder):
        if copy.is_backup:
            with suppress(Fault), closing(connected_to_read(copy.path)) as backup:
                check_whole(backup, str(copy.path), files=True)
                if damaged is None or goes_on_from(damaged, backup):
                    return copy
    return None


def _made(new: Path, damaged: sqlite3.Connection | None) -> Salvaged:
    with translated(str(new)), closing(open_copy(new)) as mended:
        migrate(mended)
        found = salvage(damaged, mended, str(new))
        check_whole(mended, str(new), files=True)
    with written(new):
        sync_file(new)
    return found


def _told(folder: Path, aside: Path, backup: Copy | None, found: Salvaged) -> Mended:
    last = datetime.fromisoformat(found.last_utc).astimezone() if found.last_utc else None
    return Mended(
        str(folder / BOOK_NAME),
        kept=found.kept,
        newer=found.newer,
        lost=found.lost,
        files_lost=found.files_lost,
        words_lost=found.words_lost,
        last=last,
        backup=None if backup is None else backup.at_utc.astimezone(),
        aside=f"{SET_ASIDE}/{aside.name}" if aside.exists() else "",
        number=int(aside.name.partition("-")[0]),
    )

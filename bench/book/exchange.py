"""Put another file in the place of the book, so that a fall half-way leaves either the one or the other.

The new file is made whole and kept under a name of its own; that it has this name decides. From then on
the exchange is carried through, if need be when the book is opened next: the old log goes first, since
SQLite would take it for the new file's, and then the file itself is replaced.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path

from bench.book.backups import made_beside
from bench.book.faults import translated, written
from bench.book.files import BOOK_NAME, INCOMING, beside, examine, open_copy, sync_file, sync_folder
from bench.book.rows import MARKS_SQL, mark_of_row, put_mark
from bench.book.schema import migrate
from bench.book.whole import check_whole


@contextmanager
def prepared(source: Path, folder: Path) -> Iterator[Path]:
    """Have a copy of a book, checked and brought up to date, that can take the place of the folder's.

    Countdowns in it are unsure from now on. Raises Damaged, NewerBook, DiskFull, NotWritable.
    """
    with made_beside(folder) as new:
        with written(source):
            shutil.copyfile(source, new)
        with translated(str(source), reading=True), closing(open_copy(new)) as connection:
            examine(connection, source)
            check_whole(connection, str(source), files=True)
            migrate(connection)
            _distrust(connection)
        with written(new):
            sync_file(new)
        yield new


def _distrust(connection: sqlite3.Connection) -> None:
    """Let every countdown be unsure, and those that cannot be read be gone."""
    connection.execute("BEGIN IMMEDIATE")
    for (panel_id,) in connection.execute("SELECT panel_id FROM panel").fetchall():
        for row in connection.execute(f"{MARKS_SQL} WHERE panel_id = ?", (panel_id,)).fetchall():
            mark = mark_of_row(panel_id, row)
            connection.execute("DELETE FROM countdown WHERE panel_id = ? AND mix = ?", (panel_id, row[0]))
            if mark is not None:
                put_mark(connection, panel_id, row[0], replace(mark, unsure=True))
    connection.execute("COMMIT")


def exchange(ready: Path, folder: Path) -> None:
    """Let a whole file be the book from now on; the book must be closed. Raises NotWritable."""
    with written(folder):
        os.replace(ready, folder / INCOMING)
        sync_folder(folder)
    finish_exchange(folder)


def finish_exchange(folder: Path) -> None:
    """Carry an exchange through that was decided; without one do nothing. The folder must be locked."""
    incoming, path = folder / INCOMING, folder / BOOK_NAME
    if not incoming.exists():
        return
    with written(path):
        for ending in ("-wal", "-shm", "-journal"):
            beside(path, ending).unlink(missing_ok=True)
        os.replace(incoming, path)
        sync_folder(folder)


"""Tell whether a book is whole: its pages, its seals, the files it keeps."""

from __future__ import annotations

import hashlib
import sqlite3
from datetime import datetime
from typing import Any

from bench.book.faults import Damaged, translated
from bench.book.schema import KNOWN_VERSION, TABLES_SQL, tables_as_made, version_of
from bench.book.seals import is_whole
from bench.book.worded import LOST, SEALED, Table, changed_words, columns_of, says_what_it_said
from bench.speech import say


def check_whole(connection: sqlite3.Connection, path: str, *, files: bool = False) -> None:
    """Raise Damaged for a book that is not whole; `files`: hash every file kept in it too.

    How pages hang together, and that an index says what its table does, is SQLite's to tell (PRAGMA
    integrity_check, sqlite.org/pragma.html). A book of a version before seals is checked without them.
    """
    with translated(path, reading=True):
        said = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if said != "ok":
            raise Damaged(path, str(said).splitlines()[-1])
        _check_tables(connection, path)
        columns = {row[1] for row in connection.execute("PRAGMA table_info(event)")}
        if "seal" in columns:
            _check_seals(connection, path)
        _check_words(connection, path)
        if files:
            _check_files(connection, path)


def _check_tables(connection: sqlite3.Connection, path: str) -> None:
    """See that the tables are what they were made as: a bit may flip in the name of a column too."""
    if version_of(connection) == KNOWN_VERSION:
        changed = tables_as_made() - set(connection.execute(TABLES_SQL))
        if changed:
            name = min(name for _, name, _ in changed)
            raise Damaged(path, say("{name} is not as it was made", name=name))


def _check_seals(connection: sqlite3.Connection, path: str) -> None:
    rows = connection.execute("SELECT seq, seal, panel_id, act_id, at_utc, body FROM event ORDER BY seq")
    for row in rows:
        if not is_whole(row[1], *row[2:]):
            raise Damaged(path, say("entry {entry} has changed since it was written", entry=row[0]))


def _check_words(connection: sqlite3.Connection, path: str) -> None:
    """See that words can be read, and say what they said; in older books some or all have no seals."""
    for table, columns in SEALED.items():
        here = [row[1] for row in connection.execute(f"PRAGMA table_info({table})")]
        sealed = "seal" in here
        which = columns_of(table) if sealed else ", ".join(columns)
        for row in connection.execute(f"SELECT {which} FROM {table}") if here else ():
            if sealed and not says_what_it_said(row):
                raise Damaged(path, changed_words(table, row[0]))
            _check_date(table, row, path)


def _check_date(table: Table, row: tuple[Any, ...], path: str) -> None:
    dated = {"panel": "created_utc", "draft": "changed_utc"}
    if table not in dated:
        return
    try:
        datetime.fromisoformat(row[SEALED[table].index(dated[table])])
    except (ValueError, TypeError) as error:
        panel, draft = say("a panel of it: {error}", error=error), say("a draft of it: {error}", error=error)
        raise Damaged(path, panel if table == "panel" else draft) from error


def _check_files(connection: sqlite3.Connection, path: str) -> None:
    files = connection.execute("SELECT sha256, CAST(data AS BLOB) FROM blob WHERE media <> ?", (LOST,))
    for sha256, data in files:
        if hashlib.sha256(data).hexdigest() != sha256:
            raise Damaged(path, say("the file {hash} kept in it has changed", hash=sha256[:12]))

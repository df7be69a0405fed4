"""Tell whether a book is whole: its pages, its seals, the files it keeps."""

from __future__ import annotations

import hashlib
import sqlite3
from datetime import datetime

from bench.book.faults import Damaged, translated
from bench.book.schema import LOST
from bench.book.seals import is_whole
from bench.speech import say


def check_whole(connection: sqlite3.Connection, path: str, *, files: bool = False) -> None:
    """Raise Damaged for a book that is not whole; `files`: hash every file kept in it too.

    How pages hang together is SQLite's to tell (PRAGMA quick_check, sqlite.org/pragma.html). A book of a
    version before seals is checked without them.
    """
    with translated(path, reading=True):
        said = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
        if said != "ok":
            raise Damaged(path, str(said).splitlines()[-1])
        columns = {row[1] for row in connection.execute("PRAGMA table_info(event)")}
        if "seal" in columns:
            _check_seals(connection, path)
        _check_words(connection, path)
        if files:
            _check_files(connection, path)


def _check_seals(connection: sqlite3.Connection, path: str) -> None:
    rows = connection.execute("SELECT seq, seal, panel_id, act_id, at_utc, body FROM event ORDER BY seq")
    for row in rows:
        if not is_whole(row[1], *row[2:]):
            raise Damaged(path, say("entry {entry} has changed since it was written", entry=row[0]))


def _check_words(connection: sqlite3.Connection, path: str) -> None:
    """See that what has no seal can at least be read."""
    tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    for table, date in (("panel", "created_utc"), ("draft", "changed_utc"), ("setting", "''")):
        for row in connection.execute(f"SELECT {date}, * FROM {table}") if table in tables else ():
            try:
                datetime.fromisoformat(row[0] or "2026-01-01")
            except (ValueError, TypeError) as error:
                raise Damaged(path, _unreadable(table, error)) from error
    connection.execute("SELECT sha256, media FROM blob").fetchall()


def _unreadable(table: str, error: Exception) -> str:
    """Say what stands in a table cannot be read."""
    if table == "panel":
        return say("a panel of it: {error}", error=error)
    if table == "draft":
        return say("a draft of it: {error}", error=error)
    return say("a setting of it: {error}", error=error)


def _check_files(connection: sqlite3.Connection, path: str) -> None:
    files = connection.execute("SELECT sha256, CAST(data AS BLOB) FROM blob WHERE media <> ?", (LOST,))
    for sha256, data in files:
        if hashlib.sha256(data).hexdigest() != sha256:
            raise Damaged(path, say("the file {hash} kept in it has changed", hash=sha256[:12]))

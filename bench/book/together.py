"""Write all of something or none of it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from bench.book.faults import translated


class Together:
    """One transaction at a time on a connection; what begins within another belongs to it.

    A part that fails takes the whole with it, even where whoever began the whole caught its fault: SQLite
    may have rolled back by itself, and what came after would stand alone.
    """

    def __init__(self, connection: sqlite3.Connection, path: str) -> None:
        self._connection = connection
        self._path = path
        self._begun = False
        self._spoiled_by: BaseException | None = None

    @contextmanager
    def __call__(self) -> Iterator[None]:
        """Write what happens within, all or none; back from it, it is on the disk."""
        if self._spoiled_by is not None:
            raise self._spoiled_by
        with self._part() if self._begun else self._whole():
            yield

    @contextmanager
    def _part(self) -> Iterator[None]:
        try:
            yield
        except BaseException as error:
            self._spoiled_by = error
            raise

    @contextmanager
    def _whole(self) -> Iterator[None]:
        with translated(self._path):
            try:
                self._connection.execute("BEGIN IMMEDIATE")
                self._begun = True
                yield
                if self._spoiled_by is not None:
                    raise self._spoiled_by
                self._connection.execute("COMMIT")
            except BaseException:
                with suppress(sqlite3.Error):
                    if self._connection.in_transaction:
                        self._connection.execute("ROLLBACK")
                raise
            finally:
                self._begun, self._spoiled_by = False, None

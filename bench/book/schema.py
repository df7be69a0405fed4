"""Keep the book's tables, and bring older ones up to date.

Migrations are numbered, each in one transaction, and touch tables only: an event is stored as it was
written, for good, and is brought up to date when it is read (`events/upcast.py`). A new kind, version or
field of an event also asks for a new number here, even one without statements, so that an older Potwatch
leaves the book alone; what each version can hold is listed beside its sample in the tests.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from functools import cache
from typing import NamedTuple

from bench.book.seals import seal_of
from bench.book.worded import LOST, SEALED, Table

BOOK_ID = 0x50_6F_74_77  # the letters Potw: marks the file as a book, beside SQLite's own mark


SEAL = "seal_of"  # the function of that name, in the statements of a migration


class Migration(NamedTuple):
    """The statements that lead from the version before to this one."""

    version: int
    statements: tuple[str, ...]


# tables with words, by the version from which on their rows are sealed
_SEALED_FROM_4: tuple[Table, ...] = ("panel", "setting", "draft")
_SEALED_FROM_5: tuple[Table, ...] = ("blob", "draft_file", "brought", "parted")


def _sealed(tables: tuple[Table, ...]) -> tuple[str, ...]:
    """Return the statements that seal the rows that are there."""
    return tuple(f"UPDATE {table} SET seal = {SEAL} ({', '.join(SEALED[table])})" for table in tables)


_FILE_STAYS = f"""CREATE TRIGGER blob_stays BEFORE UPDATE ON blob WHEN OLD.media <> '{LOST}'
                BEGIN SELECT RAISE (ABORT, 'a stored file is never rewritten'); END"""

# the kind of an event in its row; an index stands on it, so queries must use these very words
KIND = "CASE WHEN json_valid(body) THEN json_extract(body, '$.kind') END"

MIGRATIONS = (
    Migration(
        1,
        (
            f"PRAGMA application_id = {BOOK_ID}",
            """CREATE TABLE blob (
                sha256 TEXT PRIMARY KEY,
                media TEXT NOT NULL,
                data BLOB NOT NULL
            )""",
            """CREATE TABLE panel (
                panel_id INTEGER PRIMARY KEY AUTOINCREMENT,
                name TEXT NOT NULL,
                drawing_sha256 TEXT NOT NULL REFERENCES blob (sha256),
                created_utc TEXT NOT NULL
            )""",
            """CREATE TABLE event (
                seq INTEGER PRIMARY KEY AUTOINCREMENT,
                panel_id INTEGER NOT NULL REFERENCES panel (panel_id),
                act_id TEXT NOT NULL,
                at_utc TEXT NOT NULL,
                body TEXT NOT NULL
            )""",
            "CREATE INDEX event_by_panel ON event (panel_id, seq)",
            "CREATE INDEX event_by_act ON event (act_id)",
            f"CREATE INDEX event_by_kind ON event ({KIND})",
            """CREATE TABLE countdown (
                panel_id INTEGER NOT NULL REFERENCES panel (panel_id),
                mix TEXT NOT NULL,
                total_s REAL NOT NULL,
                spent_s REAL NOT NULL,
                wall_utc TEXT NOT NULL,
                boot_s REAL,
                boot_id TEXT,
                running INTEGER NOT NULL,
                unsure INTEGER NOT NULL,
                surely_s REAL NOT NULL,
                PRIMARY KEY (panel_id, mix)
            )""",
            "CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL)",
            """CREATE TRIGGER event_stays BEFORE UPDATE ON event
                BEGIN SELECT RAISE (ABORT, 'an event is never rewritten'); END""",
            """CREATE TRIGGER event_is_kept BEFORE DELETE ON event
                BEGIN SELECT RAISE (ABORT, 'an event is never removed'); END""",
            # INSERT OR REPLACE removes the old row without firing the trigger above
            """CREATE TRIGGER event_is_not_replaced BEFORE INSERT ON event
                WHEN EXISTS (SELECT 1 FROM event WHERE seq = NEW.seq)
                BEGIN SELECT RAISE (ABORT, 'an event is never replaced'); END""",
            """CREATE TRIGGER blob_stays BEFORE UPDATE ON blob
                BEGIN SELECT RAISE (ABORT, 'a stored file is never rewritten'); END""",
        ),
    ),
    Migration(
        2,
        (
            # work in hand, rewritten and dropped: its files lie apart from those that are kept for good
            """CREATE TABLE draft (
                draft_id INTEGER PRIMARY KEY AUTOINCREMENT,
                name TEXT NOT NULL,
                changed_utc TEXT NOT NULL,
                body TEXT NOT NULL
            )""",
            """CREATE TABLE draft_file (
                draft_id INTEGER NOT NULL REFERENCES draft (draft_id) ON DELETE CASCADE,
                role TEXT NOT NULL,
                sha256 TEXT NOT NULL,
                data BLOB NOT NULL,
                PRIMARY KEY (draft_id, role)
            )""",
        ),
    ),
    Migration(3, ()),  # a dry lay is photographed: the picture is a file of the book like any other
    Migration(
        4,
        (
            # bottles, weighed cups, hardener as poured, revised drawings, hours of laying, lives allowed and
            # edges traced, photos, zones grouted are entries too; and rows are sealed, entries before are not
            "ALTER TABLE event ADD COLUMN seal INTEGER",
            "ALTER TABLE countdown ADD COLUMN seal INTEGER",
            *(f"ALTER TABLE {table} ADD COLUMN seal INTEGER" for table in _SEALED_FROM_4),
            # a file that was damaged beyond its backups may be put in again
            "DROP TRIGGER blob_stays",
            _FILE_STAYS,
            # a book has a name that no other has, so that entries brought to another tablet are told apart
            "INSERT INTO setting (key, value) VALUES ('book_id', lower(hex(randomblob(16))))",
            """CREATE TABLE brought (
                seq INTEGER PRIMARY KEY REFERENCES event (seq),
                book TEXT NOT NULL
            )""",
            """CREATE TABLE parted (
                panel_id INTEGER PRIMARY KEY REFERENCES panel (panel_id),
                from_panel INTEGER NOT NULL REFERENCES panel (panel_id),
                after_seq INTEGER NOT NULL
            )""",
            *_sealed(_SEALED_FROM_4),
        ),
    ),
    Migration(
        5,
        (
            # kinds of files, what drafts have them for, and where entries came from are sealed too
            *(f"ALTER TABLE {table} ADD COLUMN seal INTEGER" for table in _SEALED_FROM_5),
            "DROP TRIGGER blob_stays",
            *_sealed(_SEALED_FROM_5),
            _FILE_STAYS,
        ),
    ),
)

KNOWN_VERSION = MIGRATIONS[-1].version


TABLES_SQL = "SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL"


@cache
def tables_as_made() -> frozenset[tuple[str, str, str]]:
    """Return kind, name and statement of all that a book of the present version is made of."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        migrate(connection)
        return frozenset(connection.execute(TABLES_SQL))


def version_of(connection: sqlite3.Connection) -> int:
    """Return the version of the book's tables; 0 for an empty file."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(connection: sqlite3.Connection, migrations: Sequence[Migration] = MIGRATIONS) -> None:
    """Bring the tables up to the newest version, a transaction a step; a step that fails leaves no trace."""
    connection.create_function(SEAL, -1, seal_of, deterministic=True)
    for migration in migrations:
        connection.execute("BEGIN IMMEDIATE")
        try:
            if version_of(connection) < migration.version:
                for statement in migration.statements:
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {migration.version}")
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise

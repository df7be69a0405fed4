"""Books of every version are brought up to date whole; a newer one is left as it is."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from bench.book.faults import Damaged, NewerBook, NoBook, OlderBook
from bench.book.files import BOOK_NAME
from bench.book.schema import BOOK_ID, KNOWN_VERSION, MIGRATIONS, Migration, migrate, version_of
from bench.book.store import Store
from tests.fakes.books import (
    MIX,
    act_of_three,
    acts_in,
    content_of,
    from_outside,
    make_book,
    mark_of,
    write_act,
)

SAMPLES = sorted((Path(__file__).parent / "samples").glob("book-version-*.sql"))


def tables_of(path):
    return from_outside(path, "SELECT type, name, sql FROM sqlite_master ORDER BY type, name")


def test_there_is_a_sample_of_every_version():
    assert [f"book-version-{step.version}" for step in MIGRATIONS] == [path.stem for path in SAMPLES]


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.stem)
def test_a_book_of_an_earlier_version_is_whole_and_goes_on(tmp_path, sample):
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript(sample.read_text(encoding="utf-8"))
    with Store.open(tmp_path) as store:
        assert [act_of_three(number) for number in range(3)] == acts_in(store)
        assert mark_of(2) == store.countdown(1, MIX)
        assert len(store.blob(store.panels()[0].drawing_sha256)) == 41
        write_act(store, 1, 3)
        assert store.last_seq(1) == 12
    (tmp_path / "new").mkdir()
    assert tables_of(make_book(tmp_path / "new")) == tables_of(tmp_path / BOOK_NAME)


def test_versions_are_numbered_without_a_gap():
    assert list(range(1, KNOWN_VERSION + 1)) == [migration.version for migration in MIGRATIONS]


def test_the_file_is_marked_as_a_book_of_its_version(tmp_path):
    """Offsets 60 and 68 of the header, big-endian: SQLite's database file format, section 1.3."""
    header = make_book(tmp_path).read_bytes()[:100]
    assert int.from_bytes(header[60:64], "big") == KNOWN_VERSION
    assert int.from_bytes(header[68:72], "big") == BOOK_ID


def test_a_migration_that_fails_half_way_leaves_no_trace(tmp_path):
    path = make_book(tmp_path)
    before = tables_of(path)
    fails = Migration(KNOWN_VERSION + 1, ("CREATE TABLE extra (x)", "INSERT INTO nowhere VALUES (1)"))
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        with pytest.raises(sqlite3.OperationalError, match="nowhere"):
            migrate(connection, [*MIGRATIONS, fails])
        assert not connection.in_transaction
        assert version_of(connection) == KNOWN_VERSION
    assert before == tables_of(path)


def test_a_migration_leaves_every_event_as_it_was_written(tmp_path):
    path = make_book(tmp_path)
    before = from_outside(path, "SELECT * FROM event ORDER BY seq")
    adds = Migration(KNOWN_VERSION + 1, ("ALTER TABLE panel ADD COLUMN place TEXT NOT NULL DEFAULT ''",))
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        migrate(connection, [*MIGRATIONS, adds])
        migrate(connection, [*MIGRATIONS, adds])
        assert version_of(connection) == KNOWN_VERSION + 1
    assert before == from_outside(path, "SELECT * FROM event ORDER BY seq")
    assert from_outside(path, "SELECT place FROM panel") == [("",)]


@pytest.mark.parametrize("read_only", [False, True])
def test_a_newer_book_is_named_and_left_byte_for_byte(tmp_path, read_only):
    path = make_book(tmp_path)
    from_outside(path, f"PRAGMA user_version = {KNOWN_VERSION + 4}")
    before = content_of(tmp_path)
    with pytest.raises(NewerBook) as caught:
        Store.open(tmp_path, read_only=read_only)
    assert (caught.value.version, caught.value.known) == (KNOWN_VERSION + 4, KNOWN_VERSION)
    assert f"version {KNOWN_VERSION + 4}" in str(caught.value)
    assert "newer Potwatch" in caught.value.todo
    assert before == content_of(tmp_path)


def test_a_newer_version_still_in_the_write_ahead_log_is_seen(tmp_path):
    path = make_book(tmp_path)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA wal_autocheckpoint = 0")
        connection.execute(f"PRAGMA user_version = {KNOWN_VERSION + 1}")
        assert int.from_bytes(path.read_bytes()[60:64], "big") == KNOWN_VERSION
        before = path.read_bytes()
        with pytest.raises(NewerBook):
            Store.open(tmp_path)
        assert before == path.read_bytes()


def test_a_book_without_tables_yet_is_no_book_to_read(tmp_path):
    (tmp_path / BOOK_NAME).touch()
    with pytest.raises(NoBook):
        Store.open(tmp_path, read_only=True)
    with Store.open(tmp_path) as store:
        assert store.panels() == []


def test_reading_only_does_not_bring_an_older_book_up_to_date(tmp_path, monkeypatch):
    make_book(tmp_path)
    monkeypatch.setattr("bench.book.files.KNOWN_VERSION", KNOWN_VERSION + 1)
    before = content_of(tmp_path)[BOOK_NAME]
    with pytest.raises(OlderBook) as caught:
        Store.open(tmp_path, read_only=True)
    assert (caught.value.version, caught.value.known) == (KNOWN_VERSION, KNOWN_VERSION + 1)
    assert before == content_of(tmp_path)[BOOK_NAME]


@pytest.mark.parametrize("book_id", [0, 77])
def test_another_programs_database_is_left_alone(tmp_path, book_id):
    path = tmp_path / BOOK_NAME
    from_outside(path, f"PRAGMA application_id = {book_id}", "CREATE TABLE recipe (name)")
    before = content_of(tmp_path)
    for read_only in (False, True):
        with pytest.raises(Damaged, match="another program's file"):
            Store.open(tmp_path, read_only=read_only)
    assert before == content_of(tmp_path)

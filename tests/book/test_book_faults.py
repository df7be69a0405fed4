"""Whatever happens to the file ends in a named fault, and what was kept is still there."""

import os
import sqlite3
import stat
import tempfile
from contextlib import closing
from pathlib import Path

import pytest

from bench.book.faults import (
    ActWrittenBefore,
    Damaged,
    DiskFull,
    InUse,
    LostFile,
    NewerBook,
    NoBook,
    NoSuchBlob,
    NoSuchPanel,
    NotReadable,
    NotSynced,
    NotWritable,
    OlderBook,
    OnlyReading,
    OtherFile,
    Unfit,
    translated,
)
from bench.book.files import BOOK_NAME
from bench.book.store import Store
from tests.fakes.books import (
    MIX,
    act_of_three,
    acts_in,
    add_panel,
    content_of,
    from_outside,
    make_book,
    write_act,
)
from tests.fakes.nobody import as_nobody

on_posix = pytest.mark.skipif(os.name != "posix", reason="POSIX modes")


@pytest.fixture
def plain_folder():
    """A folder of a person without special rights, who the test then is."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with as_nobody(folder):
            yield folder


@pytest.mark.parametrize(
    "fault",
    [
        NotWritable("book", "no"),
        DiskFull("book"),
        NotSynced("book"),
        LostFile("book", "ab" * 32),
        OtherFile("book"),
        NotReadable("book", "no"),
        InUse("book"),
        Damaged("book", "no"),
        NewerBook("book", 9, 1),
        OlderBook("book", 0, 1),
        NoBook("book"),
        OnlyReading("book"),
        Unfit("note_written", "no"),
        NoSuchPanel(3, ()),
        NoSuchBlob("ab" * 32),
        ActWrittenBefore("act"),
    ],
    ids=lambda fault: type(fault).__name__,
)
def test_each_fault_is_one_line_that_says_what_where_and_what_to_do(fault):
    assert "\n" not in str(fault)
    assert all((fault.what, fault.where, fault.todo))


# Folders


def test_a_folder_below_a_file_cannot_be_made(tmp_path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(NotWritable) as caught:
        Store.open(tmp_path / "file" / "potwatch")
    assert str(tmp_path / "file" / "potwatch") == caught.value.path
    assert "POTWATCH_HOME" in caught.value.todo


def test_a_file_where_the_folder_should_be_is_a_fault(tmp_path):
    (tmp_path / "file").write_text("no folder")
    for read_only in (False, True):
        with pytest.raises((NotWritable, NotReadable)):
            Store.open(tmp_path / "file", read_only=read_only)
    assert (tmp_path / "file").read_text() == "no folder"


@on_posix
def test_a_folder_that_cannot_be_written_is_a_fault_and_can_still_be_read(plain_folder):
    make_book(plain_folder)
    plain_folder.chmod(0o500)
    (plain_folder / "potwatch.lock").chmod(0o400)
    before = content_of(plain_folder)
    try:
        with pytest.raises(NotWritable):
            Store.open(plain_folder)
        with Store.open(plain_folder, read_only=True) as store:
            assert [act_of_three(number) for number in range(3)] == acts_in(store)
        assert before == content_of(plain_folder)
    finally:
        plain_folder.chmod(0o700)


@on_posix
def test_a_folder_that_cannot_be_written_gets_no_book(plain_folder):
    plain_folder.chmod(0o500)
    try:
        for folder in (plain_folder, plain_folder / "potwatch"):
            with pytest.raises(NotWritable):
                Store.open(folder)
        assert list(plain_folder.iterdir()) == []
    finally:
        plain_folder.chmod(0o700)


@on_posix
def test_a_book_that_cannot_be_written_is_a_fault(plain_folder):
    path = make_book(plain_folder)
    path.chmod(0o400)
    before = content_of(plain_folder)
    with pytest.raises(NotWritable):
        Store.open(plain_folder)
    assert before == content_of(plain_folder)


@on_posix
def test_a_book_that_cannot_be_read_is_a_fault(plain_folder):
    path = make_book(plain_folder)
    path.chmod(0o200)
    for read_only in (False, True):
        with pytest.raises(NotReadable):
            Store.open(plain_folder, read_only=read_only)
    path.chmod(0o600)


@on_posix
@pytest.mark.parametrize("umask", [0o000, 0o022, 0o077])
def test_what_is_made_is_its_owners_alone(tmp_path, umask):
    before = os.umask(umask)
    try:
        with Store.open(tmp_path / "potwatch") as store:
            write_act(store, add_panel(store), 1)
            assert stat.S_IMODE((tmp_path / "potwatch").stat().st_mode) == 0o700
            modes = {
                path.name: stat.S_IMODE(path.stat().st_mode) for path in (tmp_path / "potwatch").iterdir()
            }
    finally:
        os.umask(before)
    endings = ("potwatch.lock", BOOK_NAME, f"{BOOK_NAME}-shm", f"{BOOK_NAME}-wal")
    assert dict.fromkeys(endings, 0o600) == modes


@on_posix
def test_a_book_that_others_could_read_is_closed_to_them(tmp_path):
    path = make_book(tmp_path)
    path.chmod(0o644)
    Store.open(tmp_path).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


@on_posix
def test_a_folder_that_was_there_keeps_its_mode(tmp_path):
    tmp_path.chmod(0o755)
    Store.open(tmp_path).close()
    assert stat.S_IMODE(tmp_path.stat().st_mode) == 0o755


# Files that are no book, or no whole one


def half_of(data):
    return data[: len(data) // 2]


def with_broken_pages(data):
    """Flip every byte of all pages but the first, where the tables are listed."""
    return data[:4096] + bytes(byte ^ 0xFF for byte in data[4096:])


SPOILED = {
    "text": lambda data: b"Lemons on a blue cloth\n" * 100,
    "short text": lambda data: b"Lemons",
    "zeros": lambda data: bytes(8192),
    "first kilobyte": lambda data: data[:1024],
    "only the header": lambda data: data[:100],
    "half": half_of,
    "broken list of tables": lambda data: (
        data[:100] + bytes(byte ^ 0x5A for byte in data[100:4096]) + data[4096:]
    ),
}


@pytest.mark.parametrize("spoil", SPOILED.values(), ids=SPOILED.keys())
@pytest.mark.parametrize("read_only", [False, True])
def test_a_file_that_is_no_whole_book_is_named_and_left_byte_for_byte(tmp_path, spoil, read_only):
    path = make_book(tmp_path)
    path.write_bytes(spoil(path.read_bytes()))
    before = path.read_bytes()
    with pytest.raises(Damaged) as caught:
        Store.open(tmp_path, read_only=read_only)
    assert str(path) == caught.value.path
    assert str(path) in str(caught.value)
    assert before == path.read_bytes()


def test_broken_pages_are_told_when_they_are_read(tmp_path):
    path = make_book(tmp_path, acts=50)
    path.write_bytes(with_broken_pages(path.read_bytes()))
    before = path.read_bytes()
    with Store.open(tmp_path, read_only=True) as store:
        for ask in (
            store.all_events,
            store.panels,
            lambda: store.countdown(1, MIX),
            lambda: store.setting("x"),
        ):
            with pytest.raises(Damaged):
                ask()
    assert before == path.read_bytes()


def test_a_folder_in_place_of_the_book_is_a_fault(tmp_path):
    (tmp_path / BOOK_NAME).mkdir()
    for read_only in (False, True):
        with pytest.raises(NotReadable):
            Store.open(tmp_path, read_only=read_only)


def test_an_emptied_book_does_not_take_its_newest_acts_along(tmp_path):
    """SQLite removes a log that stands beside an empty file, and with it what only the log still holds."""
    path = make_book(tmp_path)
    log = tmp_path / f"{BOOK_NAME}-wal"
    log.write_bytes(path.read_bytes())
    path.write_bytes(b"")
    with pytest.raises(Damaged):
        Store.open(tmp_path)
    assert log.stat().st_size > 0


@pytest.mark.parametrize(
    "body", ["{", "[]", '{"kind": "told_a_joke"}', '{"kind": "note_written"}', "null", "1,2"]
)
def test_an_entry_that_cannot_be_read_is_named(tmp_path, body):
    path = make_book(tmp_path)
    at_utc = "2026-01-01T00:00:00+00:00"
    from_outside(path, f"INSERT INTO event VALUES (NULL, 1, 'x', '{at_utc}', '{body}', NULL)")
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="entry 10"):
        store.events(1)


@pytest.mark.parametrize("at_utc", ["yesterday", "", None, 3])
def test_an_entry_without_a_time_is_named(tmp_path, at_utc):
    path = make_book(tmp_path)
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("DROP TABLE event")
        connection.execute("CREATE TABLE event (seq, panel_id, act_id, at_utc, body, seal)")
        connection.execute(
            "INSERT INTO event VALUES (1, 1, 'x', ?, ?, NULL)", (at_utc, act_of_three(1)[2].model_dump_json())
        )
    with Store.open(tmp_path, read_only=True) as store, pytest.raises(Damaged, match="entry 1"):
        store.events(1)


def test_a_book_with_a_table_missing_is_told(tmp_path):
    path = make_book(tmp_path)
    from_outside(path, "DROP TABLE event")
    with Store.open(tmp_path) as store, pytest.raises(Damaged, match="no such table"):
        store.events(1)


def test_a_mistake_of_the_program_is_not_told_as_a_fault_of_the_file():
    def misspell():
        with translated("book"), closing(sqlite3.connect(":memory:")) as connection:
            connection.execute("SELEKT 1")

    with pytest.raises(sqlite3.OperationalError, match="syntax"):
        misspell()

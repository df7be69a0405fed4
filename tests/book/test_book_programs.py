"""One program writes a book; others are told, and may read."""

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from bench.book.faults import (
    Damaged,
    InUse,
    NoBook,
    OnlyReading,
)
from bench.book.files import BOOK_NAME
from bench.book.store import Store
from tests.fakes.books import (
    AT_UTC,
    MIX,
    act_of_three,
    acts_in,
    add_panel,
    content_of,
    make_book,
    mark_of,
    write_act,
)

ROOT = Path(__file__).parents[2]

on_posix = pytest.mark.skipif(os.name != "posix", reason="POSIX locks and limits")


def test_a_second_instance_is_told_and_may_read(tmp_path):
    make_book(tmp_path)
    with Store.open(tmp_path):
        with pytest.raises(InUse) as caught:
            Store.open(tmp_path)
        assert "reading only" in caught.value.todo
        with Store.open(tmp_path, read_only=True) as reader:
            assert reader.read_only
            assert len(acts_in(reader)) == 3


@pytest.mark.slow
def test_a_second_process_is_told_too(tmp_path):
    make_book(tmp_path)
    script = "import sys, pathlib; from bench.book.store import Store; Store.open(pathlib.Path(sys.argv[1]))"
    with Store.open(tmp_path):
        second = subprocess.run(
            [sys.executable, "-c", script, str(tmp_path)], capture_output=True, text=True, cwd=ROOT
        )
    assert second.returncode == 1
    assert "bench.book.faults.InUse" in second.stderr


def test_a_lock_file_left_behind_locks_nothing(tmp_path):
    (tmp_path / "potwatch.lock").write_text("left by a crash")
    with Store.open(tmp_path) as store:
        assert store.panels() == []


def test_another_program_that_holds_the_database_is_told(tmp_path):
    path = make_book(tmp_path)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(InUse):
            Store.open(tmp_path, busy_s=0.01)
        other.execute("ROLLBACK")
        with Store.open(tmp_path, busy_s=0.01) as store:
            other.execute("BEGIN IMMEDIATE")
            with pytest.raises(InUse):
                write_act(store, 1, 3)
            other.execute("ROLLBACK")
            write_act(store, 1, 3)
            assert [act_of_three(number) for number in range(4)] == acts_in(store)


def test_a_failed_opening_lets_the_next_program_in(tmp_path):
    path = make_book(tmp_path)
    good = path.read_bytes()
    path.write_bytes(b"spoiled" * 100)
    with pytest.raises(Damaged):
        Store.open(tmp_path)
    path.write_bytes(good)
    Store.open(tmp_path).close()


def test_a_book_opened_for_reading_refuses_every_write(tmp_path):
    make_book(tmp_path)
    before = content_of(tmp_path)
    with Store.open(tmp_path, read_only=True) as store:
        for write in (
            lambda: write_act(store, 1, 9),
            lambda: store.put_blob(b"x", "text/plain"),
            lambda: store.add_panel("x", store.panels()[0].drawing_sha256, AT_UTC),
            lambda: store.set_countdown(1, MIX, mark_of(1)),
            lambda: store.set_setting("theme", "dark"),
        ):
            with pytest.raises(OnlyReading):
                write()
    assert before[BOOK_NAME] == content_of(tmp_path)[BOOK_NAME]


def test_there_is_nothing_to_read_before_the_first_book(tmp_path):
    with pytest.raises(NoBook):
        Store.open(tmp_path / "nowhere", read_only=True)
    assert list(tmp_path.iterdir()) == []


def test_a_reader_finds_the_acts_that_a_killed_writer_left_in_the_log(tmp_path):
    with Store.open(tmp_path / "live") as store:
        panel_id = add_panel(store)
        write_act(store, panel_id, 0)
        (tmp_path / "copy").mkdir()
        for ending in ("", "-wal"):
            shutil.copy(tmp_path / "live" / (BOOK_NAME + ending), tmp_path / "copy")
    with Store.open(tmp_path / "copy", read_only=True) as reader:
        assert [act_of_three(0)] == acts_in(reader)


@on_posix
@pytest.mark.slow
def test_looking_at_a_book_does_not_drop_the_locks_its_writer_holds(tmp_path):
    """Closing a file drops all POSIX locks that a process holds on it; a writer without them loses its log
    to the next program that closes the book (sqlite.org/howtocorrupt.html, section 2.2)."""
    visit = (
        "import sqlite3, sys; c = sqlite3.connect(sys.argv[1]); c.execute('SELECT * FROM event'); c.close()"
    )
    path = make_book(tmp_path)
    with Store.open(tmp_path) as writer:
        write_act(writer, 1, 3)
        Store.open(tmp_path, read_only=True).close()
        with pytest.raises(InUse):
            Store.open(tmp_path)
        subprocess.run([sys.executable, "-c", visit, str(path)], check=True)
        write_act(writer, 1, 4)
        with Store.open(tmp_path, read_only=True) as reader:
            assert acts_in(reader) == [act_of_three(number) for number in range(5)]
    with Store.open(tmp_path, read_only=True) as reader:
        assert acts_in(reader) == [act_of_three(number) for number in range(5)]


def test_a_write_cut_short_without_a_log_is_rolled_back(tmp_path):
    """On a file system without shared memory SQLite keeps a journal instead of a log."""
    path = make_book(tmp_path / "live")
    (tmp_path / "copy").mkdir()
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        for statement in ("PRAGMA journal_mode = DELETE", "PRAGMA cache_size = 1", "BEGIN IMMEDIATE"):
            other.execute(statement)
        for number in range(200):
            other.execute("INSERT INTO setting (key, value) VALUES (?, ?)", (str(number), "half" * 400))
        for ending in ("", "-journal"):
            shutil.copy(f"{path}{ending}", tmp_path / "copy")
        other.execute("ROLLBACK")
    with Store.open(tmp_path / "copy") as store:
        assert acts_in(store) == [act_of_three(number) for number in range(3)]
        assert store.setting("0") is None

"""A book on the disk: opened, read by others, closed, and never rewritten."""

import os
import sqlite3
import threading

import pytest

from bench.book import countdown
from bench.book.events import PanelOpened
from bench.book.faults import Damaged
from bench.book.store import Store
from tests.fakes.books import (
    AT_UTC,
    MIX,
    act_of_three,
    acts_in,
    add_panel,
    from_outside,
    make_book,
    mark_of,
    write_act,
)
from tests.fakes.clock import FakeClock


def test_a_file_whose_content_changed_is_not_handed_out(tmp_path):
    path = make_book(tmp_path)
    from_outside(path, "DROP TRIGGER blob_stays", "UPDATE blob SET data = x'00'")
    with Store.open(tmp_path) as store, pytest.raises(Damaged):
        store.blob(store.panels()[0].drawing_sha256)


def test_a_countdown_goes_with_its_act(store, panel_id):
    write_act(store, panel_id, 5)
    assert mark_of(5) == store.countdown(panel_id, MIX)
    store.append(panel_id, act_of_three(6), at_utc=AT_UTC, marks=[(MIX, None), ("2", mark_of(6))])
    assert {"2": mark_of(6)} == store.countdowns(panel_id)


@pytest.mark.parametrize("boot_clock", [True, False])
def test_a_mark_comes_back_as_it_was(store, panel_id, boot_clock):
    clock = FakeClock()
    if not boot_clock:
        clock.without_boot_clock()
    mark = countdown.stop(countdown.start(1500.0, clock, since_s=1 / 3), clock)
    store.set_countdown(panel_id, MIX, mark)
    assert mark == store.countdown(panel_id, MIX)


@pytest.mark.parametrize(("restart", "expected"), [(False, (520.0, False)), (True, (580.0, True))])
def test_a_countdown_goes_on_while_no_program_runs(tmp_path, restart, expected):
    clock = FakeClock()
    with Store.open(tmp_path) as store:
        panel_id = add_panel(store)
        store.set_countdown(panel_id, MIX, countdown.start(1500.0, clock, since_s=20))
    clock.advance(500)
    if restart:
        clock.reboot(down_s=60)
    with Store.open(tmp_path) as store:
        reading = countdown.read(store.countdown(panel_id, MIX), clock)
    assert (reading.spent_s, reading.unsure) == expected


ON_EVENTS = [
    "UPDATE event SET body = '{}' WHERE seq = 1",
    "UPDATE event SET seq = 77 WHERE seq = 1",
    "DELETE FROM event",
    "DELETE FROM event WHERE seq = 1",
    "INSERT OR REPLACE INTO event VALUES (1, 1, 'x', '2026-01-01T00:00:00+00:00', '{}', 1)",
    "REPLACE INTO event VALUES (2, 1, 'x', '2026-01-01T00:00:00+00:00', '{}', 1)",
    "UPDATE blob SET data = x'00'",
]


@pytest.mark.parametrize("statement", ON_EVENTS)
def test_the_tables_themselves_refuse_to_rewrite_the_book(tmp_path, statement):
    path = make_book(tmp_path)
    before = from_outside(path, "SELECT * FROM event")
    with pytest.raises(sqlite3.IntegrityError, match="never"):
        from_outside(path, statement)
    assert before == from_outside(path, "SELECT * FROM event")


def test_a_book_is_the_same_after_closing_and_opening(tmp_path):
    make_book(tmp_path, acts=4)
    with Store.open(tmp_path) as store:
        assert [act_of_three(number) for number in range(4)] == acts_in(store)
        assert mark_of(3) == store.countdown(1, MIX)
        store.append(1, act_of_three(4), at_utc=AT_UTC)
        assert store.last_seq(1) == 15


def test_the_disk_has_an_act_when_append_returns(tmp_path):
    """FULL is 2 in SQLite's manual of pragmas; in WAL it syncs the log after each commit."""
    made = []

    class Kept(sqlite3.Connection):
        def __init__(self, *args, **kwargs):
            super().__init__(*args, **kwargs)
            made.append(self)

    with Store.open(tmp_path, factory=Kept):
        asked = [made[-1].execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous")]
        assert asked == ["wal", 2]
        assert made[-1].execute("PRAGMA foreign_keys").fetchone()[0] == 1


def test_readers_see_each_act_as_soon_as_it_is_written(tmp_path):
    make_book(tmp_path, acts=1)
    with Store.open(tmp_path) as writer, Store.open(tmp_path, read_only=True) as reader:
        write_act(writer, 1, 1)
        assert [act_of_three(0), act_of_three(1)] == acts_in(reader)


def test_a_practice_book_leaves_no_trace(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    with Store.in_memory() as store:
        panel_id = add_panel(store)
        store.append(
            panel_id, [PanelOpened(name="x", drawing_sha256="0", drawing_name="x.svg")], at_utc=AT_UTC
        )
        write_act(store, panel_id, 1)
        store.put_blob(os.urandom(3_000_000), "image/png")
        assert len(store.events(panel_id)) == 4
        assert list(tmp_path.iterdir()) == []


def test_two_practice_books_know_nothing_of_each_other():
    with Store.in_memory() as one, Store.in_memory() as other:
        add_panel(one)
        assert other.panels() == []


def test_closing_twice_is_fine_and_lets_the_next_program_in(tmp_path):
    store = Store.open(tmp_path)
    store.close()
    store.close()
    with Store.open(tmp_path) as following:
        assert following.panels() == []


def test_a_store_belongs_to_the_thread_that_opened_it(store):
    caught = []

    def read_elsewhere():
        try:
            store.panels()
        except sqlite3.ProgrammingError as error:
            caught.append(error)

    thread = threading.Thread(target=read_elsewhere)
    thread.start()
    thread.join()
    assert len(caught) == 1

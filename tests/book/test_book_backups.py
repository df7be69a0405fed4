"""Copies of the book: made by themselves, checked, the last ten kept, and put back when asked for."""

import os
import sqlite3
import stat
from contextlib import closing, suppress
from datetime import timedelta

import pytest

from bench.book import copies, countdown, held_in, open_book
from bench.book.backups import is_due
from bench.book.exchange import INCOMING
from bench.book.faults import Damaged, DiskFull, OnlyReading
from bench.book.files import BOOK_NAME
from bench.book.schema import KNOWN_VERSION
from bench.book.store import Store
from bench.book.told import NotBackedUp
from tests.book.test_book_schema import SAMPLES
from tests.fakes.books import MIX, act_of_three, acts_in, from_outside, make_book, mark_of, write_act
from tests.fakes.clock import FakeClock

DAY_S = 24 * 3600


@pytest.fixture
def clock():
    return FakeClock()


def opened(folder, clock):
    return open_book(folder, clock).store


def backups_of(folder):
    return [copy for copy in copies(folder) if copy.is_backup]


def test_the_first_opening_of_a_day_makes_a_backup_and_the_next_does_not(tmp_path, clock):
    make_book(tmp_path)
    for _ in range(2):
        opened(tmp_path, clock).close()
    (only,) = copies(tmp_path)
    assert (only.why, only.at_utc) == ("daily", clock.utc())
    clock.advance(DAY_S)
    opened(tmp_path, clock).close()
    assert [copy.number for copy in copies(tmp_path)] == [2, 1]


def test_a_backup_is_one_plain_file_with_all_that_the_book_held(tmp_path, clock):
    make_book(tmp_path)
    with opened(tmp_path, clock) as store:
        write_act(store, 1, 3)
    (copy,) = copies(tmp_path)
    assert [path.name for path in copy.path.parent.iterdir()] == [copy.path.name]
    held = held_in(copy)
    assert (held.panels, held.entries, held.fault) == (("Lemons",), 9, None)
    with closing(sqlite3.connect(copy.path)) as plain:
        assert plain.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert plain.execute("PRAGMA integrity_check").fetchone() == ("ok",)


@pytest.mark.skipif(os.name != "posix", reason="POSIX modes")
def test_copies_are_their_owners_alone(tmp_path, clock):
    make_book(tmp_path)
    opened(tmp_path, clock).close()
    (copy,) = copies(tmp_path)
    assert stat.S_IMODE(copy.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(copy.path.parent.stat().st_mode) == 0o700


def test_the_last_ten_are_kept_in_the_order_in_which_they_were_made(tmp_path, clock):
    make_book(tmp_path)
    for _ in range(13):
        opened(tmp_path, clock).close()
        clock.advance(DAY_S)
    assert [copy.number for copy in backups_of(tmp_path)] == list(range(13, 3, -1))


def test_a_clock_set_back_by_years_lets_go_of_no_newer_backup(tmp_path, clock):
    make_book(tmp_path)
    for _ in range(9):
        opened(tmp_path, clock).close()
        clock.advance(DAY_S)
    clock.set_wall(clock.utc() - timedelta(days=20_000))
    for _ in range(3):
        opened(tmp_path, clock).close()
        clock.advance(DAY_S)
    assert [copy.number for copy in backups_of(tmp_path)] == list(range(12, 2, -1))


def test_an_older_book_is_backed_up_before_its_tables_are_changed(tmp_path, clock):
    with closing(sqlite3.connect(tmp_path / BOOK_NAME)) as connection:
        connection.executescript(SAMPLES[0].read_text(encoding="utf-8"))
    Store.open(tmp_path, clock=clock).close()
    (copy,) = copies(tmp_path)
    assert copy.why == f"before-version-{KNOWN_VERSION}"
    assert from_outside(copy.path, "PRAGMA user_version") == [(1,)]
    with opened(tmp_path, clock) as store:
        store.restore(copy, clock.utc())
        assert acts_in(store) == [act_of_three(number) for number in range(3)]


def test_a_book_that_is_not_whole_takes_no_good_backups_place(tmp_path, clock):
    path = make_book(tmp_path)
    from_outside(path, "DROP TRIGGER blob_stays", "UPDATE blob SET data = x'00'")
    with Store.open(tmp_path) as store, pytest.raises(Damaged):
        store.back_up_daily(clock.utc())
    assert copies(tmp_path) == []
    assert list((tmp_path / "backups").iterdir()) == []


def test_a_backup_that_fails_is_told_and_the_book_goes_on(tmp_path, clock):
    make_book(tmp_path)
    (tmp_path / "backups").write_text("no folder")
    found = open_book(tmp_path, clock)
    with found.store as store:
        assert [type(fault) for fault in found.told] == [NotBackedUp]
        write_act(store, 1, 3)
        assert len(acts_in(store)) == 4


def test_other_files_among_the_backups_are_passed_over(tmp_path, clock):
    make_book(tmp_path)
    opened(tmp_path, clock).close()
    for name in ("notes.txt", "0001-99999999T999999Z-daily.sqlite3", "x-20260504T090000Z-daily.sqlite3"):
        (tmp_path / "backups" / name).write_text("x")
    assert len(copies(tmp_path)) == 1
    assert not is_due(tmp_path, clock.utc())


# Putting one back


@pytest.fixture
def two_days(tmp_path, clock):
    """A book of four acts with a backup of its first three; its store."""
    make_book(tmp_path)
    with opened(tmp_path, clock) as store:
        write_act(store, 1, 3)
        yield store


def test_a_copy_put_back_is_what_the_book_holds_and_the_present_one_stays(two_days, tmp_path, clock):
    aside = two_days.restore(copies(tmp_path)[0], clock.utc())
    assert acts_in(two_days) == [act_of_three(number) for number in range(3)]
    write_act(two_days, 1, 7)
    assert not aside.is_backup
    assert held_in(aside).entries == 12


def test_putting_back_is_undone_by_putting_back_what_was_set_aside(two_days, tmp_path, clock):
    aside = two_days.restore(copies(tmp_path)[0], clock.utc())
    two_days.restore(aside, clock.utc())
    assert acts_in(two_days) == [act_of_three(number) for number in range(4)]
    assert held_in(aside).entries == 12


def test_no_countdown_of_a_copy_is_trusted(two_days, tmp_path, clock):
    assert not countdown.read(two_days.countdown(1, MIX), clock).unsure
    two_days.restore(copies(tmp_path)[0], clock.utc())
    reading = countdown.read(two_days.countdown(1, MIX), clock)
    assert reading.unsure
    assert reading.left_to_work_s == 0
    assert reading.surely_s == mark_of(2).surely_s


def test_a_spoiled_copy_is_refused_and_the_book_stays(two_days, tmp_path, clock):
    (copy,) = copies(tmp_path)
    copy.path.write_bytes(copy.path.read_bytes()[:5000])
    with pytest.raises(Damaged):
        two_days.restore(copy, clock.utc())
    assert len(acts_in(two_days)) == 4
    assert [path.name for path in tmp_path.glob(".new-*")] == []


def test_a_book_read_only_is_not_put_back(two_days, tmp_path, clock):
    with Store.open(tmp_path, read_only=True) as reader, pytest.raises(OnlyReading):
        reader.restore(copies(tmp_path)[0], clock.utc())


def falling(monkeypatch, stop_at):
    """Let the call of that number, of those that change or sync what a folder holds, end the act."""
    calls = iter(range(1000))

    def falls(true):
        def call(*args, **how):
            if next(calls) == stop_at:
                raise KeyboardInterrupt
            return true(*args, **how)

        return call

    for name in ("replace", "fsync", "unlink", "link"):
        monkeypatch.setattr(os, name, falls(getattr(os, name)))


def test_a_fall_at_any_point_of_putting_back_leaves_one_book_or_the_other(tmp_path, clock, monkeypatch):
    counts = set()
    for stop_at in range(40):
        folder = tmp_path / str(stop_at)
        make_book(folder)
        store = opened(folder, clock)
        write_act(store, 1, 3)
        (copy,) = copies(folder)
        ended = False
        with monkeypatch.context() as patched:
            falling(patched, stop_at)
            with suppress(KeyboardInterrupt):
                store.restore(copy, clock.utc())
                ended = True
        store.close()
        with opened(folder, clock) as again:
            counts.add(len(acts_in(again)))
            assert acts_in(again) == [act_of_three(number) for number in range(len(acts_in(again)))]
        assert not (folder / INCOMING).exists()
        if ended:
            break
    assert (counts, ended) == ({3, 4}, True)


def test_a_fall_at_any_point_of_mending_loses_nothing_that_could_be_saved(tmp_path, clock, monkeypatch):
    for stop_at in range(40):
        folder = tmp_path / str(stop_at)
        path = make_book(folder)
        opened(folder, clock).close()
        with Store.open(folder) as store:
            write_act(store, 1, 3)
        path.write_bytes(path.read_bytes().replace(b'"text":"act 1"', b'"text":"act 8"'))
        ended = False
        with monkeypatch.context() as patched:
            falling(patched, stop_at)
            with suppress(KeyboardInterrupt):
                opened(folder, clock).close()
                ended = True
        with opened(folder, clock) as again:
            assert acts_in(again) == [act_of_three(number) for number in range(4)]
        if ended:
            break
    assert ended
    assert stop_at > 5


def test_a_disk_that_is_full_leaves_the_book_as_it_is(two_days, tmp_path, clock, monkeypatch):
    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("bench.book.exchange.shutil.copyfile", full)
    with pytest.raises(DiskFull):
        two_days.restore(copies(tmp_path)[0], clock.utc())
    assert len(acts_in(two_days)) == 4

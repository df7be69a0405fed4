"""What is put into the book comes back, whole, in order, and for good."""

import hashlib
import os
import sqlite3
import threading
from datetime import UTC, datetime, timedelta, timezone

import pytest

from bench.book import countdown
from bench.book.events import BenchSet, NoteWritten, PanelOpened
from bench.book.faults import ActWrittenBefore, Damaged, NoSuchBlob, NoSuchPanel, Unfit
from bench.book.store import Store
from tests.fakes.books import (
    AT_UTC,
    DRAWING,
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


@pytest.fixture(params=["on disk", "in memory"])
def store(request, tmp_path):
    with Store.open(tmp_path / "book") if request.param == "on disk" else Store.in_memory() as opened:
        yield opened


@pytest.fixture
def panel_id(store):
    return add_panel(store)


def test_an_act_comes_back_as_it_was_written(store, panel_id):
    written = store.append(panel_id, act_of_three(7), at_utc=AT_UTC)
    assert list(written) == store.events(panel_id)
    assert act_of_three(7) == [envelope.event for envelope in written]
    assert [envelope.seq for envelope in written] == [1, 2, 3]
    assert len({envelope.act_id for envelope in written}) == 1
    assert {AT_UTC} == {envelope.at_utc for envelope in written}


def test_each_act_gets_an_id_of_its_own(store, panel_id):
    first = store.append(panel_id, act_of_three(1), at_utc=AT_UTC)
    second = store.append(panel_id, act_of_three(2), at_utc=AT_UTC)
    assert first[0].act_id != second[0].act_id


def test_an_act_is_written_once(store, panel_id):
    write_act(store, panel_id, 1)
    with pytest.raises(ActWrittenBefore) as caught:
        store.append(panel_id, act_of_three(2), at_utc=AT_UTC, act_id="act-1")
    assert caught.value.act_id == "act-1"
    assert [act_of_three(1)] == acts_in(store)


def test_a_time_of_another_zone_is_kept_as_the_same_instant_in_utc(store, panel_id):
    there = datetime(2026, 5, 4, 18, 0, tzinfo=timezone(timedelta(hours=9)))
    written = store.append(panel_id, act_of_three(1), at_utc=there)
    assert (written[0].at_utc, written[0].at_utc.tzinfo) == (AT_UTC, UTC)
    assert list(written) == store.events(panel_id)


def test_a_time_without_a_zone_is_refused(store, panel_id):
    with pytest.raises(ValueError, match="no time zone"):
        store.append(panel_id, act_of_three(1), at_utc=datetime(2026, 5, 4, 9, 0))


def test_panels_are_read_apart_and_together(store, panel_id):
    other = add_panel(store, "Blue cloth")
    write_act(store, panel_id, 1)
    write_act(store, other, 2)
    write_act(store, panel_id, 3)
    assert act_of_three(1) + act_of_three(3) == [envelope.event for envelope in store.events(panel_id)]
    assert act_of_three(2) == [envelope.event for envelope in store.events(other)]
    assert list(range(1, 10)) == [envelope.seq for envelope in store.all_events()]
    assert (store.last_seq(panel_id), store.last_seq(other)) == (9, 6)


def test_only_what_came_after_is_read_when_asked(store, panel_id):
    write_act(store, panel_id, 1)
    seen = store.last_seq(panel_id)
    write_act(store, panel_id, 2)
    assert act_of_three(2) == [envelope.event for envelope in store.events(panel_id, after_seq=seen)]


def test_a_panel_without_events_has_none(store, panel_id):
    assert (store.events(panel_id), store.last_seq(panel_id)) == ([], 0)


def test_a_panel_is_listed_as_it_was_added(store, panel_id):
    expected = (panel_id, "Lemons", hashlib.sha256(DRAWING).hexdigest(), AT_UTC)
    assert [expected] == store.panels()


def test_a_panel_needs_its_drawing(store):
    with pytest.raises(NoSuchBlob) as caught:
        store.add_panel("Lemons", "0" * 64, AT_UTC)
    assert caught.value.sha256 == "0" * 64
    assert store.panels() == []


def test_an_unknown_panel_is_refused_and_the_known_ones_named(store, panel_id):
    for act in (
        lambda: store.append(99, act_of_three(1), at_utc=AT_UTC),
        lambda: store.set_countdown(99, MIX, mark_of(1)),
    ):
        with pytest.raises(NoSuchPanel) as caught:
            act()
        assert (caught.value.panel_id, caught.value.known) == (99, (panel_id,))


def test_a_number_no_table_can_hold_is_a_fault(store, panel_id):
    with pytest.raises(Unfit):
        store.events(10**30)


def test_a_file_is_kept_by_its_content(store):
    """The SHA-256 of 'abc' is the one-block example of FIPS 180-4 (its value from memory)."""
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert expected == store.put_blob(b"abc", "text/plain")
    assert expected == store.put_blob(b"abc", "text/plain")
    assert store.blob(expected) == b"abc"


def test_a_file_that_is_not_there_is_a_fault(store):
    with pytest.raises(NoSuchBlob):
        store.blob("ab" * 32)


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
    store.drop_countdown(panel_id, MIX)
    store.drop_countdown(panel_id, MIX)
    assert store.countdown(panel_id, MIX) is None


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


def test_a_setting_is_kept_until_it_is_set_again(store):
    assert store.setting("theme") is None
    store.set_setting("theme", "dark")
    store.set_setting("theme", "light")
    assert store.setting("theme") == "light"


def _begin_a_panel_and_fail(store):
    with store.together():
        panel_id = add_panel(store)
        write_act(store, panel_id, 1)
        store.append(panel_id + 1, act_of_three(2), at_utc=AT_UTC)


def _begin_a_panel_and_swallow_a_fault(store):
    with store.together():
        panel_id = add_panel(store)
        with pytest.raises(NoSuchPanel):
            store.append(panel_id + 1, act_of_three(1), at_utc=AT_UTC)


def _go_on_after_a_fault(store):
    with store.together():
        with pytest.raises(NoSuchPanel):
            store.append(1, act_of_three(1), at_utc=AT_UTC)
        store.set_setting("theme", "dark")


@pytest.mark.parametrize(
    "fail", [_begin_a_panel_and_fail, _begin_a_panel_and_swallow_a_fault, _go_on_after_a_fault]
)
def test_what_is_begun_together_is_all_there_or_not_at_all(store, fail):
    with pytest.raises(NoSuchPanel):
        fail(store)
    assert (store.panels(), store.all_events(), store.setting("theme")) == ([], [], None)
    panel_id = add_panel(store)
    write_act(store, panel_id, 2)
    assert acts_in(store) == [act_of_three(2)]


def test_an_act_with_no_number_in_it_is_not_written(store, panel_id):
    unfit = BenchSet.model_construct(temperature_C=float("nan"))
    with pytest.raises(Unfit) as caught:
        store.append(panel_id, [*act_of_three(1), unfit], at_utc=AT_UTC)
    assert caught.value.kind == "bench_set"
    assert store.all_events() == []


def test_an_event_that_would_come_back_as_something_else_is_not_written(store, panel_id):
    class Reminder(NoteWritten):
        pass

    with pytest.raises(Unfit, match="something else"):
        store.append(panel_id, [Reminder(text="buy glass")], at_utc=AT_UTC)
    assert store.all_events() == []


def test_a_character_that_no_file_can_hold_is_a_fault(store, panel_id):
    half = "\ud83c"  # half of a pair, as a broken file name gives it
    for act in (
        lambda: store.append(panel_id, [NoteWritten.model_construct(text=half)], at_utc=AT_UTC),
        lambda: store.add_panel(half, store.panels()[0].drawing_sha256, AT_UTC),
        lambda: store.set_setting("last", half),
    ):
        with pytest.raises(Unfit):
            act()
    assert (store.all_events(), len(store.panels())) == ([], 1)


def test_any_other_text_comes_back(store, panel_id):
    text = "Zitronen, λεμόνια, レモン 🍋 \" ' \\ \0 ]},{"
    store.append(panel_id, [NoteWritten(text=text)], at_utc=AT_UTC)
    assert text == store.events(panel_id)[0].event.text


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

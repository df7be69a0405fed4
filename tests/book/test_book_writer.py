"""What is written comes back as it was written, or is refused and leaves nothing."""

import hashlib
from datetime import UTC, datetime, timedelta, timezone

import pytest

from bench.book.events import BenchSet, NoteWritten
from bench.book.faults import ActWrittenBefore, NoSuchBlob, NoSuchPanel, Unfit
from tests.fakes.books import (
    AT_UTC,
    DRAWING,
    MIX,
    act_of_three,
    acts_in,
    add_panel,
    mark_of,
    write_act,
)


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

"""The countdown: what is left is never overstated, whatever the clocks do."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.book import countdown
from bench.book.countdown import ContactInFuture, NoSuchTime, Reading
from bench.fault import Fault
from tests.fakes.clock import FakeClock

TOTAL_S = 1500.0


@pytest.fixture
def clock():
    return FakeClock()


def test_a_countdown_begins_with_all_of_its_time(clock):
    assert Reading(0.0, TOTAL_S, False) == countdown.read(countdown.start(TOTAL_S, clock), clock)


def test_time_that_passes_is_spent(clock):
    begun = countdown.start(TOTAL_S, clock)
    clock.advance(400)
    assert Reading(400.0, 1100.0, False) == countdown.read(begun, clock)


def test_first_contact_told_late_has_spent_that_time_already(clock):
    assert Reading(90.0, 1410.0, False) == countdown.read(countdown.start(TOTAL_S, clock, since_s=90), clock)


def test_first_contact_cannot_lie_in_the_future(clock):
    with pytest.raises(ContactInFuture) as caught:
        countdown.start(TOTAL_S, clock, since_s=-30)
    assert caught.value.since_s == -30
    assert str(caught.value).startswith("first contact: first contact cannot lie 30 s in the future;")


@pytest.mark.parametrize("value_s", [math.nan, math.inf])
def test_a_time_without_end_is_refused(clock, value_s):
    with pytest.raises(NoSuchTime):
        countdown.start(value_s, clock)
    with pytest.raises(Fault):
        countdown.start(TOTAL_S, clock, since_s=value_s)


def test_a_total_below_zero_is_refused(clock):
    with pytest.raises(NoSuchTime) as caught:
        countdown.start(-1.0, clock)
    assert caught.value.value_s == -1.0


def test_time_over_stays_at_zero_left_while_what_is_spent_goes_on(clock):
    begun = countdown.start(TOTAL_S, clock)
    clock.advance(TOTAL_S + 60)
    reading = countdown.read(begun, clock)
    assert (reading.spent_s, reading.left_s, reading.cured) == (TOTAL_S + 60, 0.0, True)


def test_a_stopped_countdown_stands_still(clock):
    begun = countdown.start(TOTAL_S, clock)
    clock.advance(700)
    stopped = countdown.stop(begun, clock)
    clock.reboot(down_s=5000)
    assert Reading(700.0, 800.0, False) == countdown.read(stopped, clock)
    assert stopped == countdown.mark(stopped, clock)


HOUR = timedelta(hours=1)
WALL_CHANGES = {
    "forward a day": lambda utc: utc + 24 * HOUR,
    "back a day": lambda utc: utc - 24 * HOUR,
    "daylight saving begins, where the machine keeps local time": lambda utc: utc + HOUR,
    "daylight saving ends, where the machine keeps local time": lambda utc: utc - HOUR,
    "a flight east": lambda utc: utc + 9 * HOUR,
    "a flat battery": lambda utc: datetime(1970, 1, 1, tzinfo=UTC),
    "a time server's second": lambda utc: utc + timedelta(seconds=1),
}


@pytest.mark.parametrize("change", WALL_CHANGES.values(), ids=WALL_CHANGES.keys())
@pytest.mark.parametrize("marked_since", [False, True])
def test_within_one_boot_a_changed_wall_clock_does_nothing(clock, change, marked_since):
    mark = countdown.start(TOTAL_S, clock)
    clock.advance(300)
    clock.set_wall(change(clock.utc()))
    if marked_since:
        mark = countdown.mark(mark, clock)
    clock.advance(200)
    assert Reading(500.0, 1000.0, False) == countdown.read(mark, clock)


def test_an_hour_of_sleep_counts(clock):
    mark = countdown.start(7200.0, clock)
    clock.sleep(3600)
    assert Reading(3600.0, 3600.0, False) == countdown.read(mark, clock)


def test_after_a_restart_the_wall_clock_counts_and_the_reading_is_unsure(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.advance(100)
    clock.reboot(down_s=200)
    clock.advance(50)
    reading = countdown.read(mark, clock)
    assert Reading(350.0, 1150.0, True) == reading
    assert (reading.left_to_work_s, reading.cured) == (0.0, False)


def test_after_a_restart_at_least_the_uptime_has_passed_though_the_wall_clock_went_back(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.reboot(down_s=60)
    clock.advance(240)
    clock.set_wall(clock.utc() - 24 * HOUR)
    assert Reading(240.0, 1260.0, True) == countdown.read(mark, clock)


def test_a_cure_is_not_called_finished_when_the_wall_clock_jumped_over_a_restart(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.reboot(down_s=5)
    clock.set_wall(clock.utc() + 240 * HOUR)
    reading = countdown.read(mark, clock)
    assert (reading.left_s, reading.unsure, reading.cured) == (0.0, True, False)


def test_unsure_stays_unsure_when_it_is_marked_again_in_the_new_boot(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.reboot(down_s=60)
    mark = countdown.mark(mark, clock)
    clock.advance(15)
    assert Reading(75.0, 1425.0, True) == countdown.read(mark, clock)


def test_a_boot_clock_that_ran_back_within_a_boot_is_not_believed(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.advance(100)
    restored = FakeClock(utc=clock.utc(), boot_s=900.0)  # a machine put back to a snapshot
    assert Reading(900.0, 600.0, True) == countdown.read(mark, restored)


def test_without_a_boot_clock_the_wall_clock_counts_unsure(clock):
    clock.without_boot_clock()
    mark = countdown.start(TOTAL_S, clock)
    clock.advance(100)
    assert Reading(100.0, 1400.0, True) == countdown.read(mark, clock)


def test_a_boot_clock_that_is_lost_on_the_way_leaves_the_wall_clock_unsure(clock):
    mark = countdown.start(TOTAL_S, clock)
    clock.without_boot_clock()
    clock.advance(100)
    clock.set_wall(clock.utc() - HOUR)
    assert Reading(0.0, TOTAL_S, True) == countdown.read(mark, clock)


def test_without_a_boot_id_what_the_boot_clock_counted_is_the_least(clock):
    nameless = FakeClock(boot_id=None)
    mark = countdown.start(TOTAL_S, nameless)
    nameless.advance(100)
    nameless.set_wall(nameless.utc() - HOUR)
    assert Reading(100.0, 1400.0, True) == countdown.read(mark, nameless)


def test_another_boot_is_known_though_the_mark_has_no_boot_clock(clock):
    mark = replace(countdown.start(TOTAL_S, clock), boot_s=None)
    clock.reboot(down_s=0)
    clock.advance(30)
    clock.set_wall(clock.utc() - HOUR)
    assert Reading(30.0, 1470.0, True) == countdown.read(mark, clock)


STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("advance"), st.floats(0, 2000)),
        st.tuples(st.just("sleep"), st.floats(0, 4000)),
        st.tuples(st.just("reboot"), st.floats(0, 4000)),
        st.tuples(st.just("set_wall"), st.floats(-1e6, 1e6)),
        st.tuples(st.just("mark"), st.just(0.0)),
        st.tuples(st.just("lose boot clock"), st.just(0.0)),
    ),
    max_size=12,
)


def _do(step, value, clock, mark):
    if step == "mark":
        return countdown.mark(mark, clock)
    if step == "set_wall":
        clock.set_wall(clock.utc() + timedelta(seconds=value))
    elif step == "lose boot clock":
        clock.without_boot_clock()
    else:
        getattr(clock, step)(value)
    return mark


@given(steps=STEPS, total_s=st.floats(0, 5000), since_s=st.floats(0, 300))
def test_no_more_time_is_shown_than_is_left_and_it_never_grows(steps, total_s, since_s):
    clock = FakeClock()
    mark = countdown.start(total_s, clock, since_s)
    shown_s = countdown.read(mark, clock).left_to_work_s
    for step, value in steps:
        mark = _do(step, value, clock, mark)
        reading = countdown.read(mark, clock)
        truly_left_s = max(0.0, total_s - since_s - clock.passed_s)
        assert reading.left_to_work_s <= truly_left_s + 1e-6
        assert reading.left_to_work_s <= shown_s + 1e-6
        assert not reading.cured or truly_left_s <= 1e-6
        shown_s = reading.left_to_work_s


@given(marks=st.lists(st.floats(0, 100), max_size=30))
def test_marking_often_neither_gains_nor_loses_time(marks):
    clock = FakeClock()
    mark = countdown.start(TOTAL_S, clock)
    for seconds in marks:
        clock.advance(seconds)
        mark = countdown.mark(mark, clock)
    assert countdown.read(mark, clock).spent_s == pytest.approx(math.fsum(marks), abs=1e-6)


def test_only_what_passed_for_certain_has_cured():
    """A restart counts with the uptime, not with a wall clock that anybody may have set."""
    clock = FakeClock()
    begun = countdown.start(3600, clock)
    clock.advance(600)
    begun = countdown.mark(begun, clock)
    clock.reboot(50 * 3600)
    clock.advance(1200)
    reading = countdown.read(begun, clock)
    assert reading.unsure
    assert reading.left_s == 0
    assert not reading.cured
    assert reading.surely_s == pytest.approx(600 + clock.boot_s())
    clock.advance(3600)
    assert countdown.read(countdown.mark(begun, clock), clock).cured

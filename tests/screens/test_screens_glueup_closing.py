"""The end of a glue-up by touches, what is told late, and mistakes meanwhile."""

import pytest

from bench.job.acts import glueup
from bench.screens.offscreen import NotOnScreen, Stage
from tests.fakes.gloves import complaints
from tests.fakes.gluing import back_to_work, gluing, minutes, mix_of, seconds_shown, tap_piece


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        yield desk


def test_a_lone_touch_cannot_end_it_wherever_it_falls(stage: Stage, desk) -> None:
    """A sleeve taps every target once, and one place again and again."""
    minutes(stage, 8)
    for name in stage.names():
        back_to_work(stage, desk)
        stage.tap(name)
        assert mix_of(desk).is_running, name
    back_to_work(stage, desk)
    place = stage.find("done").center
    for _ in range(4):
        stage.tap_at(*place)
    assert mix_of(desk).is_running


def test_done_and_all_placed_close_as_of_the_moment_of_done(stage: Stage, desk) -> None:
    number = mix_of(desk).section
    minutes(stage, 15)
    stage.tap("done")
    minutes(stage, 2)
    stage.tap("all_placed")
    assert desk.screen == "panel"
    closed = desk.job.mix(1).closed
    assert closed.finished_after_s == pytest.approx(900, abs=10)
    assert closed.left == ()
    assert desk.job.life(number) == "soft"


def test_not_done_yet_goes_back_and_writes_nothing(stage: Stage, desk) -> None:
    before = len(desk.job.state.act_ids)
    stage.tap("done")
    stage.tap("not_yet")
    assert "advice" in stage.names()
    assert len(desk.job.state.act_ids) == before


def test_some_left_by_number_and_why(stage: Stage, desk) -> None:
    minutes(stage, 15)
    for name in ("done", "some_left", "left_many", "pad_1", "pad_2", "pad_use", "why_1"):
        stage.tap(name)
    closed = desk.job.mix(1).closed
    assert len(closed.left) == 12
    assert closed.left_assumed
    assert closed.why_left == "did not fit"


def test_what_was_counted_is_offered_as_what_is_left(stage: Stage, desk) -> None:
    pieces = desk.job.section(mix_of(desk).section).piece_count
    minutes(stage, 15)
    stage.tap("done")
    stage.tap("some_left")
    with pytest.raises(NotOnScreen):
        stage.find("left_counted")
    for name in ("back", "not_yet", "count_10", "count_10", "done", "some_left", "left_counted", "why_0"):
        stage.tap(name)
    assert desk.job.mix(1).closed.placed == 20
    assert len(desk.job.mix(1).closed.left) == pieces - 20


def test_some_left_are_shown_on_the_picture_and_a_second_tap_takes_the_mark_off(stage: Stage, desk) -> None:
    minutes(stage, 15)
    members = desk.job.section(mix_of(desk).section).tesserae
    for name in ("done", "some_left", "left_which"):
        stage.tap(name)
    assert stage.find("use_marked").why_not == "Tap the pieces"
    for tessera in (members[0], members[-1], members[5], members[-1]):
        tap_piece(stage, desk, tessera)
    assert stage.find("picture").marked == sorted((members[0], members[5]))
    stage.tap("use_marked")
    stage.tap("why_2")
    closed = desk.job.mix(1).closed
    assert closed.left == tuple(sorted((members[0], members[5])))
    assert not closed.left_assumed
    assert closed.why_left == "dropped"


@pytest.mark.parametrize(
    ("what", "told"),
    [
        ("late_stringy", lambda mix: mix.stringy_s),
        ("late_pause", lambda mix: mix.pauses_s[0][0]),
    ],
)
def test_what_happened_a_while_ago_is_told_with_clean_hands(stage: Stage, desk, what, told) -> None:
    minutes(stage, 10)
    for name in ("late", "late_2", what):
        stage.tap(name)
    assert told(mix_of(desk)) == pytest.approx(480, abs=5)
    assert "advice" in stage.names()


def test_minutes_ago_can_be_typed_and_what_cannot_be_is_told_by_a_card(stage: Stage, desk) -> None:
    minutes(stage, 5)
    for name in ("late", "late_other", "pad_9", "pad_use", "late_stringy"):
        stage.tap(name)
    assert "9.0 minutes ago is not within this glue-up" in desk.fault_what
    assert mix_of(desk).stringy_s is None
    assert complaints(stage) == {}
    assert stage.find("time_left").font_size >= 120
    stage.tap("fault_act")
    assert stage.find("late_head").text == "9 minutes ago:"


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_a_mistake_stands_beside_the_time_and_takes_none_of_its_room(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    stage.frame(3)
    before_px = stage.find("time_left").font_size
    desk.attempt(glueup.resume, desk.mix)
    stage.frame(3)
    assert "The hands are not resting" in stage.texts()
    assert complaints(stage) == {}
    assert stage.find("time_left").font_size >= 0.6 * before_px
    stage.press("enter")
    stage.frame(3)
    assert "advice" in stage.names()
    assert mix_of(desk).counts == []


def test_first_contact_is_corrected_to_earlier(stage: Stage, desk) -> None:
    minutes(stage, 5)
    before_s = seconds_shown(stage)
    for name in ("late", "late_2", "late_contact"):
        stage.tap(name)
    assert seconds_shown(stage) == pytest.approx(before_s - 120, abs=3)

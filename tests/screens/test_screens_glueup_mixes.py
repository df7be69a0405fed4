"""What belongs to one mix stays with it: what undo takes back, what stands beside its time, its hour."""

import numpy as np
import pytest

from bench.book.events import BenchSet
from bench.job.acts import glueup
from bench.job.ground import borders_mm
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed, start_mix
from tests.fakes.gluing import gluing, minutes, mix_of, watch


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        yield desk


def second_mix(stage: Stage, desk, after_min: float = 3) -> int:
    """Start a second mix, of a section that does not touch the first; the first is shown."""
    job = desk.job
    first = mix_of(desk).section
    other = next(n for n in job.state.sections if n != first and n not in borders_mm(job)[first])
    minutes(stage, after_min)
    second = start_mix(job, other)
    watch(stage, desk, 1)
    return second


def test_undo_takes_back_what_was_told_of_the_mix_that_is_shown(stage: Stage, desk) -> None:
    glueup.count(desk.job, 1, 10)
    second = second_mix(stage, desk)
    glueup.count(desk.job, second, 20)
    changed(desk)
    stage.frame(2)
    stage.tap("undo")
    assert (desk.job.mix(1).placed, desk.job.mix(second).placed) == (0, 20)
    assert stage.find("undo").disabled
    stage.press("u")
    assert desk.fault_what == ""
    stage.tap(f"twin_{second}")
    stage.tap("undo")
    assert desk.job.mix(second).placed == 0
    assert desk.job.mix(second).is_running


def test_undo_of_one_mix_never_opens_another_that_is_done(stage: Stage, desk) -> None:
    second = second_mix(stage, desk)
    for name in ("done", "all_placed"):
        stage.tap(name)
    watch(stage, desk, second)
    assert stage.find("undo").disabled
    assert desk.job.mix(1).closed is not None


def test_after_first_contact_was_corrected_there_is_nothing_to_take_back(stage: Stage, desk) -> None:
    minutes(stage, 5)
    stage.tap("step_set")
    for name in ("late", "late_2", "late_contact"):
        stage.tap(name)
    assert stage.find("undo").disabled
    stage.tap("count_10")
    stage.tap("undo")
    assert mix_of(desk).counts == []
    assert "set" in mix_of(desk).steps_s


def test_the_hour_of_each_mix_stands_on_its_plate_and_on_other_screens(stage: Stage, desk) -> None:
    second = second_mix(stage, desk, after_min=10)
    minutes(stage, 3)
    assert stage.find("twin_1").text.endswith("\nhalf")
    assert "half" not in stage.find(f"twin_{second}").text
    desk.go("book")
    stage.frame(3)
    assert stage.find("watch_1").text.endswith(" left, half")
    assert stage.find(f"watch_{second}").text.endswith(" left")


def test_the_pictures_of_two_mixes_are_as_large_as_their_plates_allow(stage: Stage, desk) -> None:
    second = second_mix(stage, desk)
    for mix in (1, second):
        picture = stage.find(f"twin_{mix}").ids.picture
        left, top, right, bottom = picture.section(picture.number).box_mm
        shares = np.array([right - left, bottom - top]) * picture.view.px_per_mm / picture.size
        assert 0.9 <= shares.max() <= 1.0


def test_a_way_back_from_what_is_left_does_not_make_done_later(stage: Stage, desk) -> None:
    minutes(stage, 20)
    for name in ("late", "late_5", "late_done"):
        stage.tap(name)
    assert any(text.endswith("done 5 min ago.") for text in stage.texts())
    stage.tap("some_left")
    minutes(stage, 1)
    for name in ("back", "all_placed"):
        stage.tap(name)
    assert desk.job.mix(1).closed.finished_after_s == pytest.approx(900, abs=20)


def test_done_that_was_forgotten_for_hours_is_told_as_of_then(stage: Stage, desk) -> None:
    minutes(stage, 15)
    desk.job.clock.advance(2 * 3600)
    minutes(stage, 0.5)
    for name in ("late", "late_other", "pad_1", "pad_1", "pad_5", "pad_use", "late_done", "all_placed"):
        stage.tap(name)
    assert desk.fault_what == ""
    assert desk.job.mix(1).closed.finished_after_s == pytest.approx(1230, abs=60)


def test_done_before_first_contact_is_told_at_once(stage: Stage, desk) -> None:
    minutes(stage, 3)
    for name in ("late", "late_5", "late_done"):
        stage.tap(name)
    assert "5.0 minutes ago is not within this glue-up" in desk.fault_what
    assert mix_of(desk).is_running


def test_stringy_that_was_told_too_late_is_told_earlier_and_the_wall_moves_there(stage: Stage, desk) -> None:
    minutes(stage, 12)
    stage.tap("stringy")
    for name in ("late", "late_2", "late_stringy"):
        stage.tap(name)
    assert desk.fault_what == ""
    assert mix_of(desk).stringy_s == pytest.approx(600, abs=20)
    assert stage.find("chart").wall_s == mix_of(desk).stringy_s
    for name in ("late", "late_1", "late_stringy"):
        stage.tap(name)
    assert "stringy already" in desk.fault_what


def test_stringy_is_heard_since_a_sleeve_may_have_said_it(stage: Stage, desk, monkeypatch) -> None:
    from bench.screens.gluing import alarm

    heard = []
    monkeypatch.setattr(alarm.sounds, "play", heard.append)
    minutes(stage, 5)
    heard.clear()
    stage.tap("stringy")
    stage.run(1)
    assert heard == ["stop"]
    stage.tap("undo")
    minutes(stage, 9)
    assert heard == ["stop", "half"]


def test_a_quick_hand_counts_every_tap_in_the_area(stage: Stage, desk) -> None:
    minutes(stage, 5)
    stage.tap("count_here")
    area = stage.find("count_area")
    for _ in range(6):
        finger = stage.touch(*area.to_window(*area.center))
        stage.run(0.05)
        finger.up()
        stage.run(0.15)
    assert mix_of(desk).placed == 30


def test_patches_are_counted_in_no_rows_of_pieces(stage: Stage) -> None:
    bench = BenchSet(transfer="patch", patch_cm2=40.0, pace_per_min=5.0)
    with gluing(stage, bench=bench):
        minutes(stage, 5)
        stage.tap("count_here")
        assert not [text for text in stage.texts() if text.startswith("Row")]


def test_the_count_area_stays_with_the_mix_it_was_asked_for(stage: Stage, desk) -> None:
    second = second_mix(stage, desk)
    minutes(stage, 2)
    stage.tap("count_here")
    stage.tap(f"twin_{second}")
    stage.frame(3)
    assert "count_area" not in stage.names()
    stage.tap("twin_1")
    stage.frame(3)
    assert "count_area" in stage.names()


def test_all_that_are_down_are_not_asked_for_again(stage: Stage, desk) -> None:
    minutes(stage, 5)
    glueup.count(desk.job, 1, desk.job.section(mix_of(desk).section).piece_count)
    changed(desk)
    stage.run(1)
    assert stage.find("advice").text.startswith("All are down.")


def test_the_screen_is_kept_awake_from_the_scale_on(stage: Stage, desk) -> None:
    from kivy.core.window import Window

    assert not Window.allow_screensaver
    desk.go("book")
    stage.frame(2)
    assert not Window.allow_screensaver
    watch(stage, desk, 1)
    for name in ("done", "all_placed"):
        stage.tap(name)
    stage.frame(2)
    assert Window.allow_screensaver

"""Glue-up by touches, keys and none at all."""

import pytest

from bench.book.events import BenchSet
from bench.job.acts import glueup
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed
from tests.fakes.gloves import complaints
from tests.fakes.gluing import desk_step, gluing, minutes, mix_of, seconds_shown


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        yield desk


def test_time_left_is_the_largest_thing_and_follows_the_adhesives_clock(stage: Stage, desk) -> None:
    """25 minutes at 23 °C, says the paste's file; a colder room never lengthens it."""
    at_first_s = seconds_shown(stage)
    assert 25 * 60 - 2 <= at_first_s <= 25 * 60
    minutes(stage, 3)
    assert seconds_shown(stage) == pytest.approx(at_first_s - 180, abs=2)
    sizes = {w.font_size for w in stage.widgets() if hasattr(w, "font_size") and w.text}
    assert stage.find("time_left").font_size == max(sizes)
    assert stage.find("time_left").font_size >= 120


def test_an_adhesive_that_is_ready_is_spread_at_once_and_never_stirred(stage: Stage) -> None:
    bench = BenchSet(adhesive="white-ready", pace_per_min=5.0)
    with gluing(stage, bench=bench):
        assert "step_stir" not in stage.names()
        assert stage.find("step_spread").tone == "act"
        assert complaints(stage) == {}
    with gluing(stage):
        assert "step_stir" in stage.names()


def test_no_touch_is_needed_between_first_contact_and_done(stage: Stage, desk) -> None:
    """Steps, mood and rim move on by themselves; done is told late, with clean hands."""
    seen = []
    for _ in range(24):
        minutes(stage, 1)
        mood, step = stage.find("mood").text, desk_step(stage)
        if (mood, step) not in seen:
            seen.append((mood, step))
    assert [mood for mood, _ in dict.fromkeys((m, 0) for m, _ in seen)] == ["working", "half", "last pieces"]
    assert list(dict.fromkeys(step for _, step in seen)) == ["spread", "set", "clean"]
    assert stage.find("rim").left < 0.1
    for name in ("late", "late_5", "late_done", "all_placed"):
        stage.tap(name)
    assert mix_of(desk).closed.finished_after_s == pytest.approx(19 * 60, abs=10)


def test_half_last_pieces_and_stop_are_each_told_once_by_sound_and_flash(
    stage: Stage, desk, monkeypatch
) -> None:
    from bench.screens.gluing import alarm

    heard, flashed = [], []
    monkeypatch.setattr(alarm.sounds, "play", heard.append)
    monkeypatch.setattr(alarm, "flash", flashed.append)
    minutes(stage, 26)
    assert heard == ["scrape", "stirred", "half", "last pieces", "stop"]
    assert flashed == sorted(flashed)
    assert len(flashed) == 5


def test_the_alarm_is_heard_while_another_screen_is_looked_at(stage: Stage, desk, monkeypatch) -> None:
    from bench.screens.gluing import alarm

    heard = []
    monkeypatch.setattr(alarm.sounds, "play", heard.append)
    desk.go("book")
    minutes(stage, 13)
    assert heard == ["scrape", "stirred", "half"]


def test_stop_turns_the_time_to_ink_and_says_so_in_a_word(stage: Stage, desk) -> None:
    minutes(stage, 26)
    assert stage.find("mood").text == "stop"
    assert stage.find("time_left").text == "0:00"
    assert stage.find("rim").left == 0.0
    assert "over" in stage.find("advice").text


def test_steps_are_told_by_a_touch_and_only_forward(stage: Stage, desk) -> None:
    minutes(stage, 2)
    stage.tap("step_set")
    assert mix_of(desk).steps_s["set"] == pytest.approx(120, abs=5)
    stage.tap("step_spread")
    stage.tap("step_set")
    assert set(mix_of(desk).steps_s) == {"stir", "set"}
    assert desk.fault_what == ""


def test_counting_is_by_tens_and_quarters_and_quickly_taken_back(stage: Stage, desk) -> None:
    pieces = desk.job.section(mix_of(desk).section).piece_count
    minutes(stage, 5)
    stage.tap("count_10")
    stage.tap("count_10")
    assert mix_of(desk).placed == 20
    stage.tap("undo")
    assert mix_of(desk).placed == 10
    for quarter, says in ((1, "½"), (2, "¾"), (3, "all")):
        stage.tap("count_quarter")
        assert mix_of(desk).placed == pieces * quarter // 4
        assert stage.find("count_quarter").text == says
    stage.tap("count_quarter")
    assert mix_of(desk).placed == pieces
    stage.tap("count_10")
    assert mix_of(desk).placed == pieces


def test_undo_never_takes_first_contact_back(stage: Stage, desk) -> None:
    stage.tap("undo")
    assert mix_of(desk).is_running
    assert desk.fault_what == ""


def test_the_chart_holds_what_was_counted_what_is_needed_and_the_wall(stage: Stage, desk) -> None:
    minutes(stage, 2)
    chart = stage.find("chart")
    assert chart.so_far() == []
    start, end = chart.needed()
    assert (start[1], end[1]) == (0.0, float(chart.pieces))
    minutes(stage, 4)
    stage.tap("count_10")
    minutes(stage, 2)
    so_far = chart.so_far()
    assert so_far[-1] == (pytest.approx(360, abs=5), 10.0)
    assert chart.needed()[0] == so_far[-1]
    assert chart.needed()[1][0] < chart.total_s == mix_of(desk).working_time_s
    assert chart.spent_s == pytest.approx(480, abs=5)


def test_the_hands_rest_and_go_on_and_the_clock_does_not(stage: Stage, desk) -> None:
    minutes(stage, 5)
    stage.tap("pause")
    minutes(stage, 2)
    assert stage.find("advice").text == "The hands rest, the adhesive does not."
    before_s = seconds_shown(stage)
    stage.tap("pause")
    assert mix_of(desk).pauses_s == [[pytest.approx(300, abs=5), pytest.approx(420, abs=5)]]
    assert before_s == pytest.approx(mix_of(desk).working_time_s - 420, abs=5)


def test_stringy_says_what_to_do_and_stays_on_the_screen(stage: Stage, desk) -> None:
    minutes(stage, 10)
    stage.tap("stringy")
    assert mix_of(desk).stringy_s == pytest.approx(600, abs=5)
    said = stage.find("advice").text
    for words in ("Scrape the empty bed", "wipe the backs", "keep them on the film", "Never thin or warm"):
        assert words in said
    assert stage.find("mood").text == "stop"
    assert mix_of(desk).is_running


def test_the_keys_of_a_pedal_and_a_keyboard_do_what_the_touches_do(stage: Stage, desk) -> None:
    pieces = desk.job.section(mix_of(desk).section).piece_count
    minutes(stage, 0.5)
    for key in ("spacebar", "enter"):
        stage.press(key)
        minutes(stage, 0.3)
    assert set(mix_of(desk).steps_s) == {"stir", "spread", "set"}
    stage.press("spacebar")
    assert mix_of(desk).placed == pieces // 4
    stage.press("p")
    assert mix_of(desk).is_paused
    stage.press("u")
    assert not mix_of(desk).is_paused
    stage.press("s")
    assert mix_of(desk).stringy_s is not None
    stage.press("d")
    stage.frame(2)
    for key in ("spacebar", "enter", "d"):
        stage.press(key)
        stage.run(1)
    assert mix_of(desk).is_running
    stage.press("a")
    assert mix_of(desk).closed is not None


def test_the_screen_stays_awake_while_a_countdown_runs_and_not_after(stage: Stage, desk) -> None:
    from kivy.core.window import Window

    stage.run(1)
    assert not Window.allow_screensaver
    stage.tap("done")
    stage.tap("all_placed")
    stage.run(1)
    assert Window.allow_screensaver


def test_a_clock_that_changed_is_said_aloud_and_no_time_is_credited(stage: Stage, desk) -> None:
    minutes(stage, 5)
    desk.job.clock.reboot(60)
    stage.run(1)
    assert stage.find("mood").text == "clock unsure"
    assert stage.find("time_left").text == "0:00"
    assert "Take the working time as over" in stage.find("advice").text
    assert desk.alarm.rung[-1] == (desk.mix, "stop")


def test_with_no_mix_running_it_says_so(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        desk.go("glueup")
        stage.frame(3)
        assert "No mix runs." in stage.texts()
        stage.tap("to_panel")
        assert desk.screen == "panel"


def test_a_sheet_is_worked_out_at_most_twice_a_second(stage: Stage, desk, monkeypatch) -> None:
    from bench.screens.gluing import alarm

    asked = []
    real = alarm.glue_sheet
    monkeypatch.setattr(alarm, "glue_sheet", lambda job, mix: asked.append(mix) or real(job, mix))
    stage.run(10, dt_s=1 / 30)
    assert 18 <= len(asked) <= 21


def test_a_count_told_on_the_command_side_is_seen_at_once(stage: Stage, desk) -> None:
    """The screen follows the book, not its own touches."""
    minutes(stage, 5)
    glueup.count(desk.job, desk.mix, 7)
    changed(desk)
    assert stage.find("chart").counts[-1][1] == 7

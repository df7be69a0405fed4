"""Glue-up by touches, keys and none at all."""

import pytest

from bench.book.events import BenchSet
from bench.job.acts import glueup
from bench.job.advice import advise
from bench.job.ground import borders_mm
from bench.screens.offscreen import NotOnScreen, Stage
from tests.fakes.benches import at_the_bench, changed, start_mix
from tests.fakes.gloves import complaints


@pytest.fixture
def desk(stage: Stage):
    """The next section's resin has just met its hardener; the bench's clock follows the stage's."""
    with at_the_bench(stage) as desk, stage.followed_by(desk.job.clock.advance):
        watch(stage, desk, start_mix(desk.job, advise(desk.job).section))
        yield desk


def watch(stage: Stage, desk, mix: int) -> None:
    desk.go("glueup", mix=mix)
    changed(desk)
    stage.frame(4)


def minutes(stage: Stage, count: float) -> None:
    stage.run(60 * count, dt_s=15.0)


def mix_of(desk):
    return desk.job.mix(desk.mix)


def seconds_shown(stage: Stage) -> int:
    left, seconds = stage.find("time_left").text.split(":")
    return 60 * int(left) + int(seconds)


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
    with at_the_bench(stage, bench=bench) as desk, stage.followed_by(desk.job.clock.advance):
        watch(stage, desk, start_mix(desk.job, advise(desk.job).section))
        assert "step_stir" not in stage.names()
        assert stage.find("step_spread").tone == "act"
        assert complaints(stage) == {}
    with at_the_bench(stage) as desk, stage.followed_by(desk.job.clock.advance):
        watch(stage, desk, start_mix(desk.job, advise(desk.job).section))
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


def desk_step(stage: Stage) -> str:
    steps = ("stir", "spread", "set", "clean")
    return next(name for name in steps if stage.find(f"step_{name}").tone == "act")


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


def back_to_work(stage: Stage, desk) -> None:
    desk.go("rounds")
    watch(stage, desk, desk.mix)


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


def tap_piece(stage: Stage, desk, tessera: int) -> None:
    picture = stage.find("picture")
    x, y = picture.view.to_px(*desk.job.panel.centroid_mm[tessera])
    stage.tap_at(*picture.to_window(picture.x + x, picture.y + y))


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


def two_mixes(stage: Stage, desk) -> tuple[int, int]:
    """Start a second mix, of a section that does not touch the first."""
    job = desk.job
    first = mix_of(desk).section
    other = next(n for n in job.state.sections if n != first and n not in borders_mm(job)[first])
    stage.run(100, dt_s=2)
    second = start_mix(job, other)
    watch(stage, desk, 1)
    return 1, second


def test_two_mixes_are_told_apart_and_a_plate_switches_between_them(stage: Stage, desk) -> None:
    first, second = two_mixes(stage, desk)
    section = desk.job.mix(second).section
    assert stage.find(f"twin_{second}").text.startswith(f"Section {section}\n")
    assert stage.find(f"twin_{second}").ids.picture.number == section
    stage.tap(f"twin_{second}")
    assert desk.mix == second
    assert f"Section {section}" in stage.texts()
    stage.tap("step_set")
    stage.tap("count_10")
    assert (desk.job.mix(first).placed, desk.job.mix(second).placed) == (0, 10)


def test_when_one_of_two_is_done_the_other_is_still_watched(stage: Stage, desk) -> None:
    _, second = two_mixes(stage, desk)
    stage.tap("done")
    stage.tap("all_placed")
    desk.go("glueup")
    stage.frame(3)
    assert desk.mix == second
    assert [n for n in stage.names() if n.startswith("twin_")] == []


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


SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]
VIEWS = {
    "work": [],
    "done": ["done"],
    "left": ["count_10", "done", "some_left"],
    "pad left": ["done", "some_left", "left_many"],
    "which": ["done", "some_left", "left_which"],
    "why": ["count_10", "done", "some_left", "left_counted"],
    "late": ["late", "late_5"],
    "pad late": ["late", "late_other"],
    "stringy": ["stringy"],
}


@pytest.mark.parametrize("size", SIZES)
def test_the_glue_up_is_fit_for_gloves_and_nothing_is_cut(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    minutes(stage, 6)
    seen = {}
    for view, taps in VIEWS.items():
        back_to_work(stage, desk)
        for name in taps:
            stage.tap(name)
        stage.frame(4)
        seen[view] = complaints(stage)
    assert {view: wrong for view, wrong in seen.items() if wrong} == {}


@pytest.mark.parametrize("size", SIZES)
def test_two_mixes_are_fit_for_gloves_too(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    two_mixes(stage, desk)
    stage.frame(4)
    assert complaints(stage) == {}


def test_whatever_the_time_says_fits_the_tall_screen(stage: Stage, desk) -> None:
    stage.resize(800, 1280)
    seen = {}
    for minute in range(27):
        seen[minute] = complaints(stage)
        minutes(stage, 1)
    assert {minute: wrong for minute, wrong in seen.items() if wrong} == {}


def test_turning_the_tablet_keeps_what_is_asked_and_what_was_marked(stage: Stage, desk) -> None:
    members = desk.job.section(mix_of(desk).section).tesserae
    minutes(stage, 6)
    for name in ("done", "some_left", "left_which"):
        stage.tap(name)
    tap_piece(stage, desk, members[3])
    for size in ((800, 1280), (1280, 800)):
        stage.resize(*size)
        stage.frame(4)
        assert stage.find("picture").marked == [members[3]]
        assert complaints(stage) == {}
    tap_piece(stage, desk, members[4])
    assert stage.find("picture").marked == sorted((members[3], members[4]))


def test_a_count_told_on_the_command_side_is_seen_at_once(stage: Stage, desk) -> None:
    """The screen follows the book, not its own touches."""
    minutes(stage, 5)
    glueup.count(desk.job, desk.mix, 7)
    changed(desk)
    assert stage.find("chart").counts[-1][1] == 7


# -- the count area --------------------------------------------------------------------------------------


def in_the_area(stage: Stage) -> None:
    minutes(stage, 5)
    stage.tap("count_here")


def test_each_tap_within_the_area_counts_and_none_beside_it(stage: Stage, desk) -> None:
    in_the_area(stage)
    area = stage.find("count_area")
    x, y = area.to_window(*area.pos)
    for place in ((x + 8, y + 8), (x + area.width - 8, y + area.height - 8)):
        stage.tap_at(*place)
    assert mix_of(desk).placed == 10
    stage.tap_at(x - 8, y + area.height / 2)
    finger = stage.touch(*area.to_window(*area.center))
    finger.slide(x - 30, y)
    finger.up()
    stage.run(0.5)
    assert mix_of(desk).placed == 10
    stage.tap("undo")
    assert mix_of(desk).placed == 5


def test_a_tap_counts_one_five_or_a_row_as_the_section_has_it(stage: Stage, desk) -> None:
    in_the_area(stage)
    area = stage.find("count_area").parent
    for pieces in area.units:
        before = mix_of(desk).placed
        if len(area.units) > 1:
            stage.tap(f"unit_{pieces:.0f}")
        stage.tap("count_area")
        assert mix_of(desk).placed == before + pieces
    assert {1, 5} <= set(area.units)


def test_the_chart_comes_back_and_the_last_tap_counts_no_more_than_there_are(stage: Stage, desk) -> None:
    in_the_area(stage)
    assert "chart" not in stage.names()
    pieces = desk.job.section(mix_of(desk).section).piece_count
    glueup.count(desk.job, desk.mix, pieces - 2)
    changed(desk)
    stage.frame(2)
    stage.tap("count_area")
    assert mix_of(desk).placed == pieces
    assert stage.find("count_area").disabled
    stage.tap("count_here")
    assert "chart" in stage.names()


def test_the_low_screen_of_a_small_tablet_is_fit_for_gloves(stage: Stage, desk) -> None:
    from bench.screens.theme import theme

    in_the_area(stage)
    seen = {}
    for scale in (1.0, 1.5):
        theme.text_scale = scale
        stage.resize(1024, 600)
        for here in ("area", "work"):
            stage.frame(6)
            seen[scale, here] = complaints(stage)
            stage.tap("count_here")
    assert {view: wrong for view, wrong in seen.items() if wrong} == {}

"""Cup by touches: room, cautions, weighing, first contact, in this order and no other."""

import pytest

from bench.book.events import BenchSet, NoteWritten
from bench.job.acts import dry
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.tapping import tap_all, to_the_cup, to_the_scale, type_in

HOT_C = 33.0


@pytest.fixture
def desk(stage: Stage):
    """The next section lies dry and the maker stands at the cup."""
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        yield desk


def test_the_room_is_asked_in_whole_degrees_and_the_time_follows_at_once(stage: Stage, desk) -> None:
    assert stage.find("degrees").text == "21 °C"
    at_21 = stage.find("minutes").text
    tap_all(stage, *["warmer"] * 6)
    assert stage.find("degrees").text == "27 °C"
    assert int(stage.find("minutes").text.split()[0]) < int(at_21.split()[0])
    tap_all(stage, "cooler")
    assert stage.find("degrees").text == "26 °C"


def test_a_typed_temperature_is_taken_and_a_step_leads_to_the_next_whole_degree(stage: Stage, desk) -> None:
    stage.tap("type_room")
    type_in(stage, "23.4")
    assert stage.find("degrees").text == "23.4 °C"
    stage.tap("warmer")
    assert stage.find("degrees").text == "24 °C"
    tap_all(stage, "type_room", "back")
    assert stage.find("degrees").text == "24 °C"
    stage.tap("use_room")
    assert desk.job.state.mix_at_cup.temperature_C == 24.0


def test_a_room_outside_the_products_range_is_refused_where_it_is_set_and_writes_nothing(
    stage: Stage, desk
) -> None:
    """The shipped paste may be used from 10 to 35 °C, says its file."""
    stage.tap("type_room")
    type_in(stage, "41")
    assert "10 to 35 °C" in stage.find("says").text
    before = len(desk.job.state.act_ids)
    stage.tap("use_room")
    stage.press("enter")
    assert "cooler" in stage.find("use_room").why_not
    assert len(desk.job.state.act_ids) == before
    assert desk.job.state.mix_at_cup is None


def test_too_hot_for_what_is_laid_is_said_in_numbers_and_the_split_keeps_the_promise(
    stage: Stage, desk
) -> None:
    number = desk.section
    stage.tap("type_room")
    type_in(stage, "33")
    stage.tap("use_room")
    sure = dry.in_time(desk.job, desk.job.section(number), temperature_C=HOT_C)
    assert f"Sure of {100 * sure:.0f} in 100; promised 90." == stage.find("sure").text
    stage.tap("split_now")
    assert desk.screen == "dry"
    assert desk.job.state.mix_at_cup is None
    parts = desk.job.state.with_stage("dry")
    assert len(parts) > 1
    assert min(dry.in_time(desk.job, part, temperature_C=HOT_C) for part in parts) >= 0.9


def test_the_room_says_before_the_next_tap_that_it_is_too_much_or_may_not_be(stage: Stage, desk) -> None:
    assert stage.find("use_room").text == "To the cautions"
    stage.tap("type_room")
    type_in(stage, "33")
    assert stage.find("use_room").text == "Too much for one mix"
    stage.tap("type_room")
    type_in(stage, "45")
    assert stage.find("use_room").disabled
    assert stage.find("use_room").why_not
    stage.frame(4)
    assert complaints(stage) == {}


def test_one_may_go_on_knowingly(stage: Stage, desk) -> None:
    stage.tap("type_room")
    type_in(stage, "33")
    tap_all(stage, "use_room", "go_on")
    assert "cautions" in stage.names()
    entries = desk.job.store.events(desk.job.panel_id)
    notes = [x.event.text for x in entries if isinstance(x.event, NoteWritten)]
    assert [text for text in notes if "one mix all the same" in text and "promised 90" in text] == notes != []
    stage.tap("read_it")
    assert desk.job.state.mix_at_cup.acknowledged


@pytest.mark.parametrize("how", ["touch", "enter", "spacebar"])
def test_first_contact_starts_the_clock_and_leads_to_the_glue_up(stage: Stage, desk, how: str) -> None:
    to_the_scale(stage)
    stage.tap("first_contact") if how == "touch" else stage.press(how)
    assert desk.screen == "glueup"
    assert [m.number for m in desk.job.state.running_mixes] == [desk.mix]
    assert desk.job.reading(desk.mix).spent_s == pytest.approx(0.0, abs=1.0)


@pytest.mark.parametrize(("taps", "minutes"), [(["ago_2"], 2), (["ago_5"], 5), (["ago_other", "12.5"], 12.5)])
def test_first_contact_told_late_is_back_dated(stage: Stage, desk, taps: list[str], minutes: float) -> None:
    to_the_scale(stage)
    stage.tap("met_before")
    stage.tap(taps[0])
    if len(taps) > 1:
        type_in(stage, taps[1])
    assert desk.screen == "glueup"
    assert desk.job.reading(desk.mix).spent_s == pytest.approx(60 * minutes, abs=1.0)


def test_the_screen_is_kept_awake_once_gloves_are_on(stage: Stage, desk) -> None:
    from kivy.core.window import Window

    assert Window.allow_screensaver
    tap_all(stage, "use_room", "read_it")
    stage.frame(2)
    assert not Window.allow_screensaver
    tap_all(stage, "put_away")
    stage.frame(2)
    assert Window.allow_screensaver


def test_a_pedal_that_counts_begins_no_mix_whatever_key_it_sends(stage: Stage, desk) -> None:
    tap_all(stage, "use_room", "read_it")
    mix = desk.job.state.mix_at_cup.number
    for key in ("enter", "spacebar"):
        desk.device.learn_key("count", key)
        stage.press(key)
        assert desk.job.mix(mix).is_at_cup
    desk.device.learn_key("contact", "enter")
    stage.press("enter")
    assert desk.job.mix(mix).is_running


def test_a_foot_that_rests_on_the_pedal_starts_once(stage: Stage, desk) -> None:
    from kivy.core.window import Keyboard

    to_the_scale(stage)
    stage.tap("met_before")
    code = Keyboard.keycodes["spacebar"]
    for _ in range(5):
        stage.window.dispatch("on_key_down", code, 0, " ", [])
        stage.run(1)
    assert desk.screen == "cup"  # the question is answered by a touch only
    stage.window.dispatch("on_key_up", code, 0)
    stage.tap("back")
    stage.press("spacebar")
    assert desk.screen == "glueup"


@pytest.mark.parametrize("steps", [["use_room"], ["use_room", "read_it"], ["use_room", "read_it", "rung_3"]])
def test_the_cup_can_be_put_away_at_any_time_before(stage: Stage, desk, steps: list[str]) -> None:
    number = desk.section
    tap_all(stage, *steps, "put_away")
    assert desk.screen == "panel"
    assert desk.job.life(number) == "dry"
    assert desk.job.state.mix_at_cup is None


def test_not_now_writes_nothing(stage: Stage, desk) -> None:
    before = len(desk.job.state.act_ids)
    stage.tap("later")
    assert desk.screen == "dry"
    assert len(desk.job.state.act_ids) == before


def test_a_cup_opened_again_shows_where_it_stands(stage: Stage, desk) -> None:
    """Away and back, the step follows from the book, and a half-typed number is forgotten."""
    tap_all(stage, "use_room", "read_it", "type_resin")
    desk.go("book")
    stage.frame(3)
    desk.go("cup", section=0)
    stage.frame(3)
    assert "first_contact" in stage.names()
    assert desk.section == desk.job.state.mix_at_cup.section


def test_an_adhesive_ready_to_use_has_one_mass_and_no_ladder(stage: Stage) -> None:
    bench = BenchSet(pace_per_min=5.0, adhesive="white-ready")
    with at_the_bench(stage, grid_svg(24, 12), bench=bench) as desk:
        to_the_cup(stage, desk)
        to_the_scale(stage)
        assert "ladder" not in stage.names()
        assert "hardener_g" not in stage.names()
        stage.tap("first_contact")
        assert desk.screen == "glueup"


def test_with_nothing_dry_the_cup_says_where_to_go(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        desk.go("cup")
        stage.frame(3)
        assert "Nothing lies dry. Lay a section out first." in stage.texts()
        stage.tap("to_panel")
        assert desk.screen == "panel"


def test_beside_soft_work_the_cup_is_refused_with_a_card(stage: Stage, desk) -> None:
    from bench.job.ground import borders_mm

    number = desk.section
    set_section(desk.job, number)
    beside = next(n for n in borders_mm(desk.job)[number] if desk.job.section(n).stage == "drawn")
    dry.lay(desk.job, beside)
    desk.go("cup", section=beside)
    changed(desk)
    stage.frame(3)
    stage.tap("use_room")
    assert "not firm" in desk.fault_what
    assert desk.job.state.mix_at_cup is None


SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]
STEPS = {  # from one to the next
    "room": [],
    "pad room": ["type_room"],
    "read": ["back", "use_room"],
    "weigh": ["read_it"],
    "poured": ["rung_2"],
    "pad resin": ["type_resin"],
    "late": ["back", "met_before"],
    "pad late": ["ago_other"],
}


@pytest.mark.parametrize("size", SIZES)
def test_the_cup_is_fit_for_gloves_and_nothing_is_cut(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    seen = {}
    for step, taps in STEPS.items():
        tap_all(stage, *taps)
        stage.frame(4)
        seen[step] = complaints(stage)
    assert {step: wrong for step, wrong in seen.items() if wrong} == {}


@pytest.mark.parametrize("size", SIZES)
def test_too_hot_is_fit_for_gloves_too(stage: Stage, size) -> None:
    stage.resize(*size[:2], density=size[2])
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        stage.tap("type_room")
        type_in(stage, "33")
        stage.tap("use_room")
        stage.frame(4)
        assert "split_now" in stage.names()
        assert complaints(stage) == {}


def test_turning_the_tablet_at_the_scale_loses_nothing(stage: Stage, desk) -> None:
    to_the_scale(stage)
    stage.tap("rung_2")
    poured_g = desk.job.state.mix_at_cup.poured_resin_g
    for size in ((800, 1280), (1280, 800)):
        stage.resize(*size)
        stage.frame(4)
        assert complaints(stage) == {}
        assert stage.find("resin_g").text == f"{poured_g:.1f} g"

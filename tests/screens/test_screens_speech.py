"""Another language, unit or decimal mark is seen at once, kept, and nothing of the work is touched."""

import pytest

from bench.app import bench_app
from bench.book import Device
from bench.job.advice import advise
from bench.screens.offscreen import Stage
from bench.speech import Tongue, say
from tests.fakes import tapping
from tests.fakes.benches import at_the_bench, changed, start_mix


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage) as desk:
        yield desk


def choose(stage: Stage, desk, setting: str, which: int) -> None:
    desk.go("tablet")
    stage.frame(2)
    while f"set_{setting}" not in stage.names():
        stage.tap("more_settings")
    stage.tap(f"set_{setting}")
    stage.tap(f"choose_{which}")
    stage.run(0.5)


def type_in(stage: Stage, number: str) -> None:
    tapping.type_in(stage, number)
    stage.run(1)


def test_german_is_spoken_at_once_and_english_again(stage: Stage, desk) -> None:
    before = desk.job.state
    choose(stage, desk, "language", 2)
    assert "Dieses Tablet" in stage.texts()
    assert "Sprache" in stage.texts()
    assert "This tablet" not in stage.texts()
    assert desk.screen == "tablet"
    choose(stage, desk, "language", 1)
    assert "This tablet" in stage.texts()
    assert "Dieses Tablet" not in stage.texts()
    assert desk.job.state == before


def test_a_countdown_goes_on_while_the_language_changes(stage: Stage, desk) -> None:
    mix = start_mix(desk.job, advise(desk.job).section)
    changed(desk)
    desk.go("glueup", mix=mix)
    stage.frame(4)
    begun_utc = desk.job.state.mixes[mix].contact_utc
    choose(stage, desk, "language", 2)
    assert f"watch_{mix}" in stage.names()  # still in sight
    desk.go("glueup", mix=mix)
    stage.frame(4)
    assert not desk.fault_what
    assert desk.job.state.mixes[mix].contact_utc == begun_utc
    left_s = desk.job.reading(mix).left_to_work_s
    desk.job.clock.advance(30)
    stage.run(1)
    assert desk.job.reading(mix).left_to_work_s < left_s


def test_what_was_chosen_is_spoken_after_the_next_start(stage: Stage, desk, tmp_path) -> None:
    device = Device(tmp_path)
    job = desk.job
    with stage.play(bench_app(job, device=device)) as app:
        app.desk.speak(language="de", inches=True)
    assert Device(tmp_path).tongue() == Tongue("de", inches=True)


@pytest.mark.parametrize(
    ("setting", "key", "typed", "value", "says"),
    [
        ("inches", "bed_mm", "0.1", 2.54, "0.1 in thick"),
        ("fahrenheit", "temperature_C", "68", 20.0, "68 °F"),
    ],
)
def test_numbers_are_typed_and_read_in_the_unit_spoken(
    stage: Stage, desk, setting: str, key: str, typed: str, value: float, says: str
) -> None:
    choose(stage, desk, setting, 1)
    desk.go("setup")
    stage.frame(2)
    while f"set_{key}" not in stage.names():
        stage.tap("more_settings")
    stage.tap(f"set_{key}")
    type_in(stage, typed)
    assert getattr(desk.job.state.bench, key) == pytest.approx(value)
    assert stage.find(f"set_{key}").says == says


def test_the_pad_has_the_decimal_mark_that_was_chosen(stage: Stage, desk) -> None:
    choose(stage, desk, "mark", 2)
    desk.go("setup")
    stage.frame(2)
    stage.tap("set_pace_per_min")
    stage.tap("choose_number")
    assert stage.find("pad_mark").text == ","
    type_in(stage, "8.5")
    assert desk.job.state.bench.pace_per_min == 8.5
    assert stage.find("set_pace_per_min").says == "8,5 pieces a minute"


LOOKED_AT = ("panel", "dry", "cup", "finish", "book", "setup", "tablet", "rounds", "workshop", "stock")


@pytest.mark.parametrize("screen", LOOKED_AT)
def test_no_screen_keeps_a_word_of_the_language_before(stage: Stage, desk, screen: str) -> None:
    """That is, no English for which there is a German word."""
    desk.go(screen)
    stage.frame(3)
    desk.speak(language="de")
    stage.run(0.5)
    assert {text for text in stage.texts() if say(text) != text} == set()

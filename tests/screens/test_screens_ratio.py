"""The ratio as a needle and the stirring's own countdown, while first contact's clock stays in sight."""

import pytest

from bench.book.events import HardenerPoured
from bench.job.advice import advise
from bench.screens.offscreen import NotOnScreen, Stage
from bench.screens.parts.needle import SIDE_DEG, needle_deg
from tests.fakes.benches import at_the_bench, changed, start_mix
from tests.fakes.gloves import complaints
from tests.fakes.tapping import type_in

SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]


@pytest.fixture
def desk(stage: Stage):
    """Resin has just met hardener; the bench's clock follows the stage's."""
    with at_the_bench(stage) as desk, stage.followed_by(desk.job.clock.advance):
        mix = start_mix(desk.job, advise(desk.job).section)
        desk.go("glueup", mix=mix)
        changed(desk)
        stage.frame(4)
        yield desk


def mix_of(desk):
    return desk.job.mix(desk.mix)


def seconds_of(stage: Stage, name: str) -> int:
    minutes, seconds = stage.find(name).text.split(":")
    return 60 * int(minutes) + int(seconds)


def hardener_is(stage: Stage, keys: str) -> None:
    stage.tap("type_hardener")
    type_in(stage, keys)


@pytest.mark.parametrize(
    ("error", "angle"), [(0.0, 0.0), (0.05, SIDE_DEG / 3), (-0.05, -SIDE_DEG / 3), (0.9, SIDE_DEG)]
)
def test_the_needle_goes_by_the_error_and_rests_at_the_end(error, angle) -> None:
    assert needle_deg(error, 0.05) == pytest.approx(angle)


def test_stirring_counts_down_beside_first_contacts_clock_and_gives_way_to_the_chart(
    stage: Stage, desk
) -> None:
    """A minute of stirring: EN 14022 mixes its test batch for 60 ± 10 s."""
    before_s = seconds_of(stage, "time_left")
    stage.run(10)
    assert seconds_of(stage, "stir_left") == pytest.approx(50, abs=1)
    assert seconds_of(stage, "time_left") == pytest.approx(before_s - 10, abs=1)
    stage.run(51)
    assert "stir_left" not in stage.names()
    assert "chart" in stage.names()


def test_scraping_is_called_once_large_and_by_sound_and_flash(stage: Stage, desk, monkeypatch) -> None:
    from bench.screens.gluing import alarm

    heard, flashed = [], []
    monkeypatch.setattr(alarm.sounds, "play", heard.append)
    monkeypatch.setattr(alarm, "flash", flashed.append)
    stage.run(20)
    assert (heard, stage.find("scrape").text) == ([], "Stirring")
    stage.run(15)
    assert stage.find("scrape").text == "Scrape sides and bottom"
    stage.run(40)
    assert heard == ["scrape", "stirred"]
    assert len(flashed) == 2


def test_a_stirring_that_the_maker_ends_is_not_told_to_be_over(stage: Stage, desk, monkeypatch) -> None:
    from bench.screens.gluing import alarm

    heard = []
    monkeypatch.setattr(alarm.sounds, "play", heard.append)
    stage.run(10)
    stage.tap("step_spread")
    stage.run(80)
    assert heard == []


def test_too_much_hardener_leads_to_resin_and_the_needle_follows_into_the_band(stage: Stage, desk) -> None:
    """The paste is 100 to 50: what is over asks for twice its grams of resin."""
    stage.tap("ratio")
    at_first_g = mix_of(desk).batch.hardener_g
    for _ in range(6):
        stage.tap("hardener_more")
    assert stage.find("hardener_read").text == f"{at_first_g + 0.6:.1f} g"
    assert "too much hardener" in stage.find("ratio_said").text
    needle = stage.find("needle")
    band = needle_deg(needle.tolerance, needle.tolerance)
    assert needle.angle_deg > band
    resin_g = mix_of(desk).batch.resin_g
    add_g = round(2 * (at_first_g + 0.6) - resin_g, 1)
    assert stage.find("ratio_todo").text == f"Add {add_g:g} g of resin."
    assert stage.find("use_ratio").text == f"{add_g:.1f} g of resin is in"
    stage.tap("use_ratio")
    assert abs(stage.find("needle").angle_deg) < band
    assert "within 5 %" in stage.find("ratio_said").text
    assert mix_of(desk).poured_resin_g == pytest.approx(resin_g + add_g)
    stage.tap("use_ratio")
    assert "use_ratio" not in stage.names()
    assert seconds_of(stage, "stir_left") >= 57


def test_too_little_hardener_asks_for_hardener(stage: Stage, desk) -> None:
    stage.tap("ratio")
    for _ in range(6):
        stage.tap("hardener_less")
    assert stage.find("needle").angle_deg < 0
    assert "too little hardener" in stage.find("ratio_said").text
    assert "of hardener" in stage.find("ratio_todo").text


def test_a_cup_that_is_right_is_kept_by_the_one_act_and_can_be_taken_back(stage: Stage, desk) -> None:
    stage.tap("ratio")
    assert stage.find("use_ratio").text == "Stir on"
    stage.tap("use_ratio")
    assert mix_of(desk).poured_hardener_g == pytest.approx(mix_of(desk).batch.hardener_g)
    stage.tap("undo")
    assert mix_of(desk).poured_hardener_g is None
    assert mix_of(desk).is_running


@pytest.mark.parametrize(
    ("keys", "words"),
    [("0", "tap the scale"), ("0.0032", "if kg are meant, that is 3.2 g"), ("900", "in grams, more than 0")],
)
def test_a_slip_is_one_line_beside_the_time_which_runs_on(stage: Stage, desk, keys, words) -> None:
    events = len(desk.job.store.events(desk.job.panel_id))
    stage.tap("ratio")
    hardener_is(stage, keys)
    before_s = seconds_of(stage, "time_left")
    stage.run(7)
    assert seconds_of(stage, "time_left") == pytest.approx(before_s - 7, abs=1)
    assert words in stage.find("ratio_todo").text
    assert stage.find("use_ratio").disabled
    assert len(desk.job.store.events(desk.job.panel_id)) == events
    assert complaints(stage) == {}
    hardener_is(stage, "1.8")
    assert not stage.find("use_ratio").disabled


def test_the_resin_can_be_typed_as_well(stage: Stage, desk) -> None:
    stage.tap("ratio")
    stage.tap("type_resin")
    type_in(stage, "4.2")
    hardener_is(stage, "2.1")
    assert "The ratio is right" in stage.find("ratio_said").text
    stage.tap("use_ratio")
    told = [x.event for x in desk.job.store.events(desk.job.panel_id) if isinstance(x.event, HardenerPoured)]
    assert [(w.resin_g, w.hardener_g) for w in told] == [(4.2, 2.1)]


@pytest.mark.parametrize("mark", [".", ","])
def test_a_keyboard_types_with_a_point_or_a_comma_and_enter_uses_nothing(stage: Stage, desk, mark) -> None:
    stage.press("w")
    stage.tap("type_hardener")
    for key in ("2", mark, "1", "5", "backspace"):
        stage.press(key)
    assert stage.find("pad_value").text == "2.1 g"
    stage.press("enter")
    assert "pad_value" in stage.names()
    stage.tap("pad_use")
    assert stage.find("hardener_read").text == "2.1 g"


def test_once_pieces_are_set_counts_take_the_place_of_the_ratio(stage: Stage, desk) -> None:
    assert "count_10" not in stage.names()
    stage.tap("step_set")
    assert "ratio" not in stage.names()
    with pytest.raises(NotOnScreen):
        stage.find("ratio")
    stage.tap("count_10")
    assert mix_of(desk).placed == 10


@pytest.mark.parametrize("size", SIZES)
def test_stirring_and_the_ratio_are_fit_for_gloves_and_nothing_is_cut(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    seen = {}
    for view, taps in {
        "stirring": [],
        "right": ["ratio"],
        "over": ["hardener_more"] * 8,
        "put right": ["use_ratio"],
        "pad": ["type_hardener"],
        "pad resin": ["back", "type_resin"],
    }.items():
        for name in taps:
            stage.tap(name)
        stage.frame(4)
        seen[view] = complaints(stage)
    assert {view: wrong for view, wrong in seen.items() if wrong} == {}

"""Cup: bottles kept warm or cold, an adhesive that is ready, and the reader's larger type."""

import gc

import pytest

from bench.book.events import BenchSet
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.tapping import tap_all, to_the_cup, type_in
from tests.gallery.views import View
from tests.screens.test_screens_cup import SIZES, STEPS

READY = BenchSet(pace_per_min=5.0, adhesive="white-ready")
GLUING = {
    "stir": ["first_contact"],
    "ratio": ["ratio"],
    "off": ["hardener_more"] * 4,
    "late": ["back", "late"],
}


@pytest.fixture
def desk(stage: Stage):
    """The next section lies dry and the maker stands at the cup."""
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        yield desk


def wrong_of(stage: Stage, steps: dict[str, list[str]]) -> dict[str, dict]:
    """Go from step to step; return what is wrong with any."""
    seen = {}
    for step, taps in steps.items():
        tap_all(stage, *taps)
        stage.frame(4)
        seen[step] = complaints(stage)
    return {step: wrong for step, wrong in seen.items() if wrong}


def test_bottles_kept_warm_are_asked_for_and_cost_minutes_at_once(stage: Stage, desk) -> None:
    assert "As warm as the room" in stage.find("bottles").says
    usual = int(stage.find("minutes").text.split()[0])
    stage.tap("bottles")
    assert complaints(stage) == {}
    type_in(stage, "33")
    assert stage.find("bottles").says.startswith("Kept at 33 °C")
    assert int(stage.find("minutes").text.split()[0]) < usual
    tap_all(stage, "use_room")
    assert desk.job.state.mix_at_cup.adhesive_C == 33.0


def test_cold_bottles_gain_nothing_and_too_cold_ones_are_refused_where_they_are_set(
    stage: Stage, desk
) -> None:
    usual = stage.find("minutes").text
    stage.tap("bottles")
    type_in(stage, "12")
    assert stage.find("minutes").text == usual
    assert "Cold bottles gain no time." in stage.find("says").text
    stage.tap("bottles")
    type_in(stage, "4")
    assert stage.find("says").text.startswith("Bottles at 4 °C are outside")
    assert stage.find("use_room").disabled
    assert complaints(stage) == {}
    tap_all(stage, "bottles", "beside")
    assert "As warm as the room" in stage.find("bottles").says
    assert not stage.find("use_room").disabled


def test_what_was_told_of_the_room_stays_while_the_bottles_are_typed(stage: Stage, desk) -> None:
    tap_all(stage, "warmer", "bottles")
    type_in(stage, "24")
    assert stage.find("degrees").text == "22 °C"
    tap_all(stage, "type_room")
    type_in(stage, "20")
    assert stage.find("bottles").says.startswith("Kept at 24 °C")


@pytest.mark.parametrize("size", SIZES)
def test_a_ready_adhesive_goes_through_every_step_without_a_word_of_hardener(stage: Stage, size) -> None:
    stage.resize(*size[:2], density=size[2])
    with at_the_bench(stage, grid_svg(24, 12), bench=READY) as desk:
        to_the_cup(stage, desk)
        steps = {
            "room": [],
            "read": ["use_room"],
            "weigh": ["read_it"],
            "typed": ["type_resin"],
            "late": ["back", "met_before"],
            "pad": ["ago_other"],
        }
        for step, taps in steps.items():
            tap_all(stage, *taps)
            stage.frame(4)
            said = " ".join(stage.texts()).lower()
            assert "hardener" not in said, step
            assert "resin" not in said, step
            assert complaints(stage) == {}, step
        type_in(stage, "2")
        assert desk.screen == "glueup"
        assert desk.job.reading(desk.mix).spent_s == pytest.approx(120, abs=1.0)
        tap_all(stage, "late")
        assert "hardener" not in " ".join(stage.texts()).lower()
        assert stage.find("late_contact").text == "Was out 1 min sooner"


@pytest.mark.parametrize("scale", [1.25, 1.5])
@pytest.mark.parametrize("size", SIZES[:2])
def test_the_cup_is_fit_for_gloves_in_the_largest_type_too(stage: Stage, desk, size, scale) -> None:
    from bench.screens.theme import theme

    theme.text_scale = scale
    stage.resize(*size[:2], density=size[2])
    assert wrong_of(stage, STEPS) == {}
    tap_all(stage, "back")
    assert wrong_of(stage, GLUING) == {}


@pytest.mark.parametrize("scale", [1.0, 1.5])
@pytest.mark.parametrize("size", SIZES[:2])
def test_the_mass_to_pour_is_the_largest_number_and_none_is_below_sixty(
    stage: Stage, desk, size, scale
) -> None:
    from bench.screens.atcup.weigh import Mass
    from bench.screens.parts.numbers import BareNumber
    from bench.screens.theme import theme

    theme.text_scale = scale
    stage.resize(*size[:2], density=size[2])
    tap_all(stage, "use_room", "read_it")
    for taps, now in (([], "resin_g"), (["rung_2"], "hardener_g")):
        tap_all(stage, *taps)
        stage.frame(4)
        sizes = {
            w.test_name: next(c.font_size for c in w.children if isinstance(c, BareNumber))
            for w in stage.widgets()
            if isinstance(w, Mass)
        }
        assert max(sizes, key=sizes.get) == now
        assert min(sizes.values()) >= 60


@pytest.mark.parametrize("degrees", ["33", "45"])
@pytest.mark.parametrize("size", SIZES[:2])
def test_a_room_too_warm_is_told_in_the_largest_type_too(stage: Stage, desk, size, degrees) -> None:
    from bench.screens.theme import theme

    theme.text_scale = 1.5
    stage.resize(*size[:2], density=size[2])
    tap_all(stage, "type_room")
    type_in(stage, degrees)
    stage.frame(4)
    assert complaints(stage) == {}


def test_snug_type_is_never_below_the_usual_reading_size() -> None:
    from bench.screens.theme import theme

    usual = theme.text
    for scale, least in ((1.0, usual), (1.25, usual), (1.5, usual)):
        theme.text_scale = scale
        assert least <= theme.snug <= theme.text
    theme.text_scale = 0.9
    assert theme.snug == theme.text
    theme.text_scale = 1.0


@pytest.mark.parametrize("taps", [(), ("rung_2",)])
def test_larger_type_takes_nothing_from_the_mass_to_pour(stage: Stage, desk, taps) -> None:
    gc.collect()  # what earlier tests showed would follow the change of type too
    tap_all(stage, "use_room", "read_it", *taps)
    name = "hardener_g" if taps else "resin_g"
    sizes = []
    for text in (1.0, 1.5):
        View("1024x600", text=text).take(stage)
        assert complaints(stage) == {}
        sizes.append(stage.find(name).children[0].font_size)  # its words come first, then the number
    View("1280x800").take(stage)
    assert sizes[1] >= sizes[0]

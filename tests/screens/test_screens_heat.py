"""The heat of a cup on screen: only where it is of use, and one that would run away is split or put away."""

import numpy as np
import pytest

from bench.adhesive.heat import exotherm
from bench.adhesive.product_file import find_product
from bench.book.events import BenchSet
from bench.job.acts import cup, dry
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed
from tests.fakes.drawings import grid_svg
from tests.fakes.gloves import complaints
from tests.fakes.tapping import tap_all, type_in
from tests.gallery.views import View

LARGE = BenchSet(pace_per_min=40.0, adhesive="clear-slow", bed_mm=1.5, sure=0.75, temperature_C=23.0)
WARM = LARGE.model_copy(update={"adhesive": "clear-fast"})
SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]


def to_the_heat(stage: Stage, desk) -> int:
    """Lay the largest section and set the room: the next thing shown is the cup's heat."""
    largest = max(desk.job.state.with_stage("drawn"), key=lambda s: len(s.tesserae))
    dry.lay(desk.job, largest.number)
    desk.go("cup", section=largest.number)
    changed(desk)
    stage.frame(4)
    stage.tap("use_room")
    stage.frame(4)
    return largest.number


@pytest.fixture
def large(stage: Stage):
    with at_the_bench(stage, grid_svg(16, 16, pitch_mm=30.0), bench=LARGE) as desk:
        to_the_heat(stage, desk)
        yield desk


@pytest.fixture
def warm(stage: Stage):
    with at_the_bench(stage, grid_svg(8, 8, pitch_mm=40.0), bench=WARM) as desk:
        to_the_heat(stage, desk)
        yield desk


def test_a_cup_that_would_run_away_leaves_no_way_but_the_split_in_grams(stage: Stage, large) -> None:
    heat = cup.heat(large.job, large.mix)
    assert stage.find("warms_head").text == f"{heat.in_cup.mass_g:.1f} g in one cup would run away"
    assert f"{heat.cups} cups of {heat.each_g:.1f} g" in stage.find("warms_says").text
    for key in ("enter", "spacebar"):
        stage.press(key)
    assert "read_it" not in stage.names()
    section = large.section
    stage.tap("warms_act")
    assert large.screen == "dry"
    parts = large.job.state.with_stage("dry")
    assert len(parts) >= heat.cups
    assert section in [part.number for part in parts]
    for part in parts:
        mix = cup.open_mix(large.job, part.number, 23.0)
        left = cup.heat(large.job, mix)
        assert left is None or left.cups == 1
        cup.put_away(large.job, mix)


def test_it_can_be_put_away_as_well(stage: Stage, large) -> None:
    stage.tap("put_away")
    assert large.job.state.mix_at_cup is None


def test_a_cup_that_passes_sixty_degrees_is_shown_and_then_goes_on(stage: Stage, warm) -> None:
    heat = cup.heat(warm.job, warm.mix)
    assert heat.cups == 1
    minutes = int(heat.in_cup.to_hot_s / 60)
    assert f"60 °C after {minutes} min" in stage.find("warms_head").text
    stage.tap("warms_act")
    assert "cautions" in stage.names()
    warm.go("book")
    stage.frame(3)
    warm.go("cup")
    stage.frame(3)
    assert "cautions" in stage.names()


def test_the_curve_is_the_models_and_marks_sixty_degrees_and_the_gel(stage: Stage, warm) -> None:
    curve = stage.find("heat_curve")
    mass_g = cup.heat(warm.job, warm.mix).in_cup.mass_g
    heat = exotherm(find_product("clear-fast"), mass_g=mass_g, temperature_C=23)
    time_s, warm_C = np.array(curve.cup).T
    assert np.abs(np.interp(time_s, heat.time_s, heat.temperature_C) - warm_C).max() < 0.01
    assert (curve.hot_s, curve.gel_s) == (pytest.approx(heat.to_hot_s), pytest.approx(heat.gel_s))
    assert max(point[1] for point in curve.spread) < max(warm_C)
    x, y = curve.place((curve.hot_s, 60.0))
    assert curve.x < x < curve.right
    assert curve.y < y < curve.top


@pytest.mark.parametrize("text", [1.0, 1.5])
@pytest.mark.parametrize("size", ["1280x800", "800x1280"])
def test_the_names_of_the_curves_stand_apart(stage: Stage, warm, size: str, text: float) -> None:
    View(size, text=text).take(stage)
    curve, written = stage.find("heat_curve"), []

    def noted(texture, x: float, y: float) -> None:
        written.append((x, y, x + texture.width, y + texture.height))

    curve.write = noted
    curve._names()
    (ax, ay, ax2, ay2), (bx, by, bx2, by2) = written
    assert max(ax - bx2, bx - ax2, ay - by2, by - ay2) >= 0
    View("1280x800").take(stage)


def test_a_usual_section_shows_no_curve(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        to_the_heat(stage, desk)
        assert "heat_curve" not in stage.names()
        assert "cautions" in stage.names()


def test_more_resin_than_one_cup_may_hold_is_told_before_the_hardener(stage: Stage, warm) -> None:
    tap_all(stage, "warms_act", "label_no")
    stage.frame(3)
    tap_all(stage, "read_it", "type_resin")
    type_in(stage, "60")
    assert "would run away" in warm.fault_what
    assert "one after the other" in warm.fault_todo
    assert warm.job.state.mix_at_cup.poured_resin_g is None


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("which", ["large", "warm"])
def test_the_heat_is_fit_for_gloves_and_nothing_is_cut(stage: Stage, request, which, size) -> None:
    stage.resize(*size[:2], density=size[2])
    request.getfixturevalue(which)
    stage.frame(4)
    assert complaints(stage) == {}

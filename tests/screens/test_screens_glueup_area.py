"""The count area: a tap anywhere within it counts."""

import pytest

from bench.job.acts import glueup
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed
from tests.fakes.gloves import complaints
from tests.fakes.gluing import gluing, minutes, mix_of


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        yield desk


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

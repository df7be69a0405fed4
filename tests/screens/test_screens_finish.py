"""Finish: grout and weight at a glance, figures the maker enters, and the glass by pages."""

import pytest

from bench.job.finishing import finishing, glasses
from bench.resources import resource
from bench.screens.glass_list import STEPS_DE, USUAL_STEP
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.fakes.tongues import speaking

LEMONS = resource("assets", "demo", "lemons.svg").read_bytes()
SIZES = [(1280, 800), (800, 1280), (2560, 1600)]


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage, LEMONS) as desk:
        desk.go("finish")
        stage.frame(3)
        yield desk


def open_glass(stage: Stage) -> None:
    stage.tap("glass")
    stage.run(1)
    stage.frame(3)


def shown(stage: Stage) -> list[str]:
    """Return the glasses on the page, top down."""
    lines = [w for w in stage.widgets() if type(w).__name__ == "GlassLine"]
    return [w.text for w in sorted(lines, key=lambda w: -w.top)]


def test_grout_and_weight_are_those_of_the_job(stage: Stage, desk) -> None:
    found = finishing(desk.job)
    assert stage.find("grout").text == f"{found.grout.powder_g:.0f} g"
    assert f"{found.grout.water_g:.0f} g of water" in stage.find("grout_says").text
    assert stage.find("weight").text == f"{found.weight.total_g / 1000:.2f} kg"
    assert "without its board" in stage.find("weight_says").text


def test_thickness_and_board_are_typed_and_followed(stage: Stage, desk) -> None:
    before = finishing(desk.job)
    for way, key in ((("thickness",), "4"), (("weighing", "board"), "9")):
        for opened in way:
            stage.tap(opened)
            stage.frame(2)
        stage.tap(f"pad_{key}")
        stage.tap("pad_use")
        stage.frame(2)
    stage.tap("figures_close")
    stage.frame(2)
    after = finishing(desk.job)
    assert (after.glass_mm, after.backer_kg_per_m2) == (4.0, 9.0)
    assert stage.find("grout").text == f"{after.grout.powder_g:.0f} g" != f"{before.grout.powder_g:.0f} g"
    assert "with its board" in stage.find("weight_says").text
    assert stage.find("thickness").text == "Glass: 4 mm"
    stage.tap("thickness")
    stage.frame(2)
    stage.tap("pad_leave")
    stage.frame(2)
    assert finishing(desk.job) == after


def test_all_pages_together_show_every_glass_once_most_first(stage: Stage, desk) -> None:
    open_glass(stage)
    seen = shown(stage)
    while not stage.find("glass_after").disabled:
        stage.tap("glass_after")
        stage.frame(2)
        seen += shown(stage)
    listed, _ = glasses(desk.job, like_de=STEPS_DE[USUAL_STEP])
    assert seen == [glass.name for glass in listed.glasses]


def test_glasses_are_told_apart_or_put_together_as_wished(stage: Stage, desk) -> None:
    open_glass(stage)
    usual = stage.find("glass_head").text
    stage.tap("glass_looser")
    stage.frame(2)
    fewer = stage.find("glass_head").text
    stage.tap("glass_closer")
    stage.frame(2)
    assert stage.find("glass_head").text == usual
    assert int(fewer.split()[0]) < int(usual.split()[0])
    for _ in STEPS_DE:
        if not stage.find("glass_closer").disabled:
            stage.tap("glass_closer")
            stage.frame(2)
    assert stage.find("glass_closer").disabled
    assert int(stage.find("glass_head").text.split()[0]) == len(glasses(desk.job, like_de=0.0)[1])


def test_swatches_are_true_to_the_glass(stage: Stage, desk) -> None:
    open_glass(stage)
    listed, _ = glasses(desk.job, like_de=STEPS_DE[USUAL_STEP])
    line = stage.find("glass_0")
    of_it = {tuple(rgb) for rgb in desk.job.panel.colour[listed.of == 0].tolist()}
    bands = {tuple(round(255 * channel) for channel in band) for band in line.ids.shades.colours}
    assert bands
    assert bands <= of_it


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_low_screen_lists_more_than_one_glass_a_page(stage: Stage, desk, language: str) -> None:
    with speaking(language):
        stage.resize(1024, 600)
        open_glass(stage)
        stage.frame(3)
        assert {"glass_0", "glass_1"} <= set(stage.names())
        assert complaints(stage) == {}


def test_the_cautions_of_grouting_are_a_tap_away(stage: Stage, desk) -> None:
    stage.tap("cautions")
    stage.frame(3)
    assert any("safety data sheet" in text for text in stage.texts())
    stage.tap("reading_close")
    stage.frame(2)
    assert stage.find("grout")


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_small_or_overlapping(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    stage.frame(3)
    assert complaints(stage) == {}
    for opened, closed in (
        ("thickness", "pad_leave"),
        ("cautions", "reading_close"),
        ("glass", "glass_close"),
    ):
        stage.tap(opened)
        stage.run(1)
        stage.frame(3)
        assert complaints(stage) == {}, opened
        stage.tap(closed)
        stage.frame(3)


def test_practice_shows_the_figures_of_the_same_drawing(stage: Stage, desk) -> None:
    real = stage.find("grout").text
    desk.practise()
    desk.go("finish")
    stage.frame(3)
    assert stage.find("grout").text == real
    desk.end_practice()
    stage.frame(2)

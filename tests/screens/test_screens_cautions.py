"""The cautions at the cup: all on one screen, readable, read before the scale, first aid beside."""

import math
import re

import pytest
from fontTools.ttLib import TTFont

from bench.adhesive.product_file import find_product, shipped_products
from bench.job.acts import cup
from bench.resources import resource
from bench.screens.offscreen import Stage
from bench.speech import Tongue, speak, tongue
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.fakes.tapping import tap_all, to_the_cup

CODE = re.compile(r"^(?:EU)?[HP][0-9+HP]+ ")  # a statement's code, e.g. P302+P352


@pytest.fixture
def desk(stage: Stage):
    """The next section lies dry and the maker stands at the cup."""
    with at_the_bench(stage) as desk:
        to_the_cup(stage, desk)
        yield desk


def test_cautions_stand_before_the_scale_and_only_a_touch_says_they_were_read(stage: Stage, desk) -> None:
    stage.tap("use_room")
    for key in ("enter", "spacebar"):
        stage.press(key)
        stage.run(1)
    assert "first_contact" not in stage.names()
    assert not desk.job.state.mix_at_cup.acknowledged
    stage.tap("read_it")
    assert "first_contact" in stage.names()


def plain(stage: Stage) -> str:
    """All text on the screen without markup and line breaks."""
    return " ".join(re.sub(r"\[/?[a-z]+(=\w+)?\]", "", text.replace("\n", " ")) for text in stage.texts())


def test_every_caution_of_the_mix_is_on_the_one_screen_the_data_sheet_first(stage: Stage, desk) -> None:
    stage.tap("use_room")
    shown = plain(stage)
    cautions = cup.sheet(desk.job, desk.mix).cautions
    assert 5 <= len(cautions) <= 7
    lines = [CODE.sub("", line) for caution in cautions for line in caution.lines]
    assert [line for line in lines if line not in shown] == []
    places = [shown.index(caution.lines[0].partition(" ")[2]) for caution in cautions]
    assert places == sorted(places)
    assert "safety data sheet" in shown[: places[1]]


def arcmin_at(type_px: float, distance_mm: float) -> float:
    """Return how large a capital of the typeface looks, on a screen of 160 dots an inch."""
    font = TTFont(resource("assets", "fonts") / "B612-Regular.otf")
    capital = font["OS/2"].sCapHeight / font["head"].unitsPerEm
    return 60 * math.degrees(2 * math.atan(type_px * capital * 25.4 / 160 / 2 / distance_mm))


@pytest.fixture(params=["en", "de"])
def language(request: pytest.FixtureRequest):
    """Each language in turn; English again afterwards."""
    before = tongue()
    speak(Tongue(request.param))
    yield request.param
    speak(before)


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
@pytest.mark.parametrize("stem", shipped_products())
def test_the_longest_sheet_of_every_type_is_readable_at_600_mm(
    stage: Stage, language: str, stem: str, size
) -> None:
    """ISO 9241-3: capitals of 16 minutes of arc at least."""
    stage.resize(*size)
    with at_the_bench(stage) as desk:
        desk.job._products["white-paste"] = find_product(stem)
        to_the_cup(stage, desk)
        stage.tap("use_room")
        if "go_on" in stage.names():
            stage.tap("go_on")
        stage.frame(4)
        assert complaints(stage) == {}
        assert arcmin_at(stage.find("cautions").type_px, 600) >= 16


def test_first_aid_is_read_in_the_labels_own_words(stage: Stage, desk) -> None:
    """The wording is that of GHS Rev. 10, P305+P354+P338."""
    tap_all(stage, "use_room", "first_aid")
    assert "IF IN EYES: Immediately rinse with water for several minutes." in plain(stage)
    stage.frame(4)
    assert complaints(stage) == {}
    stage.tap("reading_close")
    assert "read_it" in stage.names()


def test_a_second_mix_of_the_day_has_less_to_read_and_larger_type(stage: Stage, desk) -> None:
    stage.tap("use_room")
    first_px = stage.find("cautions").type_px
    tap_all(stage, "read_it", "put_away")
    to_the_cup(stage, desk)
    stage.tap("use_room")
    assert stage.find("cautions").type_px > first_px


def test_a_hardener_without_h314_is_asked_after_and_the_answer_is_kept(stage: Stage) -> None:
    """The wording is that of GHS Rev. 10, H314: causes severe skin burns and eye damage."""
    with at_the_bench(stage) as desk:
        product = desk.job.product("white-paste")
        hazard = product.hazard.model_copy(
            update={"hardener": product.hazard.hardener.model_copy(update={"statements": ("H317",)})}
        )
        desk.job._products["white-paste"] = product.model_copy(update={"hazard": hazard})
        to_the_cup(stage, desk)
        stage.tap("use_room")
        assert "read_it" not in stage.names()
        stage.tap("label_yes")
        stage.frame(4)
        assert "severe skin burns and eye damage" in plain(stage)
        stage.tap("read_it")
        assert desk.job.state.mix_at_cup.acknowledged
        assert any("severe skin burns and eye damage" in text for text in desk.job.mix(desk.mix).shown)

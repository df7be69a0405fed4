"""How areas are laid, by touches: pieces, rows and glass; what cannot be laid is told on the step."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bench.screens.offscreen import Stage
from bench.screens.theme import theme
from tests.fakes.areas import LEMON, WALL, draw, painted_home, tap_area, to_areas
from tests.fakes.studies import CREAM
from tests.fakes.tracing import app_on, begin, complained, flow_of, rest


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return painted_home(tmp_path, monkeypatch)


@pytest.fixture
def desk(stage: Stage, home: Path):
    with app_on(stage, home / "book") as desk:
        yield desk


@pytest.fixture
def step(stage: Stage, desk):
    """The areas of the painted study: a wall, a cloth and a lemon."""
    return to_areas(stage, desk)


def test_pieces_rows_and_their_length_are_set_for_one_area(stage: Stage, step) -> None:
    tap_area(stage, LEMON)
    others = [r for k, r in enumerate(step.study.regions) if k != step.number - 1]
    stage.tap("so")
    for _ in range(2):
        stage.tap("piece_here_less")
    stage.tap("aspect_more")
    stage.tap("rows")
    draw(stage, [(60, 60), (100, 80)])
    region = step.region
    assert (region.piece_mm, region.aspect) == (4, 1.25)
    assert region.flow.kind == "straight"
    assert region.flow.angle_deg == pytest.approx(np.degrees(np.arctan2(20, 40)), abs=2)
    assert [r for k, r in enumerate(step.study.regions) if k != step.number - 1] == others
    stage.tap("flow_loose")
    assert step.region.flow.kind == "loose"
    assert len(flow_of().draft.study.edits) == 4  # two taps for smaller pieces are one word
    stage.tap("take_back")
    stage.tap("take_back")
    assert step.region.flow.kind == "contour"


def test_a_mix_is_changed_glass_by_glass_and_stays_whole(stage: Stage, step) -> None:
    tap_area(stage, LEMON)
    before = step.region.mix
    stage.tap("so")
    stage.tap("glass")
    stage.tap("share_less")
    stage.tap("share_less")
    stage.tap("glass_lighter")
    stage.tap("finish")
    stage.tap("glass_side")
    stage.tap("glass_add")
    stage.tap("glass_colour")
    stage.tap("sheet_8")
    mix = step.region.mix
    assert len(mix) == len(before) + 1
    assert sum(glass.share for glass in mix) == pytest.approx(1)
    assert mix[0].share < before[0].share
    assert sum(mix[0].colour) > sum(before[0].colour)
    assert (mix[0].finish, mix[0].side) == ("clear", "textured")
    assert np.abs(np.array(mix[-1].colour, int) - (45, 75, 155)).max() <= 1
    stage.tap("glass_drop")
    assert len(step.region.mix) == len(before)
    stage.tap("glass_colour")
    stage.tap("sheet_whole")
    stage.tap("sheet_5")
    assert np.abs(np.array(step.region.mix[0].colour, int) - (180, 35, 50)).max() <= 8
    stage.tap("glass_done")
    assert "Glass" in stage.find("glass").text


def test_pieces_too_large_are_refused_on_the_spot_and_the_draft_is_as_it_was(stage: Stage, step) -> None:
    tap_area(stage, WALL)
    stage.tap("so")
    for _ in range(13):
        stage.tap("piece_here_more")
    assert step.region.piece_mm == 100
    stage.tap("piece_here_more")
    assert "do not fit" in stage.find("area_says").text
    assert "128 mm" in stage.find("area_says").text
    assert step.region.piece_mm == 100


def test_more_pieces_than_can_be_laid_are_told_with_their_number_before_they_are_laid(
    stage: Stage, step
) -> None:
    flow = flow_of()
    flow.change(width_mm=3000.0, height_mm=2400.0)
    flow.turn("corners")
    rest(stage)
    flow.turn("regions")
    rest(stage)
    for _ in range(3):
        stage.tap("piece_less")
    stage.tap("go_on")
    stage.frame(3)
    assert flow.draft.step == "regions"
    assert "at most 150,000 are laid" in stage.find("area_says").text


def test_a_picture_of_one_colour_is_told_and_back_lies_what_can_be_mended(stage: Stage, desk, home) -> None:
    Image.new("RGB", (400, 300), CREAM).save(home / "Documents" / "blank.png", dpi=(127, 127))
    begin(stage, desk, "blank", upto="kind")
    stage.tap("kind_study")
    rest(stage)
    assert "one colour only" in stage.find("area_says").text
    assert stage.find("go_on").disabled
    stage.tap("back")
    rest(stage)
    assert "kind_study" in stage.names()


def test_areas_are_looked_for_once(stage: Stage, step) -> None:
    kept, flow = step.kept, flow_of()
    stage.tap("go_on")
    rest(stage)
    stage.tap("back")
    rest(stage)
    assert flow.kept is kept
    assert flow.kept.trial is not None
    flow.turn("kind")
    rest(stage)
    stage.tap("kind_study")
    rest(stage)
    assert flow.kept is kept


@pytest.mark.parametrize(("size", "scale"), [((1280, 800), 1.0), ((800, 1280), 1.0), ((1280, 800), 1.25)])
def test_the_areas_can_be_worked_in_gloves(stage: Stage, desk, size, scale) -> None:
    stage.resize(*size)
    theme.text_scale = scale
    begin(stage, desk, "study", upto="kind")
    stage.tap("kind_study")
    assert complained(stage) == {}
    rest(stage)
    assert complained(stage) == {}
    tap_area(stage, LEMON)
    stage.tap("name")
    assert complained(stage) == {}
    stage.tap("name_turn")
    for letter in (*"wwwwwwwwwww", "space", *"mmmmmmmmmmmm"):
        stage.tap(f"letter_{letter}")
    assert complained(stage) == {}
    stage.tap("name_use")
    for act in ("", "join", "tell_leave", "part", "so", "rows", "close", "glass"):
        if act:
            stage.tap(act)
        stage.frame(4)
        assert complained(stage) == {}, act
        if act == "so":
            for _ in range(15):
                stage.tap("piece_here_more")
            assert "128 mm" in stage.find("area_says").text
            assert complained(stage) == {}
    for _ in range(4):
        stage.tap("glass_add")
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("glass_colour")
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("sheet_leave")
    stage.tap("glass_done")
    stage.tap("close")
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("close")
    stage.tap("number_more")
    rest(stage)
    assert complained(stage) == {}

"""A painted study by touches: its areas made one, parted, named, drawn and taken back; and the whole way."""

from pathlib import Path

import numpy as np
import pytest

from bench.job.drafts import drafts
from bench.screens.offscreen import Stage
from tests.fakes.areas import (
    CLOTH,
    LEMON,
    SIZE_MM,
    WALL,
    draw,
    named,
    names,
    painted_home,
    tap_area,
    to_areas,
)
from tests.fakes.studies import CREAM
from tests.fakes.tracing import app_on, flow_of, rest


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


# -- the whole way ---------------------------------------------------------------------------------------


def test_a_painted_study_becomes_a_panel_whose_groups_are_its_areas(stage: Stage, desk, step) -> None:
    assert len(step.study.regions) == 3
    for at_mm, word in ((WALL, "wall"), (CLOTH, "cloth"), (LEMON, "fruit")):
        tap_area(stage, at_mm)
        named(stage, word)
    stage.tap("go_on")
    rest(stage)
    told = int(stage.find("lay_count").text.split()[0].replace(",", ""))
    assert "the dry count corrects it" in stage.find("lay_says").text
    stage.tap("accept")
    rest(stage)
    panel = desk.job.panel
    assert desk.screen == "panel"
    assert set(panel.group_names) == {"wall", "cloth", "fruit"}
    assert panel.tessera_count == told
    assert (panel.width_mm, panel.height_mm) == pytest.approx(SIZE_MM, abs=0.2)
    fruit = panel.group == panel.group_names.index("fruit")
    oval = np.pi * (0.3 * SIZE_MM[0]) * (0.25 * SIZE_MM[1])
    assert panel.area_mm2[fruit].sum() == pytest.approx(oval * (6 / 6.8) ** 2, rel=0.1)
    assert drafts(desk.job.store) == []


def test_left_in_the_middle_it_goes_on_after_the_app_was_closed(stage: Stage, home) -> None:
    with app_on(stage, home / "book") as desk:
        to_areas(stage, desk)
        tap_area(stage, LEMON)
        named(stage, "fruit")
        stage.tap("go_on")
        rest(stage)
        stage.tap("brush")
        draw(stage, [CLOTH, (140.0, 110.0)], "pieces")
        rest(stage)
        brushed = stage.find("lay_count").text
        stage.tap("elsewhere")
    with app_on(stage, home / "book") as desk:
        desk.go("open")
        stage.frame(2)
        stage.tap(f"draft_{drafts(desk.job.store)[0].draft_id}")
        rest(stage)
        assert stage.find("lay_count").text == brushed
        stage.tap("back")
        rest(stage)
        assert "fruit" in names(flow_of()._step)


# -- the areas -------------------------------------------------------------------------------------------


def test_a_tap_tells_the_facts_of_an_area_and_a_tap_beside_the_panel_closes_them(stage: Stage, step) -> None:
    tap_area(stage, LEMON)
    assert step.study.regions[step.number - 1].name == stage.find("area_head").text
    area_cm2 = step.study.area_mm2()[step.number - 1] / 100
    assert f"{area_cm2:,.1f} cm²" in stage.find("area_says").text
    assert "of 6\u00a0mm" in stage.find("area_says").text
    assert "yellow" in stage.find("area_mix").text
    tap_area(stage, (-3.0, 60.0))
    assert step.number == 0
    assert "number_more" in stage.names()


def test_two_areas_become_one_and_apart_again(stage: Stage, step) -> None:
    tap_area(stage, WALL)
    stage.tap("join")
    tap_area(stage, LEMON)
    assert len(step.study.regions) == 2
    stage.tap("take_back")
    assert len(step.study.regions) == 3
    assert stage.find("take_back").disabled


def test_areas_that_do_not_touch_are_named_and_nothing_is_lost(stage: Stage, step) -> None:
    stage.tap("draw")
    draw(stage, [(10, 10), (30, 10), (30, 25), (10, 25)])
    before = flow_of().draft
    stage.tap("join")
    tap_area(stage, CLOTH)
    assert "do not touch" in stage.find("area_says").text
    assert flow_of().draft == before
    stage.tap("tell_leave")
    assert "join" in stage.names()


def test_what_became_one_is_parted_where_its_paint_differs(stage: Stage, step) -> None:
    tap_area(stage, CLOTH)
    stage.tap("join")
    tap_area(stage, LEMON)
    stage.tap("part")
    assert len(step.study.regions) == 3
    assert step.study.labels[210, 240] != step.study.labels[350, 30]
    stage.tap("take_back")
    stage.tap("take_back")
    assert len(step.study.regions) == 3
    assert flow_of().draft.study.edits == ()


def test_a_name_is_typed_on_the_screen_or_on_a_keyboard(stage: Stage, step) -> None:
    tap_area(stage, LEMON)
    stage.tap("name")
    assert stage.find("name_use").disabled
    stage.tap("name_turn")
    for letter in "lmn":
        stage.tap(f"letter_{letter}")
    stage.tap("letter_back")
    stage.tap("name_use")
    assert "lm" in names(step)
    stage.tap("name")
    for key in ("p", "i", "p", "spacebar", "x", "backspace"):
        stage.press(key)
    stage.press("enter")
    stage.frame(2)
    assert "pip" in names(step)
    stage.tap("name")
    stage.tap("name_leave")
    assert "pip" in names(step)


def test_an_area_drawn_by_finger_is_one_of_its_own_in_the_paint_under_it(stage: Stage, step) -> None:
    stage.tap("draw")
    draw(stage, [(10, 10), (50, 10), (50, 40), (10, 40)])
    assert len(step.study.regions) == 4
    assert step.number == 4
    assert step.study.area_mm2()[3] == pytest.approx(40 * 30, rel=0.05)
    assert np.abs(np.array(step.study.regions[3].mix[0].colour, int) - CREAM).max() < 12
    assert not stage.find("areas").inking
    stage.tap("take_back")
    assert len(step.study.regions) == 3


def test_an_area_drawn_beside_the_panel_is_refused_and_can_be_drawn_again(stage: Stage, step) -> None:
    stage.tap("draw")
    draw(stage, [(-8, 10), (-2, 10), (-2, 30)])
    assert "covers nothing" in stage.find("area_says").text
    assert stage.find("areas").inking
    assert flow_of().draft.study.edits == ()


def test_another_number_drops_what_was_said_and_take_back_brings_it(stage: Stage, step) -> None:
    tap_area(stage, LEMON)
    named(stage, "fruit")
    stage.tap("close")
    assert "Another number drops 1 change" in stage.find("area_says").text
    stage.tap("number_less")
    rest(stage)
    assert len(step.study.regions) == 2
    assert "1 change went with the old areas" in stage.find("area_says").text
    stage.tap("take_back")
    assert (len(step.study.regions), "fruit" in names(step)) == (3, True)

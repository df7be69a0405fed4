"""An empty panel by touches: its size and outline, areas drawn on it, laid, and a panel of the book."""

from pathlib import Path

import numpy as np
import pytest

from bench.job.drafts import drafts
from bench.screens.offscreen import Stage
from bench.speech import Tongue, speak
from tests.fakes.areas import draw, tap_area
from tests.fakes.tapping import on_pad, type_in
from tests.fakes.tracing import app_on, complained, flow_of, furnished, rest


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return furnished(tmp_path, monkeypatch)


@pytest.fixture
def desk(stage: Stage, home: Path):
    with app_on(stage, home / "book") as desk:
        yield desk


def begin_empty(stage: Stage, desk) -> None:
    desk.go("open")
    stage.frame(2)
    stage.tap("open_empty")
    rest(stage)


def typed(stage: Stage, name: str, text: str) -> None:
    stage.tap(name)
    type_in(stage, text)
    stage.frame(2)


def sized(stage: Stage, desk, width: str = "200", height: str = "160") -> None:
    begin_empty(stage, desk)
    typed(stage, "size_width", width)
    typed(stage, "size_height", height)


def test_an_empty_panel_with_one_drawn_area_goes_to_the_book(stage: Stage, desk) -> None:
    sized(stage, desk)
    stage.tap("shape_oval")
    stage.tap("go_on")
    rest(stage)
    assert "number_more" not in stage.names()
    assert stage.find("flat").disabled
    stage.tap("draw")
    draw(stage, [(70, 50), (130, 50), (130, 110), (70, 110)])
    stage.tap("sheet_8")
    stage.frame(2)
    stage.tap("name")
    stage.tap("word_flower")
    stage.tap("go_on")
    rest(stage)
    stage.tap("accept")
    rest(stage)
    panel = desk.job.panel
    assert desk.screen == "panel"
    assert set(panel.group_names) == {"ground", "flower"}
    flower = panel.group == panel.group_names.index("flower")
    assert panel.area_mm2[flower].sum() == pytest.approx(3600 * (6 / 6.8) ** 2, rel=0.1)
    blue = panel.colour[flower].astype(int)
    assert (blue[:, 2] > blue[:, 0]).mean() > 0.8
    oval = ((panel.centroid_mm - (100, 80)) / (100, 80)) ** 2
    assert oval.sum(axis=1).max() <= 1.0
    assert (panel.width_mm, panel.height_mm) == pytest.approx((200, 160), abs=0.1)
    assert drafts(desk.job.store) == []


def test_the_size_is_asked_first_and_nothing_goes_on_without_it(stage: Stage, desk) -> None:
    begin_empty(stage, desk)
    assert stage.find("go_on").disabled
    assert "Type its width" in stage.find("outline_says").text
    stage.press("enter")
    assert flow_of().draft.step == "outline"
    typed(stage, "size_width", "200")
    assert stage.find("go_on").disabled
    typed(stage, "size_height", "160")
    assert stage.find("outline_head").text == "320.0 cm²"


def test_an_l_and_a_ring_ask_for_what_they_need_and_say_what_cannot_be(stage: Stage, desk) -> None:
    sized(stage, desk)
    stage.tap("shape_l")
    stage.frame(2)
    typed(stage, "cut_width_mm", "50")
    typed(stage, "cut_height_mm", "40")
    area_cm2 = float(stage.find("outline_head").text.split()[0])
    assert area_cm2 == pytest.approx((200 * 160 - 50 * 40) / 100, rel=0.005)
    typed(stage, "cut_width_mm", "200")
    assert "leaves no L" in stage.find("outline_says").text
    assert stage.find("go_on").disabled
    stage.tap("shape_ring")
    stage.frame(2)
    typed(stage, "ring_mm", "30")
    area_cm2 = float(stage.find("outline_head").text.split()[0])
    assert area_cm2 == pytest.approx(np.pi * (100 * 80 - 70 * 50) / 100, rel=0.01)
    typed(stage, "ring_mm", "80")
    assert "leaves no hole" in stage.find("outline_says").text


def test_an_area_without_a_colour_is_not_drawn_and_there_is_no_paint_to_part_by(stage: Stage, desk) -> None:
    sized(stage, desk)
    stage.tap("go_on")
    rest(stage)
    stage.tap("draw")
    draw(stage, [(70, 50), (130, 50), (130, 110)])
    stage.tap("sheet_leave")
    stage.frame(2)
    step = flow_of()._step
    assert len(step.study.regions) == 1
    stage.tap("draw")
    tap_area(stage, (20.0, 20.0))
    stage.tap("part")
    assert "no paint to part it by" in stage.find("area_says").text
    stage.tap("so")
    stage.tap("glass")
    stage.tap("glass_colour")
    stage.tap("sheet_whole")
    stage.tap("sheet_12")
    assert np.abs(np.array(step.region.mix[0].colour, int) - (60, 130, 60)).max() <= 8


def test_an_empty_panel_is_left_gone_on_with_dropped_and_brought_back(stage: Stage, home) -> None:
    with app_on(stage, home / "book") as desk:
        sized(stage, desk, "90", "70")
        stage.tap("go_on")
        rest(stage)
    with app_on(stage, home / "book") as desk:
        desk.go("open")
        stage.frame(2)
        stage.tap(f"draft_{drafts(desk.job.store)[0].draft_id}")
        rest(stage)
        assert flow_of()._step.study.size_mm == (90.0, 70.0)
        stage.tap("back")
        rest(stage)
        stage.tap("drop")
        assert drafts(desk.job.store) == []
        stage.tap("bring_back")
        stage.frame(2)
        assert drafts(desk.job.store)[0].name == "An empty panel"


def test_a_panel_made_smaller_keeps_the_areas_that_still_fit_and_says_what_does_not(
    stage: Stage, desk
) -> None:
    sized(stage, desk)
    stage.tap("go_on")
    rest(stage)
    stage.tap("draw")
    draw(stage, [(150, 110), (190, 110), (190, 150), (150, 150)])
    stage.tap("sheet_8")
    stage.frame(2)
    stage.tap("close")
    stage.tap("back")
    rest(stage)
    typed(stage, "size_width", "100")
    stage.tap("go_on")
    rest(stage)
    step = flow_of()._step
    assert "1 change did not fit" in stage.find("area_says").text
    assert len(step.study.regions) == 1
    assert len(flow_of().draft.study.edits) == 1
    stage.tap("back")
    rest(stage)
    typed(stage, "size_width", "200")
    stage.tap("go_on")
    rest(stage)
    assert len(flow_of()._step.study.regions) == 2


def test_a_tiny_panel_is_laid_and_pieces_larger_than_it_are_refused(stage: Stage, desk) -> None:
    sized(stage, desk, "20", "20")
    stage.tap("go_on")
    rest(stage)
    for _ in range(9):
        stage.tap("piece_more")
    stage.frame(2)
    assert "do not fit 'ground'" in stage.find("area_says").text
    stage.tap("go_on")
    stage.frame(2)
    assert flow_of().draft.step == "regions"
    for _ in range(4):
        stage.tap("piece_less")
    stage.tap("go_on")
    rest(stage)
    assert flow_of()._step.trial.panel.tessera_count >= 1


def test_lengths_are_typed_and_shown_in_the_unit_spoken(stage: Stage, desk) -> None:
    """25.4 mm to the inch exactly (NIST SP 811, B.8)."""
    speak(Tongue(inches=True))
    sized(stage, desk, "12", "8")
    assert (stage.find("size_width").says, stage.find("size_height").says) == ("12 in", "8 in")
    assert stage.find("outline_head").text == "96.00 in²"
    draft = flow_of().draft
    assert (draft.width_mm, draft.height_mm) == (pytest.approx(304.8), pytest.approx(203.2))
    stage.tap("size_width")
    on_pad(stage, "999")
    stage.frame(2)
    assert "At most 196.85" in stage.texts()  # 5 m


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_an_empty_panel_can_be_worked_in_gloves(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    begin_empty(stage, desk)
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("size_width")
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("pad_leave")
    typed(stage, "size_width", "200")
    typed(stage, "size_height", "160")
    for shape in ("rectangle", "oval", "l", "ring"):
        stage.tap(f"shape_{shape}")
        stage.frame(4)
        assert complained(stage) == {}, shape
    typed(stage, "ring_mm", "80")
    stage.frame(4)
    assert complained(stage) == {}
    stage.tap("shape_oval")
    stage.tap("go_on")
    rest(stage)
    assert complained(stage) == {}
    stage.tap("draw")
    draw(stage, [(70, 50), (130, 50), (130, 110)])
    stage.frame(4)
    assert complained(stage) == {}

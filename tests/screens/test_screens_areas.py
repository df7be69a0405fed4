"""A painted study by touches: its areas changed and taken back, laid in a trial, brushed, made a panel."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bench.job.drafts import drafts
from bench.screens.offscreen import Stage
from bench.screens.theme import theme
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, painted
from tests.fakes.tracing import app_on, begin, flow_of, furnished, rest
from tests.screens.test_screens_trace import complained

PX = (640, 800)
SIZE_MM = (160.0, 128.0)
WALL, CLOTH, LEMON = (20.0, 20.0), (20.0, 110.0), (80.0, 70.0)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    furnished(tmp_path, monkeypatch)
    pixels = painted(lemon_labels(*PX), (CREAM, BLUE, YELLOW)).pixels
    Image.fromarray(pixels).save(tmp_path / "Documents" / "study.png", dpi=(127, 127))
    return tmp_path


@pytest.fixture
def desk(stage: Stage, home: Path):
    with app_on(stage, home / "book") as desk:
        yield desk


@pytest.fixture
def step(stage: Stage, desk):
    """The areas of the painted study: a wall, a cloth and a lemon."""
    begin(stage, desk, "study", upto="kind")
    stage.tap("kind_study")
    rest(stage)
    return flow_of()._step


def place(stage: Stage, at_mm: tuple[float, float], picture: str = "areas") -> tuple[float, float]:
    """Return where a place of the panel lies on the window."""
    widget = stage.find(picture)
    x, y = widget.view.to_px(*at_mm)
    return widget.x + x, widget.y + y


def tap_area(stage: Stage, at_mm: tuple[float, float]) -> None:
    stage.tap_at(*place(stage, at_mm))
    stage.frame(2)


def draw(stage: Stage, points_mm, picture: str = "areas") -> None:
    first, *others = (place(stage, point, picture) for point in points_mm)
    finger = stage.touch(*first)
    for point in others:
        finger.slide(*point)
    finger.up()
    stage.run(0.5)


def named(stage: Stage, word: str) -> None:
    stage.tap("name")
    stage.tap(f"word_{word}")


def names(step) -> list[str]:
    return [region.name for region in step.study.regions]


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
        begin(stage, desk, "study", upto="kind")
        stage.tap("kind_study")
        rest(stage)
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


# -- how an area is laid ----------------------------------------------------------------------------------


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
            assert "do not fit" in stage.find("area_says").text
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

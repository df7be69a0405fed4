"""The trial lay by touches: brushed, laid otherwise, stopped, refused; nothing that was laid is lost."""

import numpy as np
import pytest

from bench.drawing.lay import Brush
from bench.screens.offscreen import Stage
from tests.fakes.areas import CLOTH, LEMON, draw, painted_home, place, tap_area, to_areas
from tests.fakes.tracing import app_on, complained, flow_of, rest

STROKE = [CLOTH, (80.0, 112.0), (140.0, 110.0)]


@pytest.fixture
def desk(stage: Stage, tmp_path, monkeypatch):
    with app_on(stage, painted_home(tmp_path, monkeypatch) / "book") as desk:
        yield desk


@pytest.fixture
def step(stage: Stage, desk):
    return to_areas(stage, desk)


@pytest.fixture
def lay(stage: Stage, step):
    stage.tap("go_on")
    rest(stage)
    return flow_of()._step


def cells(lay) -> np.ndarray:
    return lay.trial.lay.cell.copy()


@pytest.mark.parametrize(("brush", "more"), [("smaller", True), ("larger", False)])
def test_pieces_under_a_stroke_become_smaller_or_larger_and_the_others_stay(
    stage: Stage, lay, brush, more
) -> None:
    before, far = lay.trial.panel.tessera_count, lay.trial.lay.cell[:100] > 0
    top = lay.trial.panel.centroid_mm[lay.trial.panel.centroid_mm[:, 1] < 50]
    stage.tap("brush")
    stage.tap(f"brush_{brush}")
    draw(stage, STROKE, "pieces")
    rest(stage)
    after = lay.trial.panel
    assert (after.tessera_count > before) is more
    assert np.array_equal(lay.trial.lay.cell[:100] > 0, far)
    # a side is cut straight from a corner that may be another one: tenths of a millimetre
    np.testing.assert_allclose(after.centroid_mm[after.centroid_mm[:, 1] < 50], top, atol=0.4)
    stage.tap("take_back")
    rest(stage)
    assert lay.trial.panel.tessera_count == before
    assert stage.find("take_back").disabled


def test_rows_run_along_a_stroke_or_lie_loose(stage: Stage, lay) -> None:
    stage.tap("brush")
    for brush in ("along", "loose"):
        stage.tap(f"brush_{brush}")
        draw(stage, STROKE, "pieces")
        rest(stage)
    assert [region.flow.kind for region in lay.trial.lay.regions[3:]][-1] == "loose"
    kinds = {region.flow.kind for region in lay.trial.lay.regions}
    assert {"straight", "loose"} <= kinds
    assert len(flow_of().draft.lay.brushes) == 2


def test_a_tap_is_a_stroke_too_and_only_while_brushing(stage: Stage, lay) -> None:
    before = lay.trial
    stage.tap_at(*place(stage, LEMON, "pieces"))
    rest(stage)
    assert lay.trial is before
    stage.tap("brush")
    stage.tap_at(*place(stage, LEMON, "pieces"))
    rest(stage)
    assert lay.trial is not before
    assert len(flow_of().draft.lay.brushes) == 1


def test_a_closer_look_brushes_fewer_pieces(stage: Stage, lay) -> None:
    stage.tap("brush")
    stage.tap_at(*place(stage, LEMON, "pieces"))
    rest(stage)
    far = flow_of().draft.lay.brushes[0].radius_mm
    for _ in range(2):
        stage.tap("zoom_in")
    stage.tap_at(*place(stage, LEMON, "pieces"))
    rest(stage)
    assert flow_of().draft.lay.brushes[1].radius_mm < far


def test_a_stroke_beside_the_panel_touches_nothing_and_says_so(stage: Stage, lay) -> None:
    before, draft = lay.trial, flow_of().draft
    stage.tap("brush")
    draw(stage, [(-60.0, 20.0), (-50.0, 60.0)], "pieces")
    rest(stage)
    assert (lay.trial, flow_of().draft) == (before, draft)


def test_joints_are_stepped_and_kept_once_they_are_laid(stage: Stage, lay) -> None:
    glass = lay.trial.panel.area_mm2.sum()
    stage.tap("joint_more")
    stage.tap("joint_more")
    assert flow_of().draft.lay.joint_mm == 0.8
    rest(stage)
    assert flow_of().draft.lay.joint_mm == 1.2
    assert lay.trial.panel.area_mm2.sum() < glass
    for _ in range(5):
        stage.tap("joint_more")
    rest(stage)
    assert stage.find("joint_more").disabled


def test_joints_too_wide_are_refused_and_the_lay_stays(stage: Stage, lay) -> None:
    stage.tap("back")
    rest(stage)
    tap_area(stage, LEMON)
    stage.tap("so")
    for _ in range(4):
        stage.tap("piece_here_less")
    stage.tap("close")
    stage.tap("go_on")
    rest(stage)
    lay = flow_of()._step
    for _ in range(2):
        stage.tap("joint_more")
        rest(stage)
    before = lay.trial
    assert flow_of().draft.lay.joint_mm == 1.2
    stage.tap("joint_more")
    rest(stage)
    assert "leave no glass" in stage.find("lay_says").text
    assert lay.trial is before
    assert flow_of().draft.lay.joint_mm == 1.2
    assert not stage.find("accept").disabled


def test_laid_otherwise_it_is_another_lay_of_the_same_areas(stage: Stage, lay) -> None:
    before = cells(lay)
    stage.tap("otherwise")
    rest(stage)
    assert flow_of().draft.lay.seed == 1
    assert not np.array_equal(cells(lay), before)


def test_it_can_be_stopped_and_begun_again(stage: Stage, lay) -> None:
    before = lay.trial
    stage.tap("otherwise")
    assert stage.find("accept").disabled
    stage.tap("back")
    rest(stage)
    assert "Stopped" in stage.find("lay_says").text
    assert (lay.trial, flow_of().draft.lay.seed) == (before, 0)
    assert not stage.find("accept").disabled


def test_stopped_before_anything_lies_it_offers_to_lay(stage: Stage, step) -> None:
    stage.tap("go_on")
    stage.tap("back")
    rest(stage)
    lay = flow_of()._step
    assert stage.find("accept").text == "Lay it"
    assert lay.trial is None
    stage.tap("accept")
    rest(stage)
    assert lay.trial is not None


def test_pieces_are_counted_by_area(stage: Stage, lay) -> None:
    stage.tap("counts")
    stage.frame(2)
    shown = "\n".join(stage.texts())
    for name, count in lay.trial.counts():
        assert f"{count:,} {name}" in shown
    stage.tap("reading_close")
    assert "accept" in stage.names()


def test_an_older_stroke_that_touches_nothing_any_more_can_be_taken_back(stage: Stage, lay) -> None:
    flow = flow_of()
    lost = flow.draft.lay.model_copy(update={"seed": 3})
    flow.change(lay=lost.brushed(Brush(stroke_mm=((900.0, 900.0),), radius_mm=1.0)))
    flow.turn("regions")
    rest(stage)
    stage.tap("go_on")
    rest(stage)
    assert "no piece was touched" in stage.find("lay_says").text.lower()
    assert flow._step.trial is None
    stage.tap("take_back")
    rest(stage)
    assert flow._step.trial is not None
    assert flow.draft.lay == lost


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_the_lay_can_be_worked_in_gloves(stage: Stage, step, size) -> None:
    stage.resize(*size)
    stage.frame(4)
    stage.tap("go_on")
    stage.frame(3)
    assert complained(stage) == {}
    rest(stage)
    assert complained(stage) == {}
    for act in ("brush", "brush_along", "brush_done", "counts", "reading_close", "flat"):
        stage.tap(act)
        stage.frame(4)
        assert complained(stage) == {}, act

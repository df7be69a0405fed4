"""From a picture to a panel by touches: every step, what is mended on the way, and what is refused."""

from pathlib import Path

import numpy as np
import pytest

from bench.job.drafts import drafts
from bench.job.settings import LAST_PANEL
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed, start_mix
from tests.fakes.scans import PIECES, SIZE_MM, drawn_grid, scanned
from tests.fakes.tapping import type_in
from tests.fakes.tracing import app_on, begin, complained, count_of, flow_of, furnished, rest


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return furnished(tmp_path, monkeypatch)


@pytest.fixture
def desk(stage: Stage, home: Path):
    with app_on(stage, home / "book") as desk:
        yield desk


# -- the whole way ---------------------------------------------------------------------------------------


def test_a_scanned_line_drawing_becomes_a_panel_of_the_book(stage: Stage, desk) -> None:
    before = desk.job
    begin(stage, desk, "lemons", upto="lines")
    assert count_of(stage) == f"{PIECES} pieces"
    assert len(drafts(desk.job.store)) == 1
    stage.tap("accept")
    rest(stage)
    job = desk.job
    assert (desk.screen, job is before) == ("panel", False)
    assert job.panel.tessera_count == PIECES
    assert (job.panel.width_mm, job.panel.height_mm) == pytest.approx(SIZE_MM, abs=0.2)
    assert np.median(job.panel.area_mm2) == pytest.approx(11.0**2, rel=0.05)
    assert (job.state.name, job.state.drawing_name) == ("lemons", "lemons.svg")
    assert sum(len(s.tesserae) for s in job.state.sections.values()) == PIECES
    assert drafts(job.store) == []
    assert job.store.setting(LAST_PANEL) == str(job.panel_id)


def test_a_draft_is_left_in_the_middle_and_gone_on_with_after_the_app_was_closed(stage: Stage, home) -> None:
    with app_on(stage, home / "book") as desk:
        begin(stage, desk, "lemons", upto="corners")
        stage.tap("nudge_right")
        stage.tap("size_width")
        type_in(stage, "90")
        corners = flow_of().draft.corners_in(flow_of().picture)
        stage.tap("go_on")
        stage.tap("elsewhere")
    with app_on(stage, home / "book") as desk:
        desk.go("open")
        stage.frame(2)
        first = next(name for name in stage.names() if name.startswith(("draft_", "open_")))
        assert first.startswith("draft_")
        assert "Go on with lemons.png" in stage.texts()
        stage.tap(first)
        rest(stage)
        assert "kind_lines" in stage.names()
        stage.tap("back")
        rest(stage)
        assert flow_of().draft.corners_in(flow_of().picture) == corners
        assert "90 mm" in stage.find("size_width").says


def test_elsewhere_and_back_is_the_same_step(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="corners")
    step = flow_of()._step
    stage.tap("elsewhere")
    stage.tap("elsewhere")
    assert desk.screen == "trace"
    assert flow_of()._step is step


def test_a_draft_of_another_version_begins_anew_with_its_picture(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="corners")
    store, draft_id = desk.job.store, flow_of().draft_id
    flow_of()._forget()
    store.drafts.change(draft_id, '{"name": "lemons.png", "unheard": 1}', desk.job.clock.utc())
    desk.go("open")
    stage.frame(2)
    stage.tap(f"draft_{draft_id}")
    rest(stage)
    assert "cannot be read" in desk.fault_what
    assert "photo" in stage.names()


# -- picture and corners ---------------------------------------------------------------------------------


def test_the_picture_is_turned_and_lightened(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons")
    assert stage.find("photo").size_px == (768, 576)
    assert "96\u00a0×\u00a072\u00a0mm" in stage.find("picture_says").text
    stage.tap("turn_left")
    stage.tap("lighter")
    stage.frame(2)
    assert stage.find("photo").size_px == (576, 768)
    assert (flow_of().draft.turned, flow_of().draft.lighten) == (3, 1)
    for _ in range(6):
        stage.tap("lighter")
    assert stage.find("lighter").disabled
    stage.tap("turn_right")
    assert stage.find("photo").size_px == (768, 576)


def test_corners_are_set_and_the_size_that_the_scanner_proposes_follows(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="corners")
    photo = stage.find("corners")
    for k, place in enumerate(((96, 96), (480, 96), (480, 384), (96, 384))):
        stage.drag(photo.to_window_px(photo.corners[k]), photo.to_window_px(place))
    stage.frame(2)
    width_mm, height_mm = flow_of().draft.size_mm(flow_of().picture)
    assert (width_mm, height_mm) == pytest.approx((48, 36), abs=0.5)
    assert "Each corner is right to" in stage.find("corners_say").text
    stage.tap("go_on")
    stage.tap("kind_lines")
    rest(stage)
    assert count_of(stage) == "12 pieces"


def test_crossed_corners_are_named_and_do_not_go_on(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="corners")
    photo = stage.find("corners")
    left, right = (photo.to_window_px(photo.corners[k]) for k in (0, 1))
    stage.drag(left, (right[0] - 100, right[1]))
    stage.drag(right, (left[0] + 10, left[1]))
    stage.frame(2)
    assert "span no rectangle" in stage.find("corners_say").text
    assert stage.find("go_on").disabled
    stage.press("enter")
    assert flow_of().draft.step == "corners"


def test_a_photo_asks_for_its_size_and_the_whole_keeps_its_proportion(stage: Stage, desk, home) -> None:
    drawn_grid().save(home / "Documents" / "photo.jpg", quality=95)
    begin(stage, desk, "photo", upto="corners")
    assert "Type the true width" in stage.find("corners_say").text
    assert stage.find("go_on").disabled
    assert stage.find("size_width").chosen
    stage.tap("whole")
    stage.tap("size_height")
    type_in(stage, "150")
    assert stage.find("size_width").says == "200 mm"
    assert not stage.find("go_on").disabled


# -- what is refused, dropped, brought back ----------------------------------------------------------------


def test_a_broken_picture_is_a_card_and_leaves_no_draft(stage: Stage, desk, home) -> None:
    (home / "Documents" / "bad.png").write_bytes(scanned(drawn_grid())[:900])
    desk.go("open")
    stage.frame(2)
    stage.tap("open_picture_bad")
    rest(stage)
    assert (desk.screen, drafts(desk.job.store)) == ("open", [])
    assert "breaks off" in desk.fault_what


def test_while_a_mix_runs_nothing_is_begun_and_the_draft_is_kept(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="corners")
    draft_id = flow_of().draft_id
    start_mix(desk.job, min(desk.job.state.sections))
    changed(desk)
    desk.go("open")
    stage.frame(2)
    for name in (f"draft_{draft_id}", "open_empty", "open_picture_lemons"):
        if name not in stage.names():
            stage.tap("page_on")
        stage.tap(name)
        stage.run(1)
        assert (desk.screen, desk.fault_what) == ("open", "a mix runs on this panel")
        stage.tap("fault_act")
    desk.go("trace")
    stage.frame(2)
    assert desk.screen == "open"
    assert [kept.draft_id for kept in drafts(desk.job.store)] == [draft_id]


def test_a_dropped_draft_is_brought_back(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons")
    stage.tap("lighter")
    stage.tap("drop")
    assert (desk.screen, drafts(desk.job.store)) == ("open", [])
    stage.tap("bring_back")
    stage.frame(2)
    stage.tap(f"draft_{drafts(desk.job.store)[0].draft_id}")
    rest(stage)
    assert flow_of().draft.lighten == 1
    assert "bring_back" not in stage.names()


# -- hands ------------------------------------------------------------------------------------------------


def test_it_can_be_done_with_the_keyboard(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons")
    stage.press("enter")
    rest(stage)
    assert flow_of().draft.step == "corners"
    before = flow_of().draft.corners_in(flow_of().picture)
    stage.press("left")
    assert flow_of().draft.corner_px[0] == (before[0][0] - 1, before[0][1])
    stage.tap("whole")
    stage.press("enter")
    rest(stage)
    stage.run(1)
    stage.press("enter")
    rest(stage)
    assert flow_of().draft.step == "lines"
    stage.press("escape")
    rest(stage)
    assert flow_of().draft.step == "kind"
    stage.run(1)
    stage.press("enter")
    rest(stage)
    stage.press("enter")
    rest(stage)
    assert desk.job.panel.tessera_count == PIECES


@pytest.fixture
def with_study(monkeypatch: pytest.MonkeyPatch):
    """A step of another way, as it would be written beside these."""
    from bench.screens.tracing import ways
    from bench.screens.tracing.step import Step

    class Regions(Step):
        needs = "ready"
        seen: list = []  # noqa: RUF012

        def arrive(self) -> None:
            self.seen.append(self.flow.picture.pixels.shape)

        def leave(self) -> None:
            self.seen.append("left")

    import tests

    monkeypatch.setattr(tests, "Regions", Regions, raising=False)
    monkeypatch.setitem(ways.STEPS, "regions", "tests:Regions")
    monkeypatch.setitem(ways.STEPS, "lay", "tests:Regions")
    return Regions


def test_a_way_is_offered_once_its_steps_are_there_and_they_plug_into_the_frame(
    stage: Stage, desk, with_study
) -> None:
    begin(stage, desk, "lemons", upto="kind")
    assert {"kind_lines", "kind_study"} <= set(stage.names())
    stage.tap("kind_study")
    rest(stage)
    assert flow_of().steps == ("picture", "corners", "kind", "regions", "lay")
    flow_of()._step.done()
    rest(stage)
    assert flow_of().draft.step == "lay"
    assert with_study.seen == [(576, 768, 3), "left", (576, 768, 3)]
    flow_of().turn("kind")


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_every_step_can_be_done_in_gloves(stage: Stage, desk, home, with_study, size) -> None:
    (home / "Documents" / "open.png").write_bytes(scanned(drawn_grid(open_mm=4.0)))
    stage.resize(*size)
    begin(stage, desk, "open")
    assert complained(stage) == {}
    stage.tap("go_on")
    rest(stage)
    assert complained(stage) == {}
    stage.tap("size_width")
    assert complained(stage) == {}
    stage.tap("pad_leave")
    stage.tap("whole")
    stage.tap("go_on")
    rest(stage)
    assert complained(stage) == {}
    stage.tap("kind_lines")
    rest(stage)
    assert complained(stage) == {}
    stage.tap("gap_more")
    assert complained(stage) == {}
    rest(stage)
    stage.tap("colours")
    found = complained(stage)
    found.get("cut", {}).pop(str(home / "Documents"), None)  # a path may be shortened within a word
    assert found in ({}, {"cut": {}})

"""What the lines of a picture enclose is mended by touches until it is right."""

from pathlib import Path

import numpy as np
import pytest

from bench.screens.offscreen import Stage
from tests.fakes.scans import PIECES, SIZE_MM, drawn_grid, painted_halves, scanned
from tests.fakes.tracing import app_on, begin, count_of, flow_of, furnished, rest


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return furnished(tmp_path, monkeypatch)


@pytest.fixture
def desk(stage: Stage, home: Path):
    with app_on(stage, home / "book") as desk:
        yield desk


def test_a_stroke_mends_a_leak_and_is_taken_back(stage: Stage, desk, home) -> None:
    (home / "Documents" / "open.png").write_bytes(scanned(drawn_grid(open_mm=4.0)))
    begin(stage, desk, "open", upto="lines")
    assert count_of(stage) == f"{PIECES - 1} pieces"
    assert "draw across" in stage.find("found_says").text
    picture = stage.find("found")
    x, y = picture.view.to_px(12.0, 6.0)
    assert any(np.hypot(a - 12.0, b - 6.0) < 2 for a, b in picture._rings)
    stage.tap("draw")
    stage.drag((picture.x + x, picture.y + y + 40), (picture.x + x, picture.y + y - 40))
    rest(stage)
    assert count_of(stage) == f"{PIECES} pieces"
    stage.tap("stroke_back")
    rest(stage)
    assert count_of(stage) == f"{PIECES - 1} pieces"
    assert stage.find("stroke_back").disabled


def test_larger_gaps_are_closed_when_asked_and_the_draft_keeps_it(stage: Stage, desk, home) -> None:
    (home / "Documents" / "open.png").write_bytes(scanned(drawn_grid(open_mm=2.5)))
    begin(stage, desk, "open", upto="lines")
    assert count_of(stage) == f"{PIECES - 1} pieces"
    for _ in range(3):
        stage.tap("gap_more")
    rest(stage)
    assert flow_of().draft.lines.gap_mm == 3.0
    assert count_of(stage) == f"{PIECES} pieces"


def test_colours_come_from_another_picture(stage: Stage, desk, home) -> None:
    painted_halves((768, 576)).save(home / "Documents" / "study.png")
    begin(stage, desk, "lemons", upto="lines")
    stage.tap("colours")
    stage.tap("colours_study")
    rest(stage)
    panel = flow_of()._step.panel
    left = panel.centroid_mm[:, 0] < SIZE_MM[0] / 2
    assert np.abs(panel.colour[left].astype(int) - (232, 201, 58)).max() <= 2
    assert np.abs(panel.colour[~left].astype(int) - (42, 92, 170)).max() <= 2
    assert "study.png" in stage.find("colours").says
    stage.tap("colours")
    stage.tap("colours_own")
    rest(stage)
    assert len(np.unique(flow_of()._step.panel.colour, axis=0)) == 1


def test_a_broken_picture_for_colours_changes_nothing(stage: Stage, desk, home) -> None:
    (home / "Documents" / "bad.png").write_bytes(scanned(drawn_grid())[:900])
    begin(stage, desk, "lemons", upto="lines")
    stage.tap("colours")
    stage.tap("colours_bad")
    stage.frame(3)
    assert "breaks off" in desk.fault_what
    assert flow_of().draft.colours == ""


def test_looking_can_be_stopped_and_begun_again(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="lines")
    stage.tap("gap_more")
    assert stage.find("accept").disabled
    stage.tap("back")
    rest(stage)
    assert stage.find("found_count").text == "Stopped"
    assert len(desk.job.store.panels()) == 1
    stage.tap("accept")
    rest(stage)
    assert count_of(stage) == f"{PIECES} pieces"


def test_what_was_found_is_dropped_when_the_maker_has_moved_on(stage: Stage, desk) -> None:
    begin(stage, desk, "lemons", upto="lines")
    step = flow_of()._step
    step.panel = None
    step._find()
    flow_of().turn("kind")
    rest(stage)
    assert step.panel is None
    assert "kind_lines" in stage.names()


def test_a_page_without_lines_says_so_and_can_be_drawn_upon(stage: Stage, desk, home) -> None:
    blank = drawn_grid().resize((400, 300)).point(lambda value: 255)
    blank.save(home / "Documents" / "blank.png", dpi=(200, 200))
    begin(stage, desk, "blank", upto="lines")
    assert count_of(stage) == "No pieces"
    assert "no line stands out" in stage.find("found_says").text.lower()
    picture = stage.find("found")
    stage.tap("draw")
    stage.drag((picture.center_x - 50, picture.center_y), (picture.center_x + 50, picture.center_y))
    rest(stage)
    assert len(flow_of().draft.strokes) == 1

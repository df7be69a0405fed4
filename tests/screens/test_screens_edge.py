"""The edge of what is set, traced by touches: found in a photo, drawn by finger, kept and taken back."""

import pytest

from bench.job.acts import edge, record
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.edges import photo_of_set
from tests.fakes.gloves import complaints
from tests.fakes.photographing import GRID, until

SIZES = [(1280, 800), (800, 1280), (2560, 1600)]


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage, GRID) as desk:
        yield desk


def to_edge(stage: Stage, desk, home):
    """Go from the papers to the edge found in a photo of the panel; return the photo."""
    set_section(desk.job, 1)
    changed(desk)
    photo = photo_of_set(desk.job.panel, edge.task_for(desk.job).tesserae.tolist())
    (home / "set.jpg").write_bytes(photo.data)
    desk.go("edge")
    stage.frame(3)
    stage.tap("photo_set")
    until(stage, "corner_name")
    stage.find("corners").corners = list(photo.corner_px)
    stage.tap("go_on")
    until(stage, "edge_keep")
    return photo


def stroke(stage: Stage, start_mm, end_mm) -> None:
    picture = stage.find("edge_photo")
    a, b = (picture.view.to_px(*at) for at in (start_mm, end_mm))
    stage.drag((picture.x + a[0], picture.y + a[1]), (picture.x + b[0], picture.y + b[1]))
    stage.frame(2)


def test_the_edge_is_found_kept_and_leads_back_to_the_papers(stage: Stage, desk, home) -> None:
    to_edge(stage, desk, home)
    assert stage.find("edge_head").text.endswith("cm of edge")
    assert stage.find("edge_back").disabled
    stage.tap("edge_keep")
    stage.frame(3)
    assert desk.screen == "finish"
    kept = desk.job.state.edge
    assert (kept.found, kept.sections) == (True, (1,))
    assert desk.job.store.blob(kept.photo)[:2] == b"\xff\xd8"  # JPEG
    record.undo(desk.job)
    assert desk.job.state.edge is None


def test_a_finger_draws_it_instead_and_each_stroke_can_be_taken_back(stage: Stage, desk, home) -> None:
    to_edge(stage, desk, home)
    found = stage.find("edge_head").text
    stage.tap("edge_clear")
    stage.frame(2)
    assert stage.find("edge_keep").disabled
    stroke(stage, (20, 20), (60, 30))
    assert stage.find("edge_head").text == "4 cm of edge"
    stage.tap("edge_back")
    stage.tap("edge_back")
    stage.frame(2)
    assert stage.find("edge_head").text == found
    stage.tap("edge_clear")
    stage.frame(2)
    stroke(stage, (20, 20), (60, 30))
    stage.tap("edge_keep")
    stage.frame(2)
    (line,) = desk.job.state.edge.lines_mm
    assert not desk.job.state.edge.found
    assert line[0] == pytest.approx((20, 20), abs=1.0)
    assert line[-1] == pytest.approx((60, 30), abs=1.0)


def test_where_nothing_is_set_the_card_says_so(stage: Stage, desk, home) -> None:
    desk.go("edge")
    stage.frame(3)
    assert desk.screen == "finish"
    assert "nothing is set yet" in stage.find("fault").title.lower()


def test_leaving_keeps_nothing(stage: Stage, desk, home) -> None:
    to_edge(stage, desk, home)
    stage.tap("back")
    stage.frame(2)
    stage.tap("back")
    stage.frame(2)
    stage.tap("photo_leave")
    stage.frame(3)
    assert desk.screen == "finish"
    assert desk.job.state.edge is None


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_cut_small_or_overlapping(stage: Stage, desk, home, size) -> None:
    stage.resize(*size)
    to_edge(stage, desk, home)
    assert complaints(stage) == {}
    stage.tap("edge_clear")
    stage.frame(3)
    assert complaints(stage) == {}

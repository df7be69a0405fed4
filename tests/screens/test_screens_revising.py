"""A file laid over the open panel: the difference is shown and told, and kept only when that is asked."""

from pathlib import Path

import pytest

from bench.job.acts import dry, record
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, start_mix
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.gloves import complaints


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "book"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "second.svg").write_bytes(grid_svg(24, 12, colour=lambda c, r: YELLOW if c > 11 else BLUE))
    (tmp_path / "other.svg").write_bytes(grid_svg(5, 5))
    return tmp_path


@pytest.fixture
def desk(stage: Stage, home: Path):
    with at_the_bench(stage) as desk:
        dry.lay(desk.job, 1)
        changed(desk)
        yield desk


def lay_over(stage: Stage, desk, name: str = "second") -> None:
    desk.go("open")
    stage.frame(2)
    if f"open_file_{name}" not in stage.names():  # a running mix's strip takes a row
        stage.tap("page_on")
    stage.tap(f"open_file_{name}")
    stage.tap("file_lay_over")
    stage.run(1)


def test_the_act_names_the_panel_that_it_lays_the_file_over(stage: Stage, desk) -> None:
    desk.go("open")
    stage.frame(2)
    stage.tap("open_file_second")
    assert stage.find("file_lay_over").text == "Lay it over grid"


def test_the_difference_is_shown_in_words_and_nothing_is_written(stage: Stage, desk) -> None:
    seq, stay = desk.job.store.last_seq(desk.job.panel_id), len(desk.job.section(1).tesserae)
    lay_over(stage, desk)
    said = stage.find("revise_says").text
    assert f"{stay} stay (thick line)" in said
    assert "changed (striped)" in said
    assert "gone" not in said
    drawn = len(desk.job.state.with_stage("drawn"))
    assert f"Sections to lay: {drawn}, then" in stage.find("revise_more").text
    assert desk.job.store.last_seq(desk.job.panel_id) == seq


def test_both_looks_are_shown_by_turns(stage: Stage, desk) -> None:
    lay_over(stage, desk)
    then = stage.find("revise_picture").texture
    stage.tap("revise_now")
    now = stage.find("revise_picture").texture
    assert now is not then
    assert now.pixels != then.pixels
    stage.tap("revise_then")
    assert stage.find("revise_picture").texture is then


def test_kept_it_is_the_panel_that_every_screen_shows_and_taking_it_back_shows_the_old_one(
    stage: Stage, desk
) -> None:
    old = desk.job.panel
    desk.go("dry", section=1)
    stage.frame(2)
    desk.go("panel")
    stage.frame(2)
    lay_over(stage, desk)
    stage.tap("revise_keep")
    stage.run(1)
    assert desk.screen == "panel"
    assert desk.job.state.drawing_name == "second.svg"
    assert desk.job.panel is not old
    assert stage.find("picture").panel is desk.job.panel
    assert stage.find("undo").says.startswith("Drawing revised to second.svg")
    desk.go("dry", section=1)
    stage.frame(2)
    assert any(getattr(w, "panel", None) is desk.job.panel for w in stage.widgets())
    desk.go("panel")
    stage.frame(2)
    stage.tap("undo")
    assert desk.job.panel is old
    assert stage.find("picture").panel is old


def test_left_the_panel_is_as_it_was_and_the_file_is_looked_at_again(stage: Stage, desk) -> None:
    seq = desk.job.store.last_seq(desk.job.panel_id)
    lay_over(stage, desk)
    stage.tap("revise_leave")
    assert "file_open" in stage.names()
    assert desk.job.store.last_seq(desk.job.panel_id) == seq


def test_a_drawing_of_another_page_ends_in_a_card(stage: Stage, desk) -> None:
    lay_over(stage, desk, "other")
    assert "is not the panel's" in desk.fault_what
    assert "revise_keep" not in stage.names()
    stage.tap("fault_act")
    assert "file_lay_over" in stage.names()


def test_nothing_is_laid_over_while_a_mix_runs(stage: Stage, desk) -> None:
    start_mix(desk.job, 1)
    changed(desk)
    lay_over(stage, desk)
    assert desk.fault_what == "a mix runs on this panel"


def test_what_the_book_has_overtaken_is_not_kept(stage: Stage, desk) -> None:
    lay_over(stage, desk)
    record.note(desk.job, "a word in between")
    stage.tap("revise_keep")
    assert "moved on" in desk.fault_what
    assert desk.job.state.drawing_name == "grid.svg"


@pytest.mark.parametrize(("wide", "high"), [(1280, 800), (800, 1280)])
def test_nothing_is_small_close_or_cut(stage: Stage, desk, wide: int, high: int) -> None:
    stage.resize(wide, high)
    desk.go("open")
    stage.frame(2)
    stage.tap("open_file_second")
    stage.find("file_says").text = "Documents"  # the folder of a test has a name longer than the screen
    stage.frame(2)
    assert complaints(stage) == {}
    stage.tap("file_lay_over")
    stage.run(1)
    assert complaints(stage) == {}
    part = next(w for w in stage.widgets() if type(w).__name__ == "RevisePart")
    part.says = "1299 stay (thick line)\n1147 changed (striped)\n1124 added (lined)\n1199 gone (crossed)"
    part.more = "\n".join(["12 shapes without glass: left out"] * 7)  # the most lines that there can be
    stage.frame(4)
    assert complaints(stage) == {}

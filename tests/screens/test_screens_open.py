"""Drawings: files, the demo and the panels of the book; what is wrong with a file ends in a card."""

from pathlib import Path

import pytest

from bench.job.drafts import drafts
from bench.job.settings import LAST_PANEL
from bench.screens.drawings import drawing_files, usual_folders
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, start_mix
from tests.fakes.drawings import grid_svg
from tests.fakes.tapping import type_in


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("Documents", "Downloads", "bench", "book"):
        (tmp_path / name).mkdir()
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("POTWATCH_HOME", str(tmp_path / "book"))
    monkeypatch.chdir(tmp_path / "bench")
    return tmp_path


@pytest.fixture
def desk(stage: Stage, home: Path):
    (home / "Documents" / "window.svg").write_bytes(grid_svg(10, 8))
    with at_the_bench(stage) as desk:
        desk.go("open")
        stage.frame(2)
        yield desk


def test_drawings_are_found_where_they_are_usually_kept_each_once(home: Path) -> None:
    for name in ("Documents/a.svg", "Downloads/B.SVG", "bench/c.svg", "book/d.svg", "e.svg"):
        (home / name).write_text("<svg/>")
    (home / "Documents" / "letter.txt").write_text("")
    (home / "Documents" / "folder.svg").mkdir()
    found = drawing_files([*usual_folders(), home / "Documents", home / "no such folder"])
    assert sorted(p.name for p in found) == ["B.SVG", "a.svg", "c.svg", "d.svg", "e.svg"]


def test_a_file_is_opened_with_the_width_that_was_asked(stage: Stage, desk) -> None:
    stage.tap("open_file_window")
    assert "Width: as the drawing has it" in stage.find("file_says").text
    stage.tap("file_width")
    type_in(stage, "140")
    assert "Width: 140 mm" in stage.find("file_says").text
    before = desk.job
    stage.tap("file_open")
    stage.run(1)
    assert desk.job is not before
    assert desk.screen == "panel"
    assert desk.job.panel.width_mm == pytest.approx(140)
    assert desk.job.panel.tessera_count == 80
    assert desk.job.store.setting(LAST_PANEL) == str(desk.job.panel_id)


def test_reading_is_announced_before_it_begins(stage: Stage, desk) -> None:
    before = desk.job
    stage.tap("open_file_window")
    key = stage.find("file_open")
    stage.touch(*key.center).up()
    stage.frame()
    assert "Reading window.svg …" in stage.texts()
    assert desk.job is before
    stage.run(1)
    assert desk.job is not before


def test_a_bad_file_ends_in_a_card_and_nothing_is_stored(stage: Stage, desk, home: Path) -> None:
    (home / "bench" / "empty.svg").write_text("")
    desk.go("panel")
    desk.go("open")
    stage.frame(2)
    before = desk.job
    stage.tap("open_file_empty")
    stage.tap("file_open")
    stage.run(1)
    assert desk.job is before
    assert desk.fault_what
    assert "fault" in stage.names()
    assert len(desk.job.store.panels()) == 1
    stage.tap("fault_act")
    stage.tap("file_leave")
    assert "open_demo" in stage.names()


def test_a_file_that_went_meanwhile_is_told_too(stage: Stage, desk, home: Path) -> None:
    stage.tap("open_file_window")
    (home / "Documents" / "window.svg").unlink()
    stage.tap("file_open")
    stage.run(1)
    assert "window.svg" in desk.fault_where or "window.svg" in desk.fault_what


def test_a_panel_of_the_book_is_gone_back_to_as_it_was(stage: Stage, desk) -> None:
    first = desk.job.panel_id
    stage.tap("open_file_window")
    stage.tap("file_open")
    stage.run(1)
    stage.tap("elsewhere")
    stage.tap("to_open")
    stage.tap(f"open_panel_{first}")
    stage.run(1)
    assert desk.job.panel_id == first
    assert desk.job.panel.tessera_count == 288


def test_no_other_panel_is_opened_while_a_mix_runs(stage: Stage, desk) -> None:
    start_mix(desk.job, min(desk.job.state.sections))
    changed(desk)
    before = desk.job
    stage.tap("open_file_window")
    stage.tap("file_open")
    stage.run(1)
    assert desk.job is before
    assert desk.fault_what == "a mix runs on this panel"


def test_many_files_go_on_pages(stage: Stage, desk, home: Path) -> None:
    for k in range(12):
        (home / "Downloads" / f"panel-{k}.svg").write_text("<svg/>")
    desk.go("panel")
    desk.go("open")
    stage.frame(2)
    seen = set()
    while True:
        seen |= {name for name in stage.names() if name.startswith("open_")}
        if "page_on" not in stage.names() or stage.find("page_on").disabled:
            break
        stage.tap("page_on")
    assert len(seen) == 15  # twelve, the window, the demo and the empty panel


@pytest.mark.parametrize("ways", ["open_empty", "open_demo file_open", "open_demo file_lay_over"])
def test_in_practice_no_drawing_is_taken_up_that_would_be_gone_at_its_end(stage: Stage, desk, ways) -> None:
    desk.practise()
    practised = desk.job
    desk.go("open")
    stage.frame(2)
    for name in ways.split():
        stage.tap(name)
        stage.run(1)
    assert stage.find("fault").title == "Practice leaves no trace, and no drawing"
    assert stage.find("fault").text == "End practice first."
    assert (desk.screen, desk.job, drafts(desk.job.store)) == ("open", practised, [])
    desk.end_practice()
    stage.frame(2)

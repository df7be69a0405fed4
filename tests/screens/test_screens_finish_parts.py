"""Finish: weight and hanging, cost and hours, papers: each typed, followed and written by touches."""

import os

import pypdfium2
import pytest

from bench.job import costs, hanging, papers
from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, set_section
from tests.fakes.gloves import complaints
from tests.fakes.tapping import type_in

LEMONS = resource("assets", "demo", "lemons.svg").read_bytes()
SIZES = [(1280, 800), (800, 1280), (2560, 1600)]


@pytest.fixture
def desk(stage: Stage, home):
    with at_the_bench(stage, LEMONS) as desk:
        set_section(desk.job, 1)
        changed(desk)
        desk.go("finish")
        stage.frame(3)
        yield desk


def turn_to(stage: Stage, name: str) -> None:
    """Turn pages until something is on the screen, from the first one on."""
    while "page_back" in stage.names() and name not in stage.names() and not stage.find("page_back").disabled:
        stage.tap("page_back")
        stage.frame(2)
    while name not in stage.names():
        assert not stage.find("page_on").disabled, name
        stage.tap("page_on")
        stage.frame(2)


def choose(stage: Stage, name: str, keys: str = "") -> None:
    turn_to(stage, name)
    stage.tap(name)
    stage.frame(2)
    if keys:
        type_in(stage, keys)
        stage.frame(2)


def open_part(stage: Stage, *names: str) -> None:
    for name in names:
        choose(stage, name)
        stage.run(1)
        stage.frame(2)


def test_what_hangs_is_typed_and_followed(stage: Stage, desk) -> None:
    open_part(stage, "weighing")
    before = stage.find("figures_head").text
    choose(stage, "board", "12")
    choose(stage, "board_mm", "4")
    assert stage.find("figures_head").text != before
    assert "joints will break" in stage.find("figures_say").text
    choose(stage, "points", "3")
    told = hanging.figures_of(desk.job)
    assert (told.board_mm, told.points) == (4.0, 3)
    kind = told.board
    choose(stage, "board_kind")
    assert hanging.figures_of(desk.job).board != kind
    stage.tap("figures_read")
    stage.frame(2)
    assert any("The finished panel" in text for text in stage.texts())
    stage.tap("reading_close")
    stage.frame(2)
    stage.tap("figures_close")
    stage.frame(2)
    assert stage.find("weight").text == f"{hanging.hanging(desk.job).weight.total_g / 1000:.2f} kg"


def test_a_wire_too_flat_is_told_and_not_kept(stage: Stage, desk) -> None:
    open_part(stage, "weighing")
    choose(stage, "wire", "1")
    assert "cannot be" in stage.find("fault").title
    assert hanging.figures_of(desk.job).above_mm is None


def test_hours_and_prices_are_typed_and_what_an_hour_earned_is_told(stage: Stage, desk) -> None:
    open_part(stage, "papers", "costs")
    choose(stage, "sold", "900")
    choose(stage, "hours_laying", "20")
    money = costs.money_of(desk.job)
    assert (money.sold, stage.find("figures_head").text) == (900.0, f"{money.total_h:.1f} hours")
    assert f"An hour earned {money.hourly:.2f}." in stage.find("figures_say").text
    assert "client" in stage.find("figures_say").text
    k = next(k for k, one in enumerate(money.amounts) if one.material == "glass")
    choose(stage, f"price_{k}", "90")
    assert costs.kept_prices(desk.job) == {"glass": 90.0}


def test_the_record_is_written_and_where_is_said(stage: Stage, desk, home) -> None:
    open_part(stage, "papers")
    choose(stage, "record")
    stage.run(1)
    stage.frame(2)
    assert stage.find("figures_head").text == "Written"
    folder = papers.folder_of(desk.job, home / "book" / "documents")
    assert folder.name in stage.find("figures_say").text
    assert len(pypdfium2.PdfDocument(folder / papers.CLIENT)) >= 1
    assert (folder / papers.TABLES / "hours.csv").is_file()


def test_templates_are_written_on_the_paper_chosen(stage: Stage, desk, home) -> None:
    open_part(stage, "papers")
    choose(stage, "paper")
    choose(stage, "next_section")
    stage.run(1)
    stage.frame(2)
    folder = papers.folder_of(desk.job, home / "book" / "documents")
    (path,) = folder.glob("template*.pdf")
    size_pt = sorted(pypdfium2.PdfDocument(path)[0].get_size())
    assert size_pt == pytest.approx([612.0, 792.0], abs=0.1)
    choose(stage, "another", "3")
    stage.run(1)
    stage.frame(2)
    assert (folder / "template, section 3.pdf").is_file()


@pytest.mark.skipif(os.name != "posix", reason="a file in the folder's place")
def test_a_folder_that_cannot_be_written_is_told_by_the_card(stage: Stage, desk, home) -> None:
    (home / "book").mkdir(exist_ok=True)
    (home / "book" / "documents").write_text("mine")
    open_part(stage, "papers")
    choose(stage, "record")
    stage.run(1)
    stage.frame(2)
    assert "cannot be written" in stage.find("fault").title
    assert (home / "book" / "documents").read_text() == "mine"


def test_practice_writes_no_papers(stage: Stage, desk, home) -> None:
    desk.practise()
    desk.go("finish")
    stage.frame(3)
    open_part(stage, "papers")
    choose(stage, "record")
    stage.run(1)
    stage.frame(2)
    assert "Practice leaves no trace" in stage.find("fault").title
    assert not (home / "book" / "documents").exists()
    desk.end_practice()
    stage.frame(2)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("way", [("weighing",), ("papers",), ("papers", "costs")], ids=lambda way: way[-1])
def test_nothing_is_cut_small_or_overlapping(stage: Stage, desk, size, way) -> None:
    stage.resize(*size)
    stage.frame(3)
    open_part(stage, *way)
    seen = 0
    while True:
        assert complaints(stage) == {}
        seen += 1
        if "page_on" not in stage.names() or stage.find("page_on").disabled:
            break
        stage.tap("page_on")
        stage.frame(2)
    assert seen >= 1
    stage.tap("figures_read")
    stage.frame(3)
    assert complaints(stage) == {}

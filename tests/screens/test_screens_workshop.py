"""The workshop's cautions: at hand from anywhere, one screen each, readable at arm's length."""

import pytest

from bench.adhesive.hazards import wording
from bench.adhesive.workshop import workshop_cautions
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench
from tests.fakes.gloves import complaints
from tests.screens.test_screens_cautions import arcmin_at, plain

SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage) as desk:
        stage.tap("elsewhere")
        yield desk


def to_the_cautions(stage: Stage, work: str) -> None:
    stage.tap("to_workshop")
    stage.tap(f"work_{work}")
    stage.frame(4)


def test_cutting_says_what_flies_and_what_is_breathed(stage: Stage, desk) -> None:
    """Silica: 29 CFR 1926.1153; eye protection: ANSI Z87.1 or EN 166."""
    to_the_cautions(stage, "cutting")
    shown = plain(stage)
    for word in ("splinters", "EN 166", "ANSI Z87.1", "silica", "50 µg/m³", "never sweep dry"):
        assert word in shown
    assert "safety data sheet" in shown


def test_grout_says_that_it_burns(stage: Stage, desk) -> None:
    """Wet cement is above pH 12 (from memory of data sheets): H315, H318; the wording is GHS Rev. 10's."""
    to_the_cautions(stage, "grout")
    shown = plain(stage)
    for said in (wording("H318"), wording("H315"), "waterproof gloves", "never down the drain"):
        assert said in shown


@pytest.mark.parametrize("works", [("board", "glass"), ("grout",)])
def test_every_line_stands_on_the_one_screen(stage: Stage, desk, works) -> None:
    to_the_cautions(stage, "grout" if works == ("grout",) else "cutting")
    shown = plain(stage)
    lines = [line for work in works for caution in workshop_cautions(work) for line in caution.lines]
    said = [line.split(" ", 1)[1] if line[:1] == "H" and line[1:4].isdigit() else line for line in lines]
    bare = [line.split(": ", 1)[-1] for line in said]  # what a line is about is set in bold, apart
    assert [line for line in bare if line.removesuffix(".") not in shown] == []


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("work", ["cutting", "grout"])
def test_it_is_readable_at_600_mm_and_nothing_is_cut(stage: Stage, desk, work, size) -> None:
    """ISO 9241-3: capitals of 16 minutes of arc at least, 20 to 22 preferred."""
    stage.resize(*size[:2], density=size[2])
    stage.frame(4)
    assert complaints(stage) == {}
    to_the_cautions(stage, work)
    assert complaints(stage) == {}
    assert arcmin_at(stage.find("cautions").type_px / size[2], 600) >= 20

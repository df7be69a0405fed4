"""The glue-up in gloves, on screens of every size; and two mixes at once."""

import pytest

from bench.job.ground import borders_mm
from bench.screens.offscreen import Stage
from tests.fakes.benches import start_mix
from tests.fakes.gloves import complaints
from tests.fakes.gluing import back_to_work, gluing, minutes, mix_of, tap_piece, watch


@pytest.fixture
def desk(stage: Stage):
    with gluing(stage) as desk:
        yield desk


def two_mixes(stage: Stage, desk) -> tuple[int, int]:
    """Start a second mix, of a section that does not touch the first."""
    job = desk.job
    first = mix_of(desk).section
    other = next(n for n in job.state.sections if n != first and n not in borders_mm(job)[first])
    stage.run(100, dt_s=2)
    second = start_mix(job, other)
    watch(stage, desk, 1)
    return 1, second


def test_two_mixes_are_told_apart_and_a_plate_switches_between_them(stage: Stage, desk) -> None:
    first, second = two_mixes(stage, desk)
    section = desk.job.mix(second).section
    assert stage.find(f"twin_{second}").text.startswith(f"Section {section}\n")
    assert stage.find(f"twin_{second}").ids.picture.number == section
    stage.tap(f"twin_{second}")
    assert desk.mix == second
    assert f"Section {section}" in stage.texts()
    stage.tap("step_set")
    stage.tap("count_10")
    assert (desk.job.mix(first).placed, desk.job.mix(second).placed) == (0, 10)


def test_when_one_of_two_is_done_the_other_is_still_watched(stage: Stage, desk) -> None:
    _, second = two_mixes(stage, desk)
    stage.tap("done")
    stage.tap("all_placed")
    desk.go("glueup")
    stage.frame(3)
    assert desk.mix == second
    assert [n for n in stage.names() if n.startswith("twin_")] == []


SIZES = [(1280, 800, 1), (800, 1280, 1), (2560, 1600, 2)]


VIEWS = {
    "work": [],
    "done": ["done"],
    "left": ["count_10", "done", "some_left"],
    "pad left": ["done", "some_left", "left_many"],
    "which": ["done", "some_left", "left_which"],
    "why": ["count_10", "done", "some_left", "left_counted"],
    "late": ["late", "late_5"],
    "pad late": ["late", "late_other"],
    "stringy": ["stringy"],
}


@pytest.mark.parametrize("size", SIZES)
def test_the_glue_up_is_fit_for_gloves_and_nothing_is_cut(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    minutes(stage, 6)
    seen = {}
    for view, taps in VIEWS.items():
        back_to_work(stage, desk)
        for name in taps:
            stage.tap(name)
        stage.frame(4)
        seen[view] = complaints(stage)
    assert {view: wrong for view, wrong in seen.items() if wrong} == {}


@pytest.mark.parametrize("size", SIZES)
def test_two_mixes_are_fit_for_gloves_too(stage: Stage, desk, size) -> None:
    stage.resize(*size[:2], density=size[2])
    two_mixes(stage, desk)
    stage.frame(4)
    assert complaints(stage) == {}


def test_whatever_the_time_says_fits_the_tall_screen(stage: Stage, desk) -> None:
    stage.resize(800, 1280)
    seen = {}
    for minute in range(27):
        seen[minute] = complaints(stage)
        minutes(stage, 1)
    assert {minute: wrong for minute, wrong in seen.items() if wrong} == {}


def test_turning_the_tablet_keeps_what_is_asked_and_what_was_marked(stage: Stage, desk) -> None:
    members = desk.job.section(mix_of(desk).section).tesserae
    minutes(stage, 6)
    for name in ("done", "some_left", "left_which"):
        stage.tap(name)
    tap_piece(stage, desk, members[3])
    for size in ((800, 1280), (1280, 800)):
        stage.resize(*size)
        stage.frame(4)
        assert stage.find("picture").marked == [members[3]]
        assert complaints(stage) == {}
    tap_piece(stage, desk, members[4])
    assert stage.find("picture").marked == sorted((members[3], members[4]))

"""A panel set by the patch, on screen: Setup asks once, Dry cuts, Glue-up counts patches."""

import pytest

from bench.book.events import BenchSet
from bench.job.acts import dry, glueup
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, settle, start_mix
from tests.fakes.gloves import complaints
from tests.fakes.tapping import type_in

PATCH = BenchSet(transfer="patch", patch_cm2=6.0, patches_per_min=0.5)
SIZES = ((1280, 800, 1.0), (800, 1280, 1.0), (2560, 1600, 2.0))


@pytest.fixture
def desk(stage: Stage):
    with at_the_bench(stage, bench=PATCH) as desk:
        yield desk


def resize(stage: Stage, size) -> None:
    stage.resize(size[0], size[1], density=size[2])
    stage.run(0.5)


def test_transfer_is_asked_in_one_place_and_then_the_patch_and_its_pace(stage: Stage) -> None:
    with at_the_bench(stage) as desk:
        desk.go("setup")
        stage.frame(2)
        assert "set_patch_cm2" not in stage.names()
        stage.tap("set_transfer")
        stage.tap("choose_1")
        stage.run(0.5)
        settle(stage, desk)
        assert desk.job.state.bench.transfer == "patch"
        assert {"set_patch_cm2", "set_patches_per_min"} <= set(stage.names())
        assert "set_pace_per_min" not in stage.names()
        assert stage.find("set_patch_cm2").says == "40 cm² as a rule"


@pytest.mark.parametrize("size", SIZES)
def test_setup_by_the_patch_can_be_worked_with_gloves_on(stage: Stage, desk, size) -> None:
    desk.go("setup")
    resize(stage, size)
    assert complaints(stage) == {}


def test_at_dry_the_key_tells_the_patches_and_asks_them(stage: Stage, desk) -> None:
    stage.tap("next")
    stage.tap("as_drawn")
    number = int(desk.section)
    cut = desk.job.section(number).patches
    assert stage.find("count").text == f"{cut} patches"
    assert stage.find("pieces").text.endswith(f"in {cut} patches")
    stage.tap("count")
    type_in(stage, "12")
    assert desk.job.section(number).patches == 12
    assert "patches along the" in stage.find("sure").text
    assert stage.find("split").text == "Split it: two mixes"
    stage.tap("split")
    stage.run(0.5)
    assert sum(s.patches for s in desk.job.state.with_stage("dry")) == 12


@pytest.mark.parametrize("size", SIZES)
def test_dry_by_the_patch_can_be_worked_with_gloves_on(stage: Stage, desk, size) -> None:
    stage.tap("next")
    stage.tap("as_drawn")
    resize(stage, size)
    assert complaints(stage) == {}
    dry.lay(desk.job, int(desk.section), patches=11)
    changed(desk)
    stage.run(0.5)
    assert complaints(stage) == {}


def test_the_glue_up_counts_patches_one_by_one(stage: Stage, desk) -> None:
    mix = start_mix(desk.job, 1)
    whole = desk.job.mix(mix).patches
    changed(desk)
    desk.go("glueup", mix=mix)
    desk.job.clock.advance(300)
    stage.run(1.0)
    glueup.begin_step(desk.job, mix, "set")
    changed(desk)
    stage.run(1.0)
    assert stage.find("advice").text.startswith("Set the patches: about ")
    assert stage.find("chart").placed_text == f"{whole} patches"
    for _ in range(3):
        stage.tap("count_10")
    assert desk.job.mix(mix).placed == 3
    assert complaints(stage) == {}
    stage.tap("done")
    assert f"{whole} patches" in " ".join(stage.texts())
    stage.tap("some_left")
    stage.tap("left_counted")
    stage.tap("why_1")
    settle(stage, desk)
    assert desk.job.mix(mix).closed.patches == 3

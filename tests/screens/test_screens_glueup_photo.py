"""The photo of the dry lay while the section is set: beside the time left, never over it."""

import time

import numpy as np
import pytest

from bench.drawing.dry import as_kept
from bench.drawing.photo import Picture
from bench.job.advice import advise
from bench.resources import resource
from bench.screens.offscreen import Stage
from tests.fakes.benches import at_the_bench, changed, settle, start_mix
from tests.fakes.gloves import complaints
from tests.fakes.photographed import photograph
from tests.fakes.photographing import until


@pytest.fixture
def glue(stage: Stage):
    data = resource("assets", "demo", "lemons.svg").read_bytes()
    with at_the_bench(stage, data) as desk, stage.followed_by(desk.job.clock.advance):
        yield desk


def kept_png() -> bytes:
    return as_kept(Picture(np.random.default_rng(0).integers(0, 256, (320, 420, 3), np.uint8), None, "x"))


def glue_up(stage: Stage, desk, number: int) -> None:
    """Let resin meet hardener, and say that it is stirred: stirring has a countdown of its own."""
    desk.go("glueup", mix=start_mix(desk.job, number))
    changed(desk)
    stage.frame(4)
    assert "photo_or_chart" not in stage.names()
    stage.tap("step_spread")
    stage.frame(4)


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280), (2560, 1600)])
def test_the_photo_stands_beside_the_time_left_without_a_touch(stage: Stage, glue, size) -> None:
    stage.resize(*size)
    number = advise(glue.job).section
    photograph(glue.job, number, 50, data=kept_png())
    glue_up(stage, glue, number)
    until(stage, "lay_photo")
    stage.frame(4)
    assert complaints(stage) == {}
    sizes = {w.font_size for w in stage.widgets() if hasattr(w, "font_size") and w.text}
    left, photo = stage.find("time_left"), stage.find("lay_photo")
    assert left.font_size == max(sizes) >= 100
    a, b = left.to_window(*left.pos), photo.to_window(*photo.pos)
    apart = a[0] + left.width <= b[0] or b[0] + photo.width <= a[0] or b[1] + photo.height <= a[1]
    assert apart
    assert "chart" not in stage.names()
    stage.tap("photo_or_chart")
    assert "chart" in stage.names()
    assert "lay_photo" not in stage.names()
    assert complaints(stage) == {}
    stage.press("v")
    assert "lay_photo" in stage.names()


def test_the_chart_that_was_asked_for_is_not_the_next_sections(stage: Stage, glue) -> None:
    for asks in (True, False):
        number = advise(glue.job).section
        photograph(glue.job, number, 50, data=kept_png())
        glue_up(stage, glue, number)
        until(stage, "lay_photo")
        if asks:
            stage.tap("photo_or_chart")
            assert "lay_photo" not in stage.names()
            for name in ("done", "all_placed"):
                stage.tap(name)
            settle(stage, glue)
    assert "lay_photo" in stage.names()


def test_a_section_without_a_photo_has_the_chart_and_no_key_for_one(stage: Stage, glue) -> None:
    glue_up(stage, glue, advise(glue.job).section)
    settle(stage, glue)
    assert "chart" in stage.names()
    assert "photo_or_chart" not in stage.names()


def test_a_photo_that_cannot_be_read_raises_no_card_over_the_countdown(stage: Stage, glue) -> None:
    number = advise(glue.job).section
    photograph(glue.job, number, 50, data=b"spoilt")
    glue_up(stage, glue, number)
    for _ in range(40):
        time.sleep(0.01)
        stage.frame()
    assert glue.fault_what == ""
    assert "chart" in stage.names()

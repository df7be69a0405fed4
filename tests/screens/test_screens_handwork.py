"""Sections shaped by hand on the panel: by taps and strokes, seen before they are kept."""

import re

import numpy as np
import pytest

from bench.job.acts import dry
from bench.job.ground import borders_mm
from bench.screens.offscreen import Stage
from tests.fakes.benches import changed
from tests.fakes.gloves import complaints
from tests.fakes.tapping import at_mm, pinch
from tests.screens.test_screens_panel import tap_section


def by_hand(stage: Stage, desk, number: int, way: str = "") -> None:
    tap_section(stage, desk, number)
    stage.tap("section_shape")
    stage.frame(4)
    if way:
        stage.tap(f"hand_{way}")


def stroke_across(stage: Stage, desk, number: int) -> None:
    """Draw a line down the middle of a section, from beyond it to beyond it."""
    xy = desk.job.panel.centroid_mm[list(desk.job.section(number).tesserae)]
    x_mm = float(np.median(xy[:, 0])) + 0.01
    stage.drag(at_mm(stage, x_mm, xy[:, 1].min() - 6), at_mm(stage, x_mm, xy[:, 1].max() + 6), steps=12)
    stage.frame(2)


def own_figures(desk, number: int) -> str:
    section = desk.job.section(number)
    minutes = f"{section.expected_s / 60:.0f} of {section.capacity_s / 60:.0f} min"
    return f"{number}: {len(section.tesserae)} pieces, {minutes}"


def first_drawn(desk) -> int:
    return desk.job.state.with_stage("drawn")[0].number


def test_a_stroke_shows_what_the_parts_come_to_and_keeps_nothing_until_it_is_kept(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    before = dict(desk.job.state.sections)
    by_hand(stage, desk, number, "split")
    assert stage.find("hand_keep").disabled
    stroke_across(stage, desk, number)
    assert f"{number}: " in stage.find("hand_says").text
    assert "sure of" in stage.find("hand_says").text
    assert dict(desk.job.state.sections) == before
    assert stage.find("picture").section(max(desk.job.state.used_numbers) + 1) is not None
    stage.tap("hand_keep")
    stage.frame(4)
    assert len(desk.job.state.sections) == len(before) + 1
    assert desk.job.section(number).by_hand
    assert "section_facts" in stage.names()


def test_left_alone_everything_is_as_it_was_and_the_finger_moves_the_picture_again(
    stage: Stage, desk
) -> None:
    number = first_drawn(desk)
    before = dict(desk.job.state.sections)
    by_hand(stage, desk, number, "split")
    stroke_across(stage, desk, number)
    stage.tap("hand_leave")
    stage.frame(4)
    assert dict(desk.job.state.sections) == before
    assert not stage.find("picture").inking
    assert stage.find("picture").section(max(desk.job.state.used_numbers) + 1) is None


def test_a_join_that_breaks_a_rule_names_it_and_cannot_be_kept(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    beside = next(iter(borders_mm(desk.job)[number]))
    by_hand(stage, desk, number, "join")
    tap_section(stage, desk, beside)
    stage.frame(2)
    says = stage.find("hand_says").text
    assert re.search(r"would take \d+ min and its adhesive allows \d+ min; leave out about \d+ piece", says)
    assert own_figures(desk, number) in stage.texts()
    assert stage.find("hand_keep").disabled
    assert not desk.fault_what


@pytest.mark.parametrize("tapped", [False, True])
def test_pieces_stroked_over_or_tapped_come_to_the_section(stage: Stage, desk, tapped: bool) -> None:
    number = first_drawn(desk)
    by_hand(stage, desk, number, "split")
    stroke_across(stage, desk, number)
    stage.tap("hand_keep")
    stage.frame(4)
    stage.run(1)
    own = set(desk.job.section(number).tesserae)
    pair = desk.job.panel.joints.pair.tolist()
    fresh = max(desk.job.state.sections)
    other = set(desk.job.section(fresh).tesserae)
    piece = next(t for a, b in pair for t, u in ((a, b), (b, a)) if t in other and u in own)
    stage.tap("section_shape")
    stage.tap("hand_move")
    x_mm, y_mm = desk.job.panel.centroid_mm[piece]
    if tapped:
        stage.tap_at(*at_mm(stage, x_mm, y_mm))
    else:
        stage.drag(at_mm(stage, x_mm - 2, y_mm), at_mm(stage, x_mm + 2, y_mm), steps=6)
    stage.frame(2)
    assert not stage.find("hand_keep").disabled, stage.find("hand_says").text
    stage.tap("hand_keep")
    assert piece in desk.job.section(number).tesserae


@pytest.mark.parametrize("way", ["join", "split", "move"])
def test_the_section_s_own_figures_stand_there_before_anything_is_tried(stage: Stage, desk, way: str) -> None:
    number = first_drawn(desk)
    by_hand(stage, desk, number, way)
    assert own_figures(desk, number) in stage.texts()


def test_the_figures_follow_the_finger_and_nothing_is_tried_until_it_is_lifted(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    by_hand(stage, desk, number, "split")
    xy = desk.job.panel.centroid_mm[list(desk.job.section(number).tesserae)]
    x_mm, top, bottom = float(np.median(xy[:, 0])) + 0.01, xy[:, 1].min() - 6, xy[:, 1].max() + 6
    finger = stage.touch(*at_mm(stage, x_mm, top))
    heard = []
    for y_mm in np.linspace(top, bottom, 12):
        finger.slide(*at_mm(stage, x_mm, y_mm))
        stage.frame(2)
        heard.append(stage.find("hand_says").text)
    assert heard[1] == heard[0]
    assert heard[-1].count("sure of") == 2
    assert stage.find("hand_keep").disabled
    finger.up()
    stage.frame(2)
    assert stage.find("hand_says").text == heard[-1]
    assert not stage.find("hand_keep").disabled


def test_too_much_is_named_while_the_finger_still_draws(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    by_hand(stage, desk, number, "move")
    picture = stage.find("picture")
    left, top, right, bottom = picture.section(number).box_mm
    beside = next(iter(borders_mm(desk.job)[number]))
    x_mm, y_mm = picture.section(beside).anchor_mm
    finger = stage.touch(*at_mm(stage, (left + right) / 2, (top + bottom) / 2))
    for row_mm in np.arange(-40.0, 40.0, 5.0):  # back and forth over all of the neighbour
        for side_mm in (-60.0, 60.0):
            finger.slide(*at_mm(stage, x_mm + side_mm, y_mm + row_mm))
    stage.frame(2)
    says = stage.find("hand_says").text
    assert own_figures(desk, number) in stage.texts()
    assert re.search(r"its adhesive allows \d+ min|would be sure of \d+ in 100", says)
    assert " s " not in says
    finger.up()


def test_the_section_that_is_shaped_keeps_its_number_on_the_picture(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    picture = stage.find("picture")
    named = len(picture._labels.plates)
    by_hand(stage, desk, number, "join")
    assert len(picture._labels.plates) == named + 1  # the pointer had named it
    assert not picture.pointing


@pytest.mark.parametrize("way", ["move", "split"])
def test_a_pinch_while_shaping_by_hand_only_looks_closer(stage: Stage, desk, way: str) -> None:
    number = first_drawn(desk)
    by_hand(stage, desk, number, way)
    picture, says = stage.find("picture"), stage.find("hand_says").text
    before = picture.view.px_per_mm
    left, _, right, bottom = picture.section(number).box_mm
    for first_goes_on in (False, True):  # across the border, where a stroke would do something
        pinch(stage, at_mm(stage, (left + right) / 2, bottom), first_goes_on=first_goes_on)
        assert stage.find("hand_says").text == says
        assert stage.find("hand_keep").disabled
    assert picture.view.px_per_mm > before
    assert picture.inking


def test_what_lies_dry_is_not_offered_to_be_shaped(stage: Stage, desk) -> None:
    number = first_drawn(desk)
    dry.lay(desk.job, number)
    changed(desk)
    stage.frame(4)
    tap_section(stage, desk, number)
    assert "section_shape" not in stage.names()


@pytest.mark.parametrize("size", [(1280, 800), (800, 1280)])
def test_it_can_be_done_in_gloves(stage: Stage, desk, size) -> None:
    stage.resize(*size)
    stage.frame(4)
    number = first_drawn(desk)
    by_hand(stage, desk, number)
    for way in ("join", "split", "move"):
        stage.tap(f"hand_{way}")
        stage.run(0.5)
        stage.frame(4)
        assert complaints(stage) == {}
    stage.tap("hand_split")
    stroke_across(stage, desk, number)
    stage.frame(4)
    assert complaints(stage) == {}

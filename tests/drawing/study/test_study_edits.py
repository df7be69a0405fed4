"""What was said of a study can be kept, said again over the same paint, and taken back."""

import numpy as np
import pytest

from bench.drawing.study import Flow, StudyHow, drawn_study, propose, study_of
from bench.drawing.study.edits import Drawn, LaidSo, MadeOne, Named, Parted
from bench.drawing.study.faults import NoPaint
from tests.fakes.studies import BLUE, CREAM, YELLOW, lemon_labels, painted, plain

PATCH = ((10.0, 10.0), (40.0, 10.0), (40.0, 30.0), (10.0, 30.0))


@pytest.fixture(scope="module")
def proposal():
    return propose(painted(lemon_labels(), (CREAM, BLUE, YELLOW)), (200.0, 160.0))


def said() -> StudyHow:
    straight = plain("wall").model_copy(update={"flow": Flow(kind="straight"), "piece_mm": 9.0})
    how = StudyHow(regions=3)
    for edit in (
        MadeOne(one=1, other=2),
        Parted(region=1),
        Named(region=3, name="lemon"),
        LaidSo(region=1, to=straight),
        Drawn(outline_mm=PATCH, region=plain("window")),
    ):
        how = how.said(edit)
    return how


def test_it_is_the_same_study_after_it_was_written_down(proposal):
    written = StudyHow.model_validate_json(said().model_dump_json())
    one, again = study_of(said(), proposal), study_of(written, proposal)
    np.testing.assert_array_equal(one.labels, again.labels)
    assert one.regions == again.regions
    assert [one.regions[k].name for k in (0, 2, 3)] == ["wall", "lemon", "window"]


def test_what_was_said_last_is_taken_back_first(proposal):
    assert study_of(said().taken_back(), proposal).regions == study_of(said(), proposal).regions[:-1]
    how = said()
    for _ in range(9):
        how = how.taken_back()
    assert study_of(how, proposal).regions == proposal.study(3).regions


def test_areas_are_drawn_on_an_empty_panel_without_any_paint():
    how = StudyHow().said(Drawn(outline_mm=PATCH, region=plain("window")))
    study = drawn_study(how, (300.0, 200.0), plain("ground"))
    assert study.area_mm2().tolist() == pytest.approx([300 * 200 - 600, 600], rel=0.01)
    with pytest.raises(NoPaint):
        drawn_study(how.said(Parted(region=1)), (300.0, 200.0), plain("ground"))

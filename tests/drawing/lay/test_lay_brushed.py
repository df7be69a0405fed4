"""A lay with its strokes can be kept and laid again the same."""

import numpy as np

from bench.drawing.lay import Brush, LayHow, laid
from bench.drawing.study import Flow
from tests.fakes.studies import lemon_study

FINER = Brush(stroke_mm=((60.0, 60.0), (140.0, 90.0)), radius_mm=10.0, larger=0.5)
TURNED = Brush(stroke_mm=((30.0, 120.0), (60.0, 140.0)), radius_mm=12.0, follow=True, flow=Flow(kind="loose"))


def test_it_lays_the_same_again_after_it_was_written_down():
    how = LayHow(seed=4).brushed(FINER).brushed(TURNED)
    one = laid(lemon_study(), how)
    again = laid(lemon_study(), LayHow.model_validate_json(how.model_dump_json()))
    np.testing.assert_array_equal(one.cell, again.cell)
    assert one.regions == again.regions


def test_one_more_stroke_over_what_is_at_hand_is_the_same_as_all_of_them():
    before = LayHow(seed=4).brushed(FINER)
    how = before.brushed(TURNED)
    step = laid(lemon_study(), how, last=laid(lemon_study(), before))
    np.testing.assert_array_equal(step.cell, laid(lemon_study(), how).cell)
    without = laid(lemon_study(), how.taken_back())
    np.testing.assert_array_equal(without.cell, laid(lemon_study(), before).cell)


def test_a_stroke_says_how_its_pieces_are_laid():
    region = lemon_study().regions[0]
    assert FINER.changed(region).piece_mm == 3.0
    assert FINER.changed(region).flow == region.flow
    assert TURNED.changed(region).flow.kind == "straight"

"""A finger changes the pieces under it, and nothing else."""

import numpy as np
import pytest

from bench.drawing.lay.brush import along, relaid, touched_pieces
from bench.drawing.lay.cut import panel_of_lay
from bench.drawing.lay.laid import lay
from bench.drawing.study.faults import JointTooWide, NothingTouched, PieceTooLarge, TooManyPieces
from tests.fakes.studies import lemon_study, one_square

STROKE = [(60.0, 60.0), (140.0, 90.0)]


@pytest.fixture(scope="module")
def before():
    return lay(lemon_study(), seed=2)


def smaller(region):
    return region.model_copy(update={"piece_mm": region.piece_mm / 2})


def test_pieces_get_smaller_there_and_stay_as_they_are_elsewhere(before):
    after = relaid(before, STROKE, 12.0, smaller)
    touched = touched_pieces(before, np.array(STROKE), 12.0)
    assert after.piece_count > before.piece_count + 2 * len(touched)
    elsewhere = ~np.isin(before.cell, touched + 1)
    pairs = np.unique(np.stack([before.cell[elsewhere], after.cell[elsewhere]], axis=1), axis=0)
    assert len(pairs) == before.piece_count - len(touched)
    assert (np.bincount(after.cell[~elsewhere], minlength=after.piece_count + 1)[pairs[:, 1]] == 0).all()


def test_contours_still_hold_under_the_finger(before):
    after = relaid(before, STROKE, 12.0, smaller)
    area = np.zeros(after.piece_count + 1, np.int32)
    area[after.cell.ravel()] = after.area.ravel()
    np.testing.assert_array_equal(area[after.cell], after.area)
    names = {panel_of_lay(after).group_names, panel_of_lay(before).group_names}
    assert len(names) == 1


def test_rows_follow_the_stroke_where_that_is_asked_for():
    flow = along([(10, 10), (40, 25), (70, 40)])
    assert flow.kind == "straight"
    assert flow.angle_deg == pytest.approx(np.degrees(np.arctan2(1, 2)))


def test_it_can_be_done_again_and_again(before):
    after = before
    for turn in range(4):
        after = relaid(after, STROKE, 9.0, smaller if turn == 0 else lambda r: r, seed=turn)
        assert np.unique(after.cell[after.area > 0]).tolist() == list(range(1, after.piece_count + 1))


@pytest.mark.parametrize("stroke", [[], [(-50, -50)], [(np.nan, 3)], [(500, 500), (700, 900)]])
def test_a_stroke_beside_the_panel_is_told(before, stroke):
    with pytest.raises(NothingTouched):
        relaid(before, np.array(stroke, float).reshape(-1, 2), 5.0, smaller)


def test_a_tap_is_a_stroke_too(before):
    assert relaid(before, [(100.0, 80.0)], 10.0, smaller).piece_count > before.piece_count


def test_what_cannot_be_laid_is_refused_and_the_lay_stays(before):
    was = before.cell.copy()
    with pytest.raises(PieceTooLarge):
        relaid(before, STROKE, 9.0, lambda r: r.model_copy(update={"piece_mm": 900.0}))
    with pytest.raises(JointTooWide):
        relaid(before, STROKE, 9.0, lambda r: r.model_copy(update={"piece_mm": 1.0}))
    np.testing.assert_array_equal(before.cell, was)


def test_too_many_pieces_are_refused_by_number():
    wide = lay(one_square(40.0, 900.0, px=60), joint_mm=0.0)
    with pytest.raises(TooManyPieces):
        relaid(wide, [(450.0, 450.0)], 900.0, lambda r: r.model_copy(update={"piece_mm": 1.5}))

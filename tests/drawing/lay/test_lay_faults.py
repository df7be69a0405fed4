"""What cannot be laid is refused in a line that says why, with the number."""

import dataclasses

import numpy as np
import pytest

from bench.drawing.lay.laid import lay
from bench.drawing.study.faults import JointTooWide, NothingToLay, PieceTooLarge, TooManyPieces
from tests.fakes.studies import one_square


def test_a_piece_larger_than_the_panel():
    with pytest.raises(PieceTooLarge, match="at most 50 mm"):
        lay(one_square(60.0, 50.0))


def test_more_pieces_than_can_be_laid_are_named_by_number():
    with pytest.raises(TooManyPieces, match="1,524,158 pieces; at most 150,000"):
        lay(one_square(0.81, 1000.0), joint_mm=0.0)


def test_a_joint_that_leaves_no_glass():
    with pytest.raises(JointTooWide):
        lay(one_square(1.0, 50.0), joint_mm=0.8)
    with pytest.raises(JointTooWide):
        lay(one_square(6.0, 50.0), joint_mm=-0.1)
    with pytest.raises(JointTooWide):
        lay(one_square(6.0, 50.0), joint_mm=float("nan"))


def test_an_empty_panel():
    bare = dataclasses.replace(one_square(6.0, 50.0), labels=np.zeros((20, 20), np.int32))
    with pytest.raises(NothingToLay):
        lay(bare)


def test_a_region_smaller_than_a_piece_is_one_piece():
    labels = np.ones((50, 50), np.int32)
    labels[20:24, 20:24] = 2
    study = one_square(10.0, 100.0)
    study = dataclasses.replace(study, labels=labels, regions=study.regions * 2)
    assert (lay(study).of_piece == 1).sum() == 1

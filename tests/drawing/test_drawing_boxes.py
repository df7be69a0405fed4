"""The grid finds each overlapping pair of boxes once, however they lie, and refuses heaps."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.boxes import Grid, TooManyPairs

PLACE = st.floats(-1000, 1000)
SIDE = st.sampled_from([0.0, 0.1, 1.0, 7.0, 300.0])
BOX = st.tuples(PLACE, PLACE, SIDE, SIDE)


def corners(boxes) -> tuple[np.ndarray, np.ndarray]:
    found = np.array(boxes, float)
    return found[:, :2], found[:, :2] + found[:, 2:]


@settings(max_examples=150, deadline=None)
@given(st.lists(BOX, min_size=1, max_size=30), st.lists(BOX, min_size=1, max_size=30))
def test_the_pairs_are_those_of_trying_each_with_each_and_come_once(some, others):
    low, high = corners(some)
    other_low, other_high = corners(others)
    found = [
        (int(a), int(b))
        for one, two in Grid(other_low, other_high).pairs(low, high)
        for a, b in zip(one, two, strict=True)
    ]
    tried = (low[:, None] <= other_high) & (other_low <= high[:, None])
    assert sorted(found) == sorted(map(tuple, np.argwhere(tried.all(axis=2)).tolist()))


def test_boxes_that_touch_overlap_and_points_meet_themselves():
    low, high = corners([(0, 0, 5, 5), (5, 5, 5, 5), (20, 20, 0, 0)])
    found = {
        (int(a), int(b))
        for one, two in Grid(low, high).pairs(low, high)
        for a, b in zip(one, two, strict=True)
    }
    assert found == {(0, 0), (0, 1), (1, 0), (1, 1), (2, 2)}


def test_one_huge_box_among_many_small_ones_costs_no_more_than_its_pairs():
    rng = np.random.default_rng(1)
    low = np.concatenate([rng.random((20_000, 2)) * 100, [[0, 0]]])
    high = low + np.concatenate([np.full((20_000, 2), 0.01), [[101, 101]]])
    grid = Grid(low, high)
    assert len(grid.box) < 5 * len(low)
    assert sum(len(a) for a, _ in grid.pairs(low[-1:], high[-1:])) == 20_001


def test_a_heap_of_boxes_is_refused_at_once():
    low = np.zeros((20_000, 2))
    with pytest.raises(TooManyPairs):
        next(Grid(low, low + 1).pairs(low, low + 1))

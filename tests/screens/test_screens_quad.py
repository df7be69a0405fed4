"""Corners under a finger, without a window: which is meant, where it goes, and what the lens shows."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.screens.picture import quad
from bench.screens.picture.view import View

CORNERS = ((10.0, 10.0), (390.0, 12.0), (380.0, 290.0), (20.0, 280.0))
SIZE = (400, 300)
places = st.tuples(st.floats(-1e4, 1e4), st.floats(-1e4, 1e4))


@given(places)
def test_the_nearest_corner_is_meant(at):
    which = quad.nearest(CORNERS, at)
    assert all(math.dist(CORNERS[which], at) <= math.dist(corner, at) for corner in CORNERS)


@given(st.integers(0, 3), places)
def test_a_corner_goes_where_it_is_put_but_never_off_the_picture(which, to):
    seen = quad.moved(CORNERS, which, to, SIZE)
    x, y = seen[which]
    assert 0 <= x <= 400
    assert 0 <= y <= 300
    if 0 <= to[0] <= 400 and 0 <= to[1] <= 300:
        assert seen[which] == to
    assert [c for k, c in enumerate(seen) if k != which] == [c for k, c in enumerate(CORNERS) if k != which]


@given(st.floats(100, 2000), st.floats(100, 2000), st.integers(16, 9000), st.integers(16, 9000), places)
def test_a_place_on_the_screen_and_back_is_the_same_place(width, height, across, down, at):
    view = View(width, height, across, down).fitted()
    assert view.to_px(*view.to_mm(*at)) == pytest.approx(at, abs=1e-6)
    left, top = view.to_px(0, 0)
    right, bottom = view.to_px(across, down)
    assert -1 <= left < right <= width + 1
    assert -1 <= bottom < top <= height + 1, "y runs down in the picture and up on the screen"


@given(st.integers(0, 90), st.integers(0, 60), st.integers(2, 50))
def test_the_lens_shows_the_pixel_at_the_corner_in_its_middle(x, y, half):
    pixels = np.zeros((60, 90, 3), np.uint8)
    pixels[..., 0], pixels[..., 1] = np.arange(90), np.arange(60)[:, None]
    seen = quad.under_lens(pixels, (x, y), 2 * half)
    assert seen.shape == (2 * half, 2 * half, 3)
    beyond = x == 90 or y == 60
    expected = [quad.SURROUND] * 3 if beyond else [x, y, 0]
    assert seen[half, half].tolist() == expected


def test_what_lies_beyond_the_rim_is_grey_and_far_away_there_is_nothing_else():
    pixels = np.full((60, 90, 3), 200, np.uint8)
    assert (quad.under_lens(pixels, (0, 0), 20) == quad.SURROUND).all(axis=2).sum() == 400 - 100
    assert (quad.under_lens(pixels, (900, 900), 20) == quad.SURROUND).all()


def test_the_lens_stands_far_from_its_corner():
    right_and_up = [(True, False), (False, False), (False, True), (True, True)]
    assert [quad.opposite(k) for k in range(4)] == right_and_up


def test_the_edges_leave_a_corner_along_its_neighbours():
    square = ((0, 0), (5, 0), (5, 5), (0, 5))
    assert quad.ways(square, 0) == ((0, 1), (1, 0))
    assert quad.ways(((1, 1),) * 4, 2) == ((0, 0), (0, 0))

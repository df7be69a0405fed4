"""The outline of an empty panel covers what plane geometry says of rectangle, ellipse, L and ring."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.drawing.study.faults import CutTooLarge, RingTooWide
from bench.drawing.study.outline import Outline, outline_labels

SIDES = st.floats(40, 1000)


def area_mm2(outline: Outline, size_mm: tuple[float, float]) -> float:
    labels = outline_labels(outline, size_mm)
    assert set(np.unique(labels)) <= {0, 1}
    return float(labels.mean()) * size_mm[0] * size_mm[1]


@given(SIDES, SIDES)
def test_a_rectangle_is_the_whole_page(width, height):
    assert area_mm2(Outline(), (width, height)) == pytest.approx(width * height)


@given(SIDES, SIDES)
def test_an_oval_has_the_area_of_an_ellipse(width, height):
    """π·a·b, the area of an ellipse of semi-axes a and b."""
    size = (width, max(height, width / 4))
    assert area_mm2(Outline(shape="oval"), size) == pytest.approx(math.pi * size[0] * size[1] / 4, rel=0.005)


@given(SIDES, SIDES, st.floats(0.1, 0.9), st.floats(0.1, 0.9))
def test_an_l_lacks_what_is_cut_out(width, height, across, down):
    size = (width, max(height, width / 4))
    outline = Outline(shape="l", cut_width_mm=across * size[0], cut_height_mm=down * size[1])
    edge = sum(size) * max(size) / 480  # of the cut, to a pixel
    expected = size[0] * size[1] * (1 - across * down)
    assert area_mm2(outline, size) == pytest.approx(expected, abs=edge)


@given(SIDES, st.floats(0.1, 0.45))
def test_a_round_ring_has_the_area_of_an_annulus(width, share):
    """π·(R² − r²), the area between two circles about one centre."""
    ring = share * width
    expected = math.pi * ((width / 2) ** 2 - (width / 2 - ring) ** 2)
    assert area_mm2(Outline(shape="ring", ring_mm=ring), (width, width)) == pytest.approx(expected, rel=0.02)


def test_an_l_is_cut_at_its_top_right():
    labels = outline_labels(Outline(shape="l"), (200.0, 100.0))
    assert [labels[0, 0], labels[0, -1], labels[-1, 0], labels[-1, -1]] == [1, 0, 1, 1]


def test_what_leaves_no_shape_is_refused_with_what_would_do():
    with pytest.raises(CutTooLarge, match="leaves no L of 200 × 100 mm"):
        outline_labels(Outline(shape="l", cut_width_mm=200), (200.0, 100.0))
    with pytest.raises(RingTooWide) as told:
        outline_labels(Outline(shape="ring", ring_mm=50), (200.0, 100.0))
    assert "less than 50 mm" in told.value.todo


def test_the_longer_side_has_as_many_pixels_as_a_painted_study():
    assert outline_labels(Outline(), (300.0, 200.0)).shape == (320, 480)
    assert outline_labels(Outline(), (5000.0, 1.0)).shape == (1, 480)

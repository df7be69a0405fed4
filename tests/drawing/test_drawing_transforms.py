"""Nested transforms, `use` and inner viewports, against matrices by hand and against svgelements."""

import math
from io import BytesIO

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svgelements import SVG, Path

from bench.drawing.faults import UnreadableNumber
from tests.fakes.shapes import page, read, square


def turn(degrees):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])


def move(x, y):
    return np.array([[1, 0, x], [0, 1, y], [0, 0, 1]])


def size(x, y):
    return np.diag([x, y, 1])


def lean(x, y):
    return np.array([[1, math.tan(math.radians(x)), 0], [math.tan(math.radians(y)), 1, 0], [0, 0, 1]])


def in_order(points):
    """Return the points in an order that depends on neither the outline's beginning nor its direction."""
    points = np.asarray(points)
    begin = np.lexsort(np.round(points, 3).T)[0]
    points = np.roll(points, -begin, axis=0)
    there, back = points, np.roll(points[::-1], 1, axis=0)
    return there if tuple(np.round(there[1], 3)) < tuple(np.round(back[1], 3)) else back


def corners(panel):
    """Return the top left corner of each tessera."""
    found = [panel.rings_mm(k)[0].min(axis=0) for k in range(panel.tessera_count)]
    return [tuple(np.round(corner, 6).tolist()) for corner in found]


CORNERS = np.array([[0, 0, 1], [10, 0, 1], [10, 10, 1], [0, 10, 1]])


@pytest.mark.parametrize(
    ("text", "matrix"),
    [
        ("translate(30 20)", move(30, 20)),
        ("translate(30)", move(30, 0)),
        ("scale(2)", size(2, 2)),
        ("scale(2,-.5)translate(1,-30)", size(2, -0.5) @ move(1, -30)),
        ("rotate(30)", turn(30)),
        ("rotate(30, 50 40)", move(50, 40) @ turn(30) @ move(-50, -40)),
        ("skewX(20) skewY(-10)", lean(20, 0) @ lean(0, -10)),
        ("matrix(1 2 -3 4 50 6)", np.array([[1, -3, 50], [2, 4, 6], [0, 0, 1]])),
        ("translate(1e1,5.)  ,  rotate(-90)", move(10, 5) @ turn(-90)),
        ("none", np.eye(3)),
        ("", np.eye(3)),
    ],
)
def test_each_transform_moves_points_as_its_matrix_does(text, matrix):
    """SVG 2, 8.5 and CSS Transforms 1, 12: the matrices of the transform functions."""
    panel = read(square(0, 0, attributes=f'transform="{text}"'))
    expected = (CORNERS @ matrix.T)[:, :2]
    found = panel.rings_mm(0)[0]
    assert in_order(expected) == pytest.approx(in_order(found), abs=1e-9)


def test_transforms_nest_from_the_outside_in():
    piece = square(0, 0, 10, 'transform="scale(2)"')
    body = f'<g transform="translate(40,30)"><g transform="rotate(45)">{piece}</g></g>'
    expected = (CORNERS @ (move(40, 30) @ turn(45) @ size(2, 2)).T)[:, :2]
    assert expected == pytest.approx(read(body).rings_mm(0)[0], abs=1e-9)


def test_a_transform_may_stand_in_a_style():
    panel = read(square(0, 0, attributes='style="transform: translate(30px, 20px) rotate(90deg)"'))
    assert pytest.approx(panel.points_mm.min(axis=0).tolist()) == [20.0, 20.0]


@pytest.mark.parametrize(
    "text", ["turn(30)", "rotate(NaN)", "rotate()", "scale(1e300)", "translate(3", "matrix(1 2)"]
)
def test_a_transform_that_cannot_be_read_is_a_fault_with_its_shape(text):
    with pytest.raises(UnreadableNumber, match=r"shape 'a7', line 1: its transform cannot be read"):
        read(square(0, 0, attributes=f'id="a7" transform="{text}"'))


def test_use_repeats_a_shape_where_it_is_put():
    body = (
        "<defs>"
        + square(0, 0, 10, 'id="p"')
        + '</defs><use href="#p"/><use xlink:href="#p" x="20" y="5" transform="scale(2)"/>'
    )
    panel = read(body)
    assert corners(panel) == [(0, 0), (40, 10)]
    assert pytest.approx(panel.area_mm2.tolist()) == [100, 400]


def test_use_of_use_of_a_group_carries_every_transform():
    body = (
        f'<defs><g id="pair">{square(0, 0, 2)}{square(4, 0, 2)}</g>'
        '<g id="four"><use href="#pair"/><use href="#pair" y="10"/></g></defs>'
        '<use href="#four" x="50" transform="scale(0.5)"/><use href="#four" y="40"/>'
    )
    panel = read(body)
    assert corners(panel) == [(25, 0), (27, 0), (25, 5), (27, 5), (0, 40), (4, 40), (0, 50), (4, 50)]


def test_a_symbol_is_fitted_into_the_window_of_its_use():
    """SVG 2, 5.5: width and height of the `use` are the viewport of the symbol's viewBox."""
    body = (
        '<symbol id="s" viewBox="0 0 10 10"><rect x="0" y="0" width="50%" height="10"/></symbol>'
        '<use href="#s" x="20" y="30" width="40" height="20"/>'
    )
    panel = read(body)
    assert pytest.approx(panel.points_mm.min(axis=0).tolist()) == [30.0, 30.0]
    assert pytest.approx(panel.points_mm.max(axis=0).tolist()) == [40.0, 50.0]


def test_a_symbol_hands_on_its_own_look_and_transform():
    body = (
        f'<symbol id="s" fill="red" data-glass="clear" transform="translate(5 0)">{square(0, 0)}</symbol>'
        '<use href="#s" fill="blue" x="20"/>'
    )
    panel = read(body)
    assert (panel.colour.tolist(), panel.glass.tolist(), corners(panel)) == ([[255, 0, 0]], [1], [(25, 0)])


def test_an_inner_svg_has_its_own_viewport_and_what_follows_has_the_outer_one():
    body = (
        '<svg x="10" y="20" width="50" height="50" viewBox="0 0 5 5"><rect width="20%" height="1"/></svg>'
        '<rect x="80" width="20%" height="10"/>'
    )
    panel = read(body)
    assert pytest.approx(panel.area_mm2.tolist()) == [100.0, 200.0]
    assert pytest.approx(panel.rings_mm(0)[0].min(axis=0).tolist()) == [10.0, 20.0]


NUMBER = st.floats(-40, 40).map(lambda v: round(v, 3))
STEP = st.one_of(
    st.builds("translate({},{})".format, NUMBER, NUMBER),
    st.builds("rotate({} {} {})".format, st.integers(-180, 180), NUMBER, NUMBER),
    st.builds(
        "scale({} {})".format,
        st.floats(0.3, 2).map(lambda v: round(v, 3)),
        st.floats(0.3, 2).map(lambda v: round(v, 3)),
    ),
    st.builds("skewX({})".format, st.integers(-60, 60)),
)


@settings(max_examples=40, deadline=None)
@given(outer=st.lists(STEP, max_size=3), inner=st.lists(STEP, max_size=3), again=st.lists(STEP, max_size=2))
def test_nested_transforms_and_use_agree_with_svgelements_own_reading_of_the_file(outer, inner, again):
    piece = f'<path id="a" d="M1,2L30,4L12,25z" transform="{" ".join(inner)}"/>'
    again = f'<use href="#a" x="3" y="-4" transform="{" ".join(again)}"/>'
    body = f'<g transform="{" ".join(outer)}">{piece}</g>{again}'
    large = {"size": 'width="9000mm" height="9000mm" viewBox="0 0 9000 9000"'}
    whole = SVG.parse(BytesIO(page(body, **large)), ppi=25.4)
    drawn = [shape for shape in whole.elements() if isinstance(shape, Path)]
    expected = [np.array([[s.end.x, s.end.y] for s in shape.segments()[:3]]) for shape in drawn]
    panel = read(body, **large)
    assert 2 == panel.tessera_count == len(expected)
    for k, outline in enumerate(expected):  # svgelements takes 1 in for 25.39999 mm
        assert in_order(outline) == pytest.approx(in_order(panel.rings_mm(k)[0]), rel=3e-6, abs=1e-4)

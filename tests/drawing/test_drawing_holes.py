"""Holes, islands and outlines that cross themselves, by the even-odd rule, against shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.evenodd import measure, shared_area
from tests.fakes.shapes import path_data, polygons_of, read


def even_odd(rings) -> shapely.Geometry:
    """Return the even-odd area of rings: the faces that a ray leaves an odd number of times."""
    lines = shapely.union_all([shapely.LinearRing(ring) for ring in rings])
    faces = shapely.get_parts(shapely.polygonize([lines]))
    inside = []
    for face in faces:
        point = shapely.point_on_surface(face)
        ray = (point.x, point.y, 1e4, point.y + 37.7)
        crossings = sum(_crossings(np.asarray(ring), ray) for ring in rings)
        if crossings % 2:
            inside.append(face)
    return shapely.union_all(inside) if inside else shapely.Polygon()


def _crossings(ring, ray) -> int:
    line = shapely.LineString([ray[:2], ray[2:]])
    edges = [shapely.LineString([a, b]) for a, b in zip(ring, np.roll(ring, -1, axis=0), strict=True)]
    return sum(line.crosses(edge) for edge in edges)


def test_a_hole_is_no_glass_whichever_way_it_is_drawn():
    outer, hole = "M0 0H20V20H0z", ("M5 5H10V10H5z", "M5 5V10H10V5z")
    for one in hole:
        panel = read(f'<path d="{outer}{one}"/>')
        assert panel.area_mm2.tolist() == pytest.approx([375])
        assert [len(ring) for ring in panel.rings_mm(0)] == [4, 4]
        assert panel.centroid_mm[0].tolist() == pytest.approx([(400 * 10 - 25 * 7.5) / 375] * 2)


def test_the_outer_ring_comes_first_then_its_holes_then_what_else_there_is():
    hole, outer, island, other = "M5 5h9v9h-9z", "M0 0h20v20h-20z", "M8 8h2v2h-2z", "M40 0h5v5h-5z"
    panel = read(f'<path d="{hole}{island}{other}{outer}"/>')
    areas = [round(shapely.Polygon(ring).area, 6) for ring in panel.rings_mm(0)]
    assert panel.area_mm2.tolist() == pytest.approx([400 - 81 + 4 + 25])
    assert areas.index(400) + 1 == areas.index(81)
    assert sorted(areas) == [4, 25, 81, 400]


def test_separate_outlines_of_one_path_stay_one_piece_and_are_named():
    panel = read('<path id="pair" d="M0 0h5v5h-5z M20 0h5v5h-5z"/>')
    assert panel.area_mm2.tolist() == pytest.approx([50])
    assert panel.warnings == (
        "1 tessera is made of several separate outlines, and taken for one piece: pair",
    )


def test_rings_run_the_same_way_however_they_are_drawn():
    """Glass lies to the same side of every ring: outer rings have positive area, holes negative."""
    for d in ("M0 0H20V20H0zM5 5H9V9H5z", "M0 0V20H20V0zM5 5V9H9V5z", "M0 0V20H20V0zM5 5H9V9H5z"):
        panel = read(f'<path d="{d}" transform="scale(1,-1) translate(0,-40)"/>')
        signs = [np.sign(shapely.LinearRing(ring).is_ccw - 0.5) for ring in panel.rings_mm(0)]
        assert signs == [1, -1]


def test_a_bow_tie_is_kept_with_both_its_wings_and_named():
    panel = read('<polygon id="tie" points="0,0 10,10 10,0 0,10"/>')
    assert panel.area_mm2.tolist() == pytest.approx([50])
    assert panel.centroid_mm[0].tolist() == pytest.approx([5, 5])
    assert panel.warnings == ("1 tessera is crossing its own outline: tie",)


@pytest.mark.parametrize(
    ("points", "crosses"),
    [
        ("0,0 10,0 10,10 0,10", False),
        ("0,0 10,0 5,5 10,10 0,10", False),
        ("0,0 10,0 10,10 5,0 0,10", False),  # a notch that just touches the side opposite
        ("0,0 5,5 10,0 10,10 5,5 0,10", False),  # two triangles that touch at a corner
        ("0,0 5,5 10,10 10,0 5,5 0,10", True),  # through that same corner, straight on
        ("0,0 10,0 10,10 5,-1 0,10", True),
        ("0,0 20,0 20,10 10,10 10,0 10,-5 0,10", True),  # through an edge at a corner of its own
        ("10,0 4,19 20,7 0,7 16,19", True),  # a five-pointed star
    ],
)
def test_touching_is_no_crossing_and_passing_through_is(points, crosses):
    panel = read(f'<polygon points="{points}" transform="translate(20,20)"/>')
    assert any("crossing" in text for text in panel.warnings) == crosses


def test_two_outlines_of_one_shape_that_cross_are_named_and_not_glass_where_both_are():
    panel = read('<path d="M0 0h10v10h-10z M5 5h10v10h-10z"/>')
    assert panel.area_mm2.tolist() == pytest.approx([150])
    assert any("crossing" in text for text in panel.warnings)


PLACE = st.tuples(st.integers(0, 30), st.integers(0, 30))
LOOP = st.lists(PLACE, min_size=3, max_size=9, unique=True)


@settings(max_examples=120, deadline=None)
@given(st.lists(LOOP, min_size=1, max_size=3))
def test_any_scribble_has_the_even_odd_area_and_centroid_that_shapely_finds(loops):
    rings = [np.array(loop, float) for loop in loops]
    area, moment = measure(rings)
    true = even_odd(rings)
    assert area == pytest.approx(true.area, abs=1e-6)
    if true.area > 1:
        assert (moment / area).tolist() == pytest.approx([true.centroid.x, true.centroid.y], abs=1e-5)


@settings(max_examples=120, deadline=None)
@given(LOOP, LOOP)
def test_what_two_shapes_share_is_what_shapely_finds(one, other):
    a, b = even_odd([one]), even_odd([other])
    assert shared_area([np.array(one, float)], [np.array(other, float)]) == pytest.approx(
        a.intersection(b).area, abs=1e-6
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.lists(PLACE, min_size=3, max_size=8, unique=True), min_size=1, max_size=4))
def test_the_reader_gives_any_scribble_its_even_odd_area(loops):
    """Whether it takes the fast way of the simple outline or the slow one of the crossing outline."""
    true = even_odd([np.array(loop, float) for loop in loops]).area
    data = "".join("M" + "L".join(f"{x},{y}" for x, y in loop) + "z" for loop in loops)
    panel = read(f'<path d="{data}"/><rect x="80" y="80" width="5" height="5"/>')
    assert panel.glass_area_mm2 == pytest.approx(true + 25, abs=1e-5)


def test_holes_and_concave_shapes_come_back_as_shapely_wrote_them():
    frame = shapely.box(5, 5, 60, 60) - shapely.Point(30, 30).buffer(12) - shapely.box(40, 8, 55, 20)
    gaps = shapely.MultiPolygon([shapely.box(70 + 6 * k, 4, 73 + 6 * k, 50) for k in range(4)])
    comb = shapely.box(65, 5, 95, 60) - gaps
    panel = read(f'<path d="{path_data(frame)}"/><path d="{path_data(comb)}"/>')
    for found, true in zip(polygons_of(panel), (frame, comb), strict=True):
        assert found.is_valid
        assert found.symmetric_difference(true).area == pytest.approx(0, abs=1e-3)
    assert panel.area_mm2.tolist() == pytest.approx([frame.area, comb.area], rel=1e-6)
    centroids = [[p.centroid.x, p.centroid.y] for p in (frame, comb)]
    assert panel.centroid_mm == pytest.approx(np.array(centroids), abs=1e-5)

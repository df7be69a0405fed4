"""Outlines of a label image: their areas, who lies beside whom, and that none crosses itself."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp
from scipy.ndimage import distance_transform_edt, grey_dilation, grey_erosion
from skimage.measure import find_contours, label, regionprops
from skimage.segmentation import watershed

from bench.drawing import simplify
from bench.drawing.cracks import borders, cracks_of
from bench.drawing.rings import moments
from bench.drawing.strings import strung
from bench.drawing.trace import traced


def polygons(labels, mm_per_px=1.0, tolerance_mm=1.0):
    """Return the pieces as shapely sees them, by their label: outer rings minus holes."""
    rings, owner = traced(labels, mm_per_px=mm_per_px, tolerance_mm=tolerance_mm)
    assert (np.diff(owner) >= 0).all()
    found = {}
    for k in range(len(rings)):
        ring = shapely.Polygon(rings.points_mm[rings.start[k] : rings.start[k + 1]])
        assert ring.is_valid
        before = found.get(int(owner[k]) + 1, shapely.Polygon())
        found[int(owner[k]) + 1] = before.symmetric_difference(ring)
    return found


def cells(count, rows, columns, *, joint, seed):
    """Return a label image of cells grown around random seeds, `joint` pixels of nothing between them."""
    rng = np.random.default_rng(seed)
    marks = np.zeros((rows, columns), np.int32)
    places = rng.choice(rows * columns, count, replace=False)
    marks.ravel()[places] = np.arange(1, count + 1)
    grown = watershed(distance_transform_edt(marks == 0), marks).astype(np.int32)
    if joint:
        size = (joint, joint)
        grown[grey_dilation(grown, size) != grey_erosion(grown, size)] = 0
    return grown


def test_a_rectangle_of_pixels_has_exactly_its_area_and_lies_where_its_pixels_do():
    labels = np.zeros((40, 50), np.int32)
    labels[7:19, 10:41] = 1
    piece = polygons(labels, mm_per_px=0.2, tolerance_mm=0.2)[1]
    assert piece.area == pytest.approx(12 * 31 * 0.04, rel=1e-4)
    assert np.abs(np.array(piece.bounds) - np.array([10, 7, 41, 19]) * 0.2).max() < 0.5 * 0.2
    assert len(piece.exterior.coords) - 1 <= 8


def test_a_slanting_edge_keeps_no_staircase():
    y, x = np.mgrid[:200, :200]
    labels = ((np.abs((x - 100) * 0.9 + (y - 100) * 0.4) < 50) & (np.abs(y - x * 0.3) < 90)).astype(np.int32)
    piece = polygons(labels)[1]
    assert len(piece.exterior.coords) - 1 <= 12
    assert piece.area == pytest.approx(labels.sum(), rel=1e-4)


@pytest.mark.parametrize("joint", [0, 3])
def test_areas_are_those_that_skimage_counts(joint):
    labels = cells(60, 300, 400, joint=joint, seed=5)
    found = polygons(labels)
    props = {one.label: one for one in regionprops(labels)}
    assert found.keys() == props.keys()
    for k, one in props.items():
        # a border without a corner of its own cannot give its area back: a pixel or so for each of its ends
        assert found[k].area == pytest.approx(one.area, abs=0.5 if joint else 0.03 * one.area)
        if joint:
            y, x = one.centroid
            assert shapely.distance(found[k].centroid, shapely.Point(x + 0.5, y + 0.5)) < 0.5


def test_outlines_run_where_find_contours_sees_them():
    """scikit-image's marching squares at ½ between pixel middles; a tolerance of 1 px, a shift of ½."""
    labels = cells(30, 200, 240, joint=4, seed=2)
    found = polygons(labels)
    for k, piece in found.items():
        lines = [shapely.LinearRing(c[:, ::-1] + 0.5) for c in find_contours(np.pad(labels == k, 1), 0.5)]
        outlines = shapely.affinity.translate(shapely.MultiLineString(lines), -1, -1)
        assert shapely.hausdorff_distance(outlines, piece.boundary) < 1.0 + 0.5 + 0.36


def test_no_middle_of_a_crack_lies_farther_off_than_is_stated():
    labels = cells(50, 250, 250, joint=0, seed=9)
    for tolerance in (0.6, 1.0, 2.5):
        edges = shapely.union_all([piece.boundary for piece in polygons(labels, 1.0, tolerance).values()])
        cracks = cracks_of(labels)
        end = cracks.end(np.arange(len(cracks.x)))
        middles = shapely.points((cracks.x + end[0]) / 2, (cracks.y + end[1]) / 2)
        assert shapely.distance(edges, middles).max() <= tolerance + 0.5


def test_pieces_that_touch_leave_no_gap_and_do_not_overlap():
    labels = cells(80, 300, 300, joint=0, seed=3)
    found = list(polygons(labels, tolerance_mm=1.5).values())
    whole = shapely.union_all(found)
    assert whole.area == pytest.approx(sum(one.area for one in found), rel=1e-9)
    assert whole.geom_type == "Polygon"
    assert not whole.interiors


def test_labels_that_lie_side_by_side_have_outlines_that_do():
    labels = cells(80, 300, 300, joint=0, seed=6)
    found = polygons(labels, tolerance_mm=1.5)
    beside = np.concatenate(
        [
            np.stack([labels[1:].ravel(), labels[:-1].ravel()]),
            np.stack([labels[:, 1:].ravel(), labels[:, :-1].ravel()]),
        ],
        axis=1,
    )
    beside = beside[:, beside[0] != beside[1]]
    pairs, cracks = np.unique(np.sort(beside, axis=0), axis=1, return_counts=True)
    assert pairs.shape[1] > 150
    for (one, other), count in zip(pairs.T.tolist(), cracks.tolist(), strict=True):
        shared = shapely.intersection(found[one].boundary, found[other].boundary).length
        assert count / 2 - 3 <= shared <= count + 1


def test_holes_and_islands_are_outlines_of_their_own():
    labels = np.zeros((60, 60), np.int32)
    labels[5:55, 5:55] = 1
    labels[15:45, 15:45] = 0
    labels[20:40, 20:40] = 2
    labels[25:35, 25:35] = 1
    rings, owner = traced(labels, mm_per_px=1.0, tolerance_mm=1.0)
    area, _ = moments(rings)
    assert owner.tolist() == [0, 0, 0, 1, 1]
    assert sorted(np.rint(area).tolist()) == [-900, -100, 100, 400, 2500]


def test_pixels_that_meet_at_a_corner_only_are_two_parts():
    labels = np.zeros((20, 20), np.int32)
    labels[2:10, 2:10] = labels[10:18, 10:18] = 1
    rings, owner = traced(labels, mm_per_px=1.0, tolerance_mm=1.0)
    assert owner.tolist() == [0, 0]
    assert label(labels, connectivity=1).max() == 2
    assert moments(rings)[0] == pytest.approx([64, 64], rel=1e-3)


def test_a_picture_of_nothing_has_no_outlines_and_one_all_of_a_piece_has_one():
    rings, owner = traced(np.zeros((5, 7), np.int32), mm_per_px=1.0, tolerance_mm=1.0)
    assert (len(rings), len(owner)) == (0, 0)
    rings, owner = traced(np.ones((50, 70), np.int32), mm_per_px=1.0, tolerance_mm=1.0)
    assert owner.tolist() == [0]
    assert moments(rings)[0] == pytest.approx([3500], rel=1e-4)


sides = st.integers(1, 9)
small_labels = hnp.arrays(np.int32, st.tuples(sides, sides), elements=st.integers(0, 3))


@settings(max_examples=200, deadline=None)
@given(small_labels)
def test_before_anything_is_simplified_the_cracks_enclose_exactly_the_pixels(labels):
    cracks = cracks_of(labels)
    ends = cracks.end(np.arange(len(cracks.x)))
    for k in range(1, 4):
        sign = (cracks.right == k).astype(int) - (cracks.left == k)
        assert (sign * (cracks.x * ends[1] - ends[0] * cracks.y)).sum() == 2 * (labels == k).sum()


@settings(max_examples=200, deadline=None)
@given(small_labels)
def test_each_crack_is_in_one_border_between_the_same_two_labels(labels):
    cracks = cracks_of(labels)
    strings = borders(cracks)
    assert sorted(strings.order.tolist()) == list(range(len(cracks.key)))
    pair = cracks.left.astype(int) * 10 + cracks.right
    first = pair[strings.order[strings.start[:-1]]]
    assert (pair[strings.order] == first[strings.string_of_place()]).all()


@settings(max_examples=300, deadline=None)
@given(small_labels)
def test_any_labels_give_outlines_that_fill_the_picture_without_overlap(labels):
    """What is labelled 1 to 4, nothing left out, is covered once; areas as the pixels where corners allow."""
    labels = labels + 1
    found = polygons(labels, tolerance_mm=0.0)
    total = sum(one.area for one in found.values())
    assert shapely.union_all(list(found.values())).area == pytest.approx(total, rel=1e-9)
    assert found.keys() == set(np.unique(labels).tolist())
    for k, one in found.items():
        assert one.area == pytest.approx((labels == k).sum(), abs=0.13 * 4 * (labels == k).sum())


@settings(max_examples=200, deadline=None)
@given(small_labels, st.sampled_from([0.6, 1.0, 3.0]))
def test_any_labels_with_joints_give_sound_outlines_of_every_label(labels, tolerance):
    found = polygons(labels, tolerance_mm=tolerance)
    assert found.keys() == set(np.unique(labels[labels > 0]).tolist())
    assert all(one.area > 0 for one in found.values())


@settings(max_examples=200, deadline=None)
@given(st.permutations(range(30)), st.lists(st.booleans(), min_size=30, max_size=30))
def test_things_strung_are_each_followed_by_what_follows_them(after, cut):
    after = np.where(cut, -1, after)
    found = strung(after)
    seen = []
    for a, b, closed in zip(found.start[:-1], found.start[1:], found.closed, strict=True):
        one = found.order[a:b].tolist()
        seen += one
        assert after[one].tolist() == [*one[1:], one[0] if closed else -1]
    assert sorted(seen) == list(range(30))


def test_simplifying_agrees_with_shapely_on_open_paths():
    """Shapely's simplify (GEOS) is Douglas–Peucker as well: the same points stay."""
    rng = np.random.default_rng(8)
    lines = [np.cumsum(rng.normal(size=(n, 2)), axis=0) for n in (2, 3, 40, 500)]
    start = np.concatenate([[0], np.cumsum([len(one) for one in lines])])
    paths = simplify.Paths(np.concatenate(lines), start, np.zeros(4, bool))
    kept = simplify.kept_points(paths, np.arange(4), np.full(4, 1.3))
    theirs = [shapely.LineString(one).simplify(1.3, preserve_topology=False).coords for one in lines]
    np.testing.assert_array_equal(paths.points[kept], np.concatenate([np.array(one) for one in theirs]))


def test_borders_within_a_group_are_drawn_as_straight_as_they_are_allowed_to():
    """Three wavy stripes: the border within the group becomes a line, the one to the other group keeps on."""
    y, x = np.mgrid[0:60, 0:90]
    wave = np.rint(3 * np.sin(x / 7)).astype(int)
    stripes = (1 + (y > 20 + wave) + (y > 40 + wave)).astype(np.int32)
    group = np.array([0, 1, 1, 2])
    rings, owner = traced(stripes, mm_per_px=1.0, tolerance_mm=0.5, group=group, within_mm=8.0)
    corners = np.diff(rings.start)
    assert corners[owner == 0][0] == 4
    assert corners[owner == 2][0] > 8

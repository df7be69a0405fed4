"""What lies where on the picture, against shapely: triangles, picking, outlines, hatching, and the view."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.screens.picture.glass import glass_meshes
from bench.screens.picture.hatching import diagonals_mm
from bench.screens.picture.looks import LOOKS, NO_SIDE, hues, side_of
from bench.screens.picture.outlines import outlines, smooth
from bench.screens.picture.picking import Picker
from bench.screens.picture.raster import NOTHING, tessera_map
from bench.screens.picture.strokes import MOST_VERTICES, merged, ribbon, segments
from bench.screens.picture.triangles import tesselate, triangulate
from bench.screens.picture.view import View
from tests.fakes.panels import blocks, courses, panel_of

SQUARE = np.array([[0, 0], [10, 0], [10, 10], [0, 10.0]])
HOLE = np.array([[3, 3], [7, 3], [7, 7], [3, 7.0]])
ARROW = np.array([[0, 0], [10, 0], [5, 3], [0, 10.0]])
COMB = np.array(
    [[0, 0], [9, 0], [9, 9], [7, 9], [7, 2], [5, 2], [5, 9], [3, 9], [3, 2], [1, 2], [1, 9], [0, 9.0]]
)
BOW = np.array([[0, 0], [4, 4], [4, 0], [0, 4.0]])
LINE = np.array([[0, 0], [5, 5], [9, 9.0]])


def covered(points: np.ndarray, corner: np.ndarray) -> shapely.Geometry:
    triangles = [shapely.Polygon(points[k]) for k in corner]
    assert sum(t.area for t in triangles) == pytest.approx(shapely.union_all(triangles).area, abs=1e-6)
    return shapely.union_all(triangles)


def star(angles: int, seed: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    turn = np.sort(rng.uniform(0, 2 * np.pi, angles))
    return 10 + np.column_stack([np.cos(turn), np.sin(turn)]) * rng.uniform(2, 9, angles)[:, None]


@pytest.mark.parametrize("turned", [False, True], ids=["one way", "the other way"])
@pytest.mark.parametrize("ring", [SQUARE, ARROW, COMB], ids=["convex", "seen from one corner", "comb"])
def test_triangles_cover_the_shape_and_nothing_twice(ring: np.ndarray, turned: bool) -> None:
    panel = panel_of([[ring[::-1] if turned else ring]], width_mm=10, height_mm=10)
    cut = triangulate(panel)
    assert shapely.Polygon(ring).symmetric_difference(covered(cut.points_mm, cut.corner)).area < 1e-6


def test_a_hole_stays_open() -> None:
    cut = triangulate(panel_of([[SQUARE, HOLE]], width_mm=10, height_mm=10))
    expected = shapely.Polygon(SQUARE, [HOLE])
    assert expected.symmetric_difference(covered(cut.points_mm, cut.corner)).area < 1e-6


def test_a_crossed_outline_is_filled_by_the_even_odd_rule() -> None:
    cut = triangulate(panel_of([[BOW]], width_mm=10, height_mm=10))
    assert covered(cut.points_mm, cut.corner).area == pytest.approx(8.0)


def test_a_shape_without_area_has_no_triangles_and_spoils_no_other() -> None:
    cut = triangulate(panel_of([[LINE], [SQUARE], [LINE[:2]]], width_mm=10, height_mm=10))
    assert np.diff(cut.first).tolist() == [0, 2, 0]


@given(angles=st.integers(3, 40), seed=st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_any_star_shaped_piece_is_covered_whole(angles: int, seed: int) -> None:
    ring = star(angles, seed)
    expected = shapely.Polygon(ring)
    if not expected.is_valid:  # all corners on one side: the star's heart is outside
        return
    cut = triangulate(panel_of([[ring]], width_mm=20, height_mm=20))
    area = sum(shapely.Polygon(cut.points_mm[k]).area for k in cut.corner)
    assert area == pytest.approx(expected.area, rel=1e-5)


def test_the_tesselator_alone_gives_the_same_area_as_the_fans() -> None:
    fan = triangulate(panel_of([[ARROW]], width_mm=10, height_mm=10))
    alone = covered(*tesselate([ARROW]))
    assert covered(fan.points_mm, fan.corner).area == pytest.approx(alone.area)


def test_meshes_stay_within_sixteen_bits_and_keep_every_triangle_and_colour() -> None:
    panel = courses(220, 150)
    cut = triangulate(panel)
    meshes = list(glass_meshes(panel, cut))
    assert len(meshes) > 1
    assert max(max(len(v), len(i)) for v, i in meshes) < 65_536
    assert sum(len(i) for _, i in meshes) == 3 * len(cut.corner)
    shown = np.vstack([v[:, 2:] for v, _ in meshes])
    assert np.array_equal(np.rint(shown * 255).astype(int), np.repeat(panel.colour, 4, axis=0))


def test_a_piece_is_picked_as_shapely_says() -> None:
    panel = courses(30, 20, seed=4)
    shapes = [shapely.Polygon(panel.rings_mm(k)[0]) for k in range(panel.tessera_count)]
    tree, picker = shapely.STRtree(shapes), Picker(panel)
    for x, y in np.random.default_rng(7).uniform(
        [-5, -5], [panel.width_mm + 5, panel.height_mm + 5], (400, 2)
    ):
        inside = tree.query(shapely.Point(x, y), predicate="within").tolist()
        assert ([] if picker.pick(x, y) is None else [picker.pick(x, y)]) == inside


def test_with_slack_the_nearest_piece_is_picked_as_shapely_says() -> None:
    panel = courses(12, 9, joint_mm=3.0, seed=5)
    shapes = [shapely.Polygon(panel.rings_mm(k)[0]) for k in range(panel.tessera_count)]
    picker = Picker(panel)
    for x, y in np.random.default_rng(8).uniform(
        [-4, -4], [panel.width_mm + 4, panel.height_mm + 4], (300, 2)
    ):
        distance = shapely.distance(shapes, shapely.Point(x, y))
        picked = picker.pick(x, y, slack_mm=2.0)
        if distance.min() > 2.0:
            assert picked is None
        else:
            assert distance[picked] == pytest.approx(distance.min(), abs=1e-9)


def test_in_a_hole_nothing_is_picked_without_slack() -> None:
    picker = Picker(panel_of([[SQUARE, HOLE]], width_mm=10, height_mm=10))
    assert picker.pick(5, 5) is None
    assert picker.pick(1, 1) == 0
    assert picker.pick(5, 5, slack_mm=2.5) == 0


def test_the_map_gives_joints_to_the_pieces_beside_them_and_holes_to_nobody() -> None:
    panel = courses(10, 8)
    at = tessera_map(panel).at
    assert (at[2:-2, 2:-2] != NOTHING).all()
    assert set(np.unique(at)) == {NOTHING, *range(panel.tessera_count)}
    ring = tessera_map(panel_of([[SQUARE, HOLE]], width_mm=10, height_mm=10))
    assert ring.at[ring.at.shape[0] // 2, ring.at.shape[1] // 2] == NOTHING


def test_outlines_run_between_the_sections_within_the_joint() -> None:
    """Every outline point between two sections lies nearer to a joint's middle than half a small piece."""
    panel = courses(24, 16)
    number = blocks(panel, 3, 2)
    tesserae = tessera_map(panel)
    label = np.where(tesserae.at == NOTHING, -1, number[np.maximum(tesserae.at, 0)])
    pieces = [shapely.Polygon(panel.rings_mm(k)[0]) for k in range(panel.tessera_count)]
    unions = {
        k: shapely.union_all([p for p, n in zip(pieces, number, strict=True) if n == k]) for k in range(1, 7)
    }
    inner = [line for line in outlines(label) if min(line.left, line.right) > 0]
    beside = {(1, 2), (2, 3), (4, 5), (5, 6), (1, 4), (2, 5), (3, 6)}
    at_a_corner = {(1, 5), (2, 4), (2, 6), (3, 5)}
    assert beside <= {(line.left, line.right) for line in inner} <= beside | at_a_corner
    for line in inner:
        for point in shapely.points(tesserae.to_mm(line.points)):
            assert max(unions[line.left].distance(point), unions[line.right].distance(point)) < 1.6


def test_left_and_right_of_an_outline_are_where_they_are_said_to_be() -> None:
    label = np.full((12, 12), -1)
    label[3:9, 3:9] = 5
    (line,) = outlines(label)
    assert (line.left, line.right, line.closed) == (-1, 5, True)
    x, y = line.points[:, 1], line.points[:, 0]
    turn = float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))
    assert turn > 0  # with y down: clockwise to the eye, so the inside is on the right


def test_a_map_of_one_section_has_no_outline() -> None:
    assert outlines(np.full((5, 7), 3)) == []


@given(st.integers(0, 2**32 - 1))
@settings(max_examples=40, deadline=None)
def test_every_stretch_between_unlike_squares_is_on_one_outline(seed: int) -> None:
    """An outline is as long as there are unlike neighbours, and smoothing never lengthens it."""
    label = np.random.default_rng(seed).integers(-1, 3, (6, 8))
    edges = (label[1:] != label[:-1]).sum() + (label[:, 1:] != label[:, :-1]).sum()
    length = 0.0
    for line in outlines(label):
        ring = np.vstack([line.points, line.points[:1]]) if line.closed else line.points
        length += np.hypot(*np.diff(ring, axis=0).T).sum()
    assert length <= edges + 1e-9
    assert (length > 0) == (edges > 0)


@given(st.lists(st.tuples(st.floats(0, 50), st.floats(0, 50)), min_size=4, max_size=30), st.booleans())
@settings(max_examples=60)
def test_smoothing_keeps_open_ends_and_strays_no_further_than_the_line(points, closed) -> None:
    line = np.array(points)
    eased = smooth(line, closed)
    assert 3 <= len(eased) <= len(line)
    assert (eased >= line.min(axis=0) - 1e-9).all()
    assert (eased <= line.max(axis=0) + 1e-9).all()
    if not closed:
        assert np.allclose(eased[[0, -1]], line[[0, -1]])


@pytest.mark.parametrize("falling", [True, False])
def test_hatching_lies_on_the_hatched_section_only(falling: bool) -> None:
    panel = courses(20, 14)
    number = blocks(panel, 4, 2)
    chosen = number == 6
    ends = diagonals_mm(tessera_map(panel), chosen, 6.0, falling=falling)
    pieces = [shapely.Polygon(panel.rings_mm(k)[0]).buffer(1.3) for k in np.flatnonzero(chosen)]
    section = shapely.union_all(pieces)
    strokes = [shapely.LineString(e.reshape(2, 2)) for e in ends]
    assert len(strokes) > 5
    assert all(section.covers(stroke) for stroke in strokes)
    slopes = (ends[:, 3] - ends[:, 1]) / (ends[:, 2] - ends[:, 0])
    assert np.allclose(slopes, 1.0 if falling else -1.0, atol=1e-6)


def test_nothing_chosen_is_not_hatched() -> None:
    panel = courses(6, 4)
    nothing = np.zeros(panel.tessera_count, bool)
    assert len(diagonals_mm(tessera_map(panel), nothing, 6.0, falling=True)) == 0


def test_a_ribbon_reaches_as_far_as_its_sides_say_and_to_the_right_hand() -> None:
    vertices, _ = ribbon(np.array([[0, 0], [10, 0.0]]), side_of("dry", 0, False), NO_SIDE, closed=False)
    assert vertices[:2, 3].tolist() == [-7.0, -7.0]  # left of a line to the right is up: y is negative
    assert vertices[2:, 3].tolist() == [1.0, 1.0]


def test_a_line_of_one_point_is_not_drawn() -> None:
    vertices, indices = ribbon(np.zeros((1, 2)), NO_SIDE, NO_SIDE, closed=True)
    assert (len(vertices), len(indices)) == (0, 0)


def test_meshes_are_merged_in_order_within_sixteen_bits() -> None:
    strokes = [segments(np.full((1000, 4), float(k)), NO_SIDE) for k in range(40)]
    whole = merged(strokes)
    assert len(whole) > 1
    assert max(max(len(v), len(i)) for v, i in whole) <= MOST_VERTICES
    assert np.concatenate([v[i, 0] for v, i in whole]).tolist() == np.repeat(np.arange(40.0), 6000).tolist()


def test_neighbouring_sections_have_different_colours() -> None:
    pairs = [(0, 1), (1, 2), (0, 2), (2, 3), (3, 0)]
    chosen = hues(pairs, 4)
    assert all(chosen[a] != chosen[b] for a, b in pairs)


def test_no_two_stages_look_alike_without_colour() -> None:
    looks = [(look.band_dp, look.dash_dp, look.hatch_mm, look.crossed) for look in LOOKS.values()]
    assert len(set(looks)) == len(LOOKS) == 6


VIEW = View(1280, 800, 360, 270).fitted()


@given(st.floats(0, 1280), st.floats(0, 800), st.floats(0.2, 8), st.floats(-300, 300), st.floats(-300, 300))
@settings(max_examples=100)
def test_a_place_on_the_widget_and_on_the_panel_are_one(x, y, factor, dx, dy) -> None:
    view = VIEW.zoomed(factor).moved(dx, dy)
    assert view.to_px(*view.to_mm(x, y)) == pytest.approx((x, y), abs=1e-6)


@given(st.floats(300, 900), st.floats(200, 600), st.floats(1.0, 6))
@settings(max_examples=50)
def test_zooming_in_keeps_the_place_under_the_finger(x, y, factor) -> None:
    before = VIEW.to_mm(x, y)
    if 0 <= before[0] <= 360 and 0 <= before[1] <= 270:
        assert VIEW.zoomed(factor, (x, y)).to_mm(x, y) == pytest.approx(before, abs=1e-6)


def test_a_fitted_box_is_all_on_screen_and_as_large_as_it_goes() -> None:
    view = VIEW.fitted((10, 20, 60, 40))
    left, top = view.to_px(10, 20)
    right, bottom = view.to_px(60, 40)
    assert left >= 0
    assert right <= 1280
    assert 0 <= bottom <= top <= 800
    assert (right - left) / 1280 == pytest.approx(0.96)


def test_the_panel_can_neither_be_lost_nor_shrunk_away() -> None:
    assert (VIEW.moved(1e6, -1e6).x_mm, VIEW.moved(1e6, -1e6).y_mm) == (0.0, 0.0)
    assert VIEW.zoomed(1e-6).px_per_mm >= 0.5 * 800 / 270 - 1e-9
    assert VIEW.zoomed(1e9).px_per_mm == 60.0

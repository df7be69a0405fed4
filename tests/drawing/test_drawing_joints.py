"""Neighbours face each other with nothing between: the rule by hand, by looking, and on random panels."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.joints import joints_of
from bench.drawing.svg import read_drawing
from tests.fakes.looking import seen_lengths
from tests.fakes.shapes import path_data, polygons_of, read, square, svg_of, voronoi


def joints(body: str) -> list[tuple[int, int, float, float]]:
    """Return (one, other, length, gap) of each joint."""
    found = read(body).joints
    numbers = zip(found.pair.tolist(), found.length_mm, found.gap_mm, strict=True)
    return [(*pair, round(float(length), 6), round(float(gap), 6)) for pair, length, gap in numbers]


@pytest.mark.parametrize(
    ("x", "y", "expected"),
    [
        (5, 0, [(0, 1, 5, 0)]),  # outlines that coincide
        (5.8, 0, [(0, 1, 5, 0.8)]),
        (7, 0, [(0, 1, 5, 2)]),  # across at most 2 mm
        (7.01, 0, []),
        (5.8, 3, [(0, 1, 2, 0.8)]),
        (5.8, 4, [(0, 1, 1, 0.8)]),  # along at least 1 mm
        (5.8, 4.01, []),
        (5, 5, []),  # a corner touch is none
        (5.5, 5.5, []),
        (4.8, 0, [(0, 1, 5, 0)]),  # they overlap by 0.2 mm
    ],
)
def test_small_squares_are_neighbours_across_2_mm_and_along_1_mm(x, y, expected):
    assert joints(square(0, 0, 5) + square(x, y, 5)) == expected


@pytest.mark.parametrize(
    ("one", "other", "gap", "neighbours"),
    [
        (10, 10, 3.0, True),
        (10, 10, 3.01, False),
        (20, 10, 3.0, True),
        (20, 10, 3.01, False),
        (20, 20, 6, True),
        (20, 4, 2.01, False),
    ],
)
def test_larger_ones_across_three_tenths_of_the_smaller(one, other, gap, neighbours):
    """The piece is the square root of the smaller area: 0.3 × 10 mm is 3 mm."""
    assert bool(joints(square(0, 0, one) + square(one + gap, 0, other))) == neighbours


def test_a_piece_between_two_hides_them_from_each_other():
    between = '<rect x="10.5" y="0" width="1" height="10"/>'
    assert [j[:2] for j in joints(square(0, 0) + square(12, 0) + between)] == [(0, 2), (1, 2)]


def test_a_piece_that_hides_part_leaves_the_rest_of_the_joint():
    between = '<rect x="10.5" y="0" width="1" height="6"/>'
    found = {j[:2]: j[2] for j in joints(square(0, 0) + square(12, 0) + between)}
    assert found == {(0, 1): 4, (0, 2): 6, (1, 2): 6}


def test_a_piece_does_not_see_others_through_itself():
    """A comb: what stands in its bay is seen by the bay's walls, not by the outer sides."""
    comb = '<path d="M0 0h30v10h-10v-8h-10v8h-10z"/>'
    inside, below = '<rect x="11" y="3" width="8" height="6"/>', '<rect x="11" y="10" width="8" height="5"/>'
    found = {j[:2]: j[2] for j in joints(comb + inside + below)}
    assert found == {(0, 1): 6 + 8 + 6, (1, 2): 8}


def test_a_piece_in_a_hole_has_a_joint_all_round():
    ring = '<path d="M20 20h30v30h-30z M25 25v20h20v-20z"/>'
    assert joints(ring + square(26, 26, 18)) == [(0, 1, 72, 1)]


def test_round_pieces_side_by_side_are_neighbours_and_those_across_a_corner_are_not():
    circles = "".join(f'<circle cx="{20 + x}" cy="{20 + y}" r="4.6"/>' for x in (0, 10) for y in (0, 10))
    assert [j[:2] for j in joints(circles)] == [(0, 1), (0, 2), (1, 3), (2, 3)]


def test_courses_laid_half_a_piece_apart_have_six_neighbours_inside():
    """The running bond of a wall: two beside, two above, two below."""
    body = "".join(square(7 * x + 3.5 * (y % 2), 7 * y, 6) for y in range(6) for x in range(6))
    found = read(body).joints
    count = np.bincount(found.pair.ravel(), minlength=36).reshape(6, 6)
    assert count[1:-1, 1:-1].tolist() == [[6] * 4] * 4


def test_squares_in_a_grid_have_four_neighbours_inside_and_libpysals_count_in_all():
    """A lattice of 10 × 10 has 180 rook pairs (libpysal's lattice10x10)."""
    panel = read("".join(square(9 * x, 9 * y, 8) for y in range(10) for x in range(10)))
    assert len(panel.joints.pair) == 180
    assert set(np.round(panel.joints.length_mm, 6)) == {8.0}


def test_pairs_come_once_sorted_and_the_smaller_first():
    found = read_drawing(svg_of(voronoi(150, seed=5), 100, 80), "a").joints
    pairs = list(map(tuple, found.pair.tolist()))
    assert pairs == sorted(set(pairs))
    assert all(one < other for one, other in pairs)
    assert len(pairs) == len(found.length_mm) == len(found.gap_mm) > 300


def test_one_piece_alone_and_none_at_all_have_no_joints():
    assert joints(square(0, 0)) == []
    none = joints_of(np.empty((0, 2)), np.zeros(1, np.int32), np.zeros(1, np.int32), np.empty(0))
    assert none.pair.shape == (0, 2)


def test_outlines_may_run_either_way():
    points = np.array([[0, 0], [5, 0], [5, 5], [0, 5], [6, 0], [6, 5], [11, 5], [11, 0]], float)
    found = joints_of(
        points, np.array([0, 4, 8], np.int32), np.array([0, 1, 2], np.int32), np.array([25.0, 25.0])
    )
    assert (found.pair.tolist(), found.length_mm.tolist(), found.gap_mm.tolist()) == ([[0, 1]], [5], [1])


def check_by_looking(pieces, panel, *, slack_mm: float):
    """See that joints are those that rays see, save lengths within `slack_mm` of 1 mm."""
    looked = seen_lengths(pieces)
    found = dict(zip(map(tuple, panel.joints.pair.tolist()), panel.joints.length_mm, strict=True))
    assert {pair for pair, length in looked.items() if length > 1 + slack_mm} <= set(found)
    assert set(found) <= {pair for pair, length in looked.items() if length > 1 - slack_mm}
    assert found == pytest.approx({pair: looked[pair] for pair in found}, abs=slack_mm)


@settings(max_examples=5, deadline=None)
@given(seed=st.integers(0, 10_000), gap=st.sampled_from([0.3, 0.8, 1.6]))
def test_joints_of_random_voronoi_panels_are_those_that_rays_see(seed, gap):
    panel = read_drawing(svg_of(voronoi(25, width_mm=48, height_mm=40, seed=seed, gap_mm=gap), 48, 40), "a")
    check_by_looking(polygons_of(panel), panel, slack_mm=0.25)


def test_joints_of_concave_pieces_and_holes_are_those_that_rays_see():
    rng = np.random.default_rng(4)
    cells = voronoi(60, width_mm=90, height_mm=70, seed=8, gap_mm=1.0)
    spots = [shapely.Point(*rng.random(2) * (90, 70)).buffer(4) for _ in range(8)]
    bays = shapely.union_all([spot.buffer(1) for spot in spots])
    pieces = [part for cell in cells for part in shapely.get_parts(cell - bays) if part.area > 2]
    pieces += [spot for spot in shapely.get_parts(shapely.union_all(spots)) if spot.area > 2]
    assert any(piece.convex_hull.area > piece.area * 1.1 for piece in pieces)
    panel = read_drawing(svg_of(pieces, 90, 70), "a")
    check_by_looking(polygons_of(panel), panel, slack_mm=0.5)


def test_the_length_of_a_joint_without_width_is_the_length_of_the_border():
    """In a tessellation every border of 1 mm or more is a joint, and there are no others."""
    cells = voronoi(150, seed=12, gap_mm=0)
    panel = read_drawing(svg_of(cells, 100, 80, digits=9), "a")
    tree = shapely.STRtree(cells)
    touching = [(a, b) for a, b in tree.query(cells, predicate="intersects").T.tolist() if a < b]
    border = {(a, b): cells[a].intersection(cells[b]).length for a, b in touching}
    found = dict(zip(map(tuple, panel.joints.pair.tolist()), panel.joints.length_mm, strict=True))
    assert set(found) == {pair for pair, length in border.items() if length >= 1}
    assert found == pytest.approx({pair: border[pair] for pair in found}, abs=1e-5)
    assert panel.joints.gap_mm.max() < 1e-6


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10_000), st.floats(0, 360), st.floats(-30, 30))
def test_joints_do_not_change_when_the_panel_is_turned_and_moved(seed, angle, shift):
    cells = voronoi(30, width_mm=50, height_mm=40, seed=seed)
    body = "".join(f'<path d="{path_data(cell)}"/>' for cell in cells)
    still = read(f'<g transform="translate(25 30)">{body}</g>').joints
    moved = read(
        f'<g transform="translate({shift} 9) rotate({angle} 50 50) translate(25 30)">{body}</g>'
    ).joints
    both = set(map(tuple, still.pair.tolist())) & set(map(tuple, moved.pair.tolist()))
    lengths = [dict(zip(map(tuple, j.pair.tolist()), j.length_mm, strict=True)) for j in (still, moved)]
    short = [length for one in lengths for pair, length in one.items() if pair not in both]
    assert short == pytest.approx([1.0] * len(short), abs=1e-4)
    assert {p: lengths[0][p] for p in both} == pytest.approx({p: lengths[1][p] for p in both}, abs=1e-6)

"""Outlines drawn in: the same as shapely's own offset where it draws corners out to a point."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from bench.drawing.inset import inset
from bench.drawing.rings import Rings, nest


def one(*outlines) -> tuple[Rings, np.ndarray]:
    rings = [np.asarray(o, float) for o in outlines]
    start = np.concatenate([[0], np.cumsum([len(r) for r in rings])])
    owner = np.zeros(len(rings), np.int64)
    nested, _ = nest(Rings(np.concatenate(rings), start), owner)
    return nested, owner


def polygon(rings: Rings) -> Polygon:
    parts = [rings.points_mm[a:b] for a, b in zip(rings.start[:-1], rings.start[1:], strict=True)]
    return Polygon(parts[0], parts[1:])


SQUARE = [(0, 0), (10, 0), (10, 6), (0, 6)]
ELL = [(0, 0), (12, 0), (12, 4), (5, 4), (5, 11), (0, 11)]
CUT_CORNER = [(0, 0), (10, 0), (10, 5.7), (9.7, 6), (0, 6)]


@pytest.mark.parametrize("outline", [SQUARE, ELL, CUT_CORNER, SQUARE[::-1]])
@pytest.mark.parametrize("by_mm", [0.3, 1.1])
def test_it_is_shapelys_mitred_offset(outline, by_mm):
    """shapely (GEOS) buffer with join_style=mitre."""
    rings, owner = one(outline)
    found, _ = inset(rings, owner, by_mm)
    expected = Polygon(outline).buffer(-by_mm, join_style="mitre", mitre_limit=50)
    assert polygon(found).symmetric_difference(expected).area < 1e-6


def test_a_hole_grows_by_as_much_as_its_piece_shrinks():
    rings, owner = one([(0, 0), (20, 0), (20, 20), (0, 20)], [(8, 8), (12, 8), (12, 12), (8, 12)])
    found, _ = inset(rings, owner, 1.0)
    assert polygon(found).area == pytest.approx(18 * 18 - 6 * 6)


def test_what_is_narrower_than_the_joint_is_gone_and_its_hole_with_it():
    rings, owner = one([(0, 0), (30, 0), (30, 1), (0, 1)], [(4, 0.4), (6, 0.4), (6, 0.6), (4, 0.6)])
    found, owner = inset(rings, owner, 0.6)
    assert len(found) == 0
    assert len(owner) == 0


def test_no_joint_leaves_everything_as_it_is():
    rings, owner = one(ELL)
    found, _ = inset(rings, owner, 0.0)
    np.testing.assert_array_equal(found.points_mm, rings.points_mm)


@settings(max_examples=150, deadline=None)
@given(
    spokes=st.lists(st.floats(2.0, 9.0), min_size=3, max_size=14),
    by_mm=st.floats(0.05, 1.5),
)
def test_any_star_of_a_piece_stays_within_itself_without_crossing(spokes, by_mm):
    turn = np.linspace(0, 2 * np.pi, len(spokes), endpoint=False)
    outline = np.stack([np.cos(turn), np.sin(turn)], axis=1) * np.array(spokes)[:, None]
    rings, owner = one(outline)
    found, _ = inset(rings, owner, by_mm)
    if not len(found):
        assert Polygon(outline).buffer(-by_mm).area < 0.35 * Polygon(outline).area
        return
    drawn = polygon(found)
    assert shapely.is_valid(drawn)
    assert drawn.difference(Polygon(outline).buffer(1e-6)).area < 1e-6
    assert drawn.area < Polygon(outline).area

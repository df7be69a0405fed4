"""Rows, cuts and joints of the demo's laying hold what they promise on forms of known size."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Point, Polygon, box

from tests.tools import lay, nip


def test_rings_cover_a_form_once_from_the_contour_to_the_core() -> None:
    disc = Point(0, 0).buffer(20, 64)
    rows = list(lay.rings(disc, row_mm=5.0, length_mm=6.0))
    assert sum(row.strip.area for row in rows) == pytest.approx(disc.area, rel=1e-6)
    assert shapely.union_all([row.strip for row in rows]).symmetric_difference(disc).area < 1e-6
    assert rows[0].strip.distance(Point(20, 0)) < 0.1
    assert rows[-1].strip.contains(Point(0, 0))


def test_a_straight_row_is_cut_into_even_lengths_that_fill_it() -> None:
    row = lay.Row(box(0, 0, 70, 6), LineString([(-10, 3), (90, 3)]), length_mm=7.0)
    cells = lay.cut_row(row, box(-50, -50, 150, 50), np.random.default_rng(3))
    assert len(cells) == 10
    assert sum(cell.area for cell in cells) == pytest.approx(420)
    assert all(4.5 < cell.area / 6 < 9.5 for cell in cells)
    assert [cell.centroid.x for cell in cells] == sorted(cell.centroid.x for cell in cells)


def test_an_outline_row_runs_round_a_form_at_its_width() -> None:
    row = lay.outline_row(box(0, 0, 40, 30), row_mm=6.0, length_mm=7.0)
    assert row.strip.area == pytest.approx(2 * 6 * (40 + 30) + np.pi * 6**2, rel=0.01)


def test_a_scrap_joins_its_neighbour_and_no_area_is_lost() -> None:
    cells = [lay.Cell(box(0, 0, 7, 7), 0), lay.Cell(box(7, 0, 8, 7), 0), lay.Cell(box(8, 0, 15, 7), 0)]
    joined = nip.join_scraps(cells)
    assert len(joined) == 2
    assert sum(cell.outline.area for cell in joined) == pytest.approx(105, rel=1e-3)
    assert not any(nip.is_scrap(cell.outline) for cell in joined)


def test_a_crooked_cell_is_cut_in_two_better_ones() -> None:
    angle = Polygon([(0, 0), (14, 0), (14, 6), (6, 6), (6, 14), (0, 14)])
    halves = nip.cut_in_two(angle)
    assert len(halves) == 2
    assert nip.worst(halves) > nip.quality(angle)
    assert sum(half.area for half in halves) == pytest.approx(angle.area)


def test_shaping_takes_half_a_joint_off_all_round() -> None:
    piece = nip.shape(box(0, 0, 8, 7), joint_mm=0.8)
    assert piece.bounds == (0.4, 0.4, 7.6, 6.6)
    assert len(piece.exterior.coords) == 5


def test_shaping_leaves_nothing_of_a_cell_too_small() -> None:
    assert nip.shape(box(0, 0, 2.5, 3), joint_mm=0.8) is None
    assert nip.shape(box(0, 0, 0.5, 9), joint_mm=0.8) is None


def test_pieces_too_close_are_nipped_apart_and_others_left_alone() -> None:
    close = [box(0, 0, 6, 6), box(6.2, 0, 13, 6), box(20, 0, 26, 6)]
    kept = nip.keep_joints(close, joint_mm=0.7, near_mm=0.6)
    assert kept[0].distance(kept[1]) == pytest.approx(0.7, abs=0.02)
    assert kept[2].equals(close[2])
    assert sum(piece.area for piece in kept) == pytest.approx(
        sum(piece.area for piece in close) - 0.5 * 6, rel=0.01
    )

"""A trial lay by what a maker would measure on it: evenness, sizes, rows, joints, contours, glass."""

import dataclasses

import numpy as np
import pytest
import shapely
from scipy.spatial import cKDTree
from shapely import STRtree
from shapely.geometry import LineString, Polygon

from bench.drawing.lay.cut import panel_of_lay
from bench.drawing.lay.laid import LayStopped, lay
from bench.drawing.study.model import Flow, Glass, Study
from bench.drawing.svg import read_drawing
from bench.drawing.svg_out import write_svg
from tests.fakes.studies import lemon_study, one_square

JOINT_MM = 0.8


def polygons(panel) -> list[Polygon]:
    return [Polygon(rings[0], rings[1:]) for rings in map(panel.rings_mm, range(panel.tessera_count))]


@pytest.fixture(scope="module")
def study():
    return lemon_study()


@pytest.fixture(scope="module")
def panel(study):
    return panel_of_lay(lay(study, joint_mm=JOINT_MM, seed=3))


def test_every_piece_is_a_true_polygon_and_none_lies_on_another(panel):
    pieces = polygons(panel)
    assert all(map(shapely.is_valid, pieces))
    one, other = STRtree(pieces).query(pieces, predicate="intersects")
    shared = [pieces[i].intersection(pieces[j]).area for i, j in zip(one, other, strict=True) if i < j]
    assert max(shared, default=0.0) < 0.01


def test_glass_is_what_the_joints_leave_of_each_region(study, panel):
    """Each piece with half a joint around it: shapely's mitred buffer is the independent measure."""
    with_joint = [p.buffer(JOINT_MM / 2, join_style="mitre", mitre_limit=2).area for p in polygons(panel)]
    for k, name in enumerate(panel.group_names):
        region = [r.name for r in study.regions].index(name)
        laid = sum(a for a, g in zip(with_joint, panel.group.tolist(), strict=True) if g == k)
        assert laid == pytest.approx(study.area_mm2()[region], rel=0.02)


def test_no_piece_lies_across_a_contour(study, panel):
    """The oval's own equation tells on which side of it a point lies."""
    mm = np.array(study.size_mm)
    lemon = panel.group_names.index("lemon")
    for k, piece in enumerate(polygons(panel)):
        at = (np.array(piece.exterior.coords) / mm - (0.5, 0.55)) / (0.3, 0.25)
        away_mm = (np.hypot(*at.T) - 1) * 0.25 * mm[1]
        inside = panel.group[k] == lemon
        assert (away_mm if inside else -away_mm).max() < 1.0


@pytest.mark.parametrize("flow", [Flow(), Flow(kind="straight", angle_deg=30), Flow(kind="loose")])
def test_pieces_are_as_large_as_asked_and_lie_evenly(flow):
    """Clark & Evans, "Distance to nearest neighbor", Ecology 35 (1954) 445: 1 by chance, 2.149 at most."""
    study = one_square(6.0, 200.0, flow)
    laid = panel_of_lay(lay(study, joint_mm=JOINT_MM, seed=1))
    assert laid.tessera_count == pytest.approx(200**2 / 6.8**2, rel=0.06)
    inner = (np.abs(laid.centroid_mm - 100) < 90).all(axis=1)
    assert np.sqrt(np.median(laid.area_mm2)) == pytest.approx(6.0, rel=0.05)
    assert laid.area_mm2[inner].std() / laid.area_mm2[inner].mean() < 0.2
    far, _ = cKDTree(laid.centroid_mm).query(laid.centroid_mm[inner], k=2)
    by_chance = 0.5 / np.sqrt(laid.tessera_count / 200**2)
    assert far[:, 1].mean() / by_chance > 1.55


@pytest.mark.parametrize("aspect", [1.0, 1.6, 0.6])
def test_pieces_are_as_long_as_asked(aspect):
    study = one_square(6.0, 160.0, Flow(kind="straight"), aspect=aspect)
    laid = panel_of_lay(lay(study, joint_mm=JOINT_MM, seed=2))
    inner = [p for p in polygons(laid) if 15 < p.centroid.x < 145 and 15 < p.centroid.y < 145]
    middles = np.array([(p.centroid.x, p.centroid.y) for p in inner])
    along, across = (
        np.median(
            [
                p.intersection(LineString([m - way, m + way])).length
                for p, m in zip(inner, middles, strict=True)
            ]
        )
        for way in ((50.0, 0.0), (0.0, 50.0))
    )
    assert along / across == pytest.approx(aspect, rel=0.08)


def test_rows_run_along_the_contour():
    """On a disc, sides lie along the circle or across it."""
    y, x = np.mgrid[0:200, 0:200] + 0.5
    labels = (np.hypot(x - 100, y - 100) < 90).astype(np.int32)
    study = dataclasses.replace(one_square(6.0, 200.0), labels=labels)
    laid = panel_of_lay(lay(study, joint_mm=JOINT_MM, seed=4))
    off = []
    for piece in polygons(laid):
        radius = np.array([piece.centroid.x - 100, piece.centroid.y - 100])
        if 60 < np.hypot(*radius) < 88:
            side = np.diff(np.array(piece.minimum_rotated_rectangle.exterior.coords)[:2], axis=0)[0]
            turn = np.degrees(np.arctan2(side[1], side[0]) - np.arctan2(radius[1], radius[0])) % 90
            off.append(min(turn, 90 - turn))
    assert len(off) > 200
    assert np.median(off) < 8  # by chance it would be 22.5


def test_the_same_seed_lays_the_same_and_another_another(study):
    one, again, other = (lay(study, seed=s) for s in (5, 5, 6))
    np.testing.assert_array_equal(one.cell, again.cell)
    assert not np.array_equal(one.cell, other.cell)


def test_glass_comes_in_the_shares_asked_for(study):
    mix = tuple(
        Glass(name=n, colour=c, share=s, finish=f)
        for n, c, s, f in (
            ("yellow", (220, 190, 40), 0.6, "opaque"),
            ("pale", (240, 230, 160), 0.37, "clear"),
            ("violet", (120, 80, 160), 0.03, "iridised"),
        )
    )
    regions = tuple(r.model_copy(update={"mix": mix}) for r in study.regions)
    mixed = dataclasses.replace(study, regions=regions)
    laid = panel_of_lay(lay(mixed, seed=1))
    for k in range(3):
        own = laid.glass[laid.group == k]
        for kind, share in enumerate((0.6, 0.37, 0.03)):
            assert abs((own == kind).sum() - share * len(own)) <= 1


def test_no_piece_lies_across_a_seam_between_boards():
    board = np.zeros((100, 100), np.int32)
    board[:, 60:] = 1
    study = dataclasses.replace(one_square(7.0, 150.0), board=board, board_names=("left", "right"))
    laid = panel_of_lay(lay(study))
    for piece, name in zip(polygons(laid), laid.board, strict=True):
        low, _, high, _ = piece.bounds
        assert high < 90.4 if name == "left" else low > 89.6


RING = np.hypot(*(np.mgrid[0:120, 0:120] - 59.5))
ELL = np.ones((120, 120), bool)
ELL[:70, 50:] = False


@pytest.mark.parametrize("mask", [(RING < 58) & (RING > 25), ELL], ids=["ring", "ell"])
def test_a_panel_of_any_outline_is_laid_within_it(mask):
    study = dataclasses.replace(one_square(6.0, 180.0), labels=mask.astype(np.int32))
    laid = panel_of_lay(lay(study))
    assert laid.outline_area_mm2 == pytest.approx(mask.sum() * 1.5**2, rel=0.01)
    outer, *holes = sorted(map(Polygon, laid.outline_mm), key=lambda p: -p.area)
    outline = shapely.difference(outer, shapely.unary_union(holes))
    for piece in polygons(laid):
        assert piece.difference(outline.buffer(1.0)).area < 0.01


def test_it_reads_back_the_same_from_its_svg(panel):
    again = read_drawing(write_svg(panel), "again.svg")
    assert again.tessera_count == panel.tessera_count
    np.testing.assert_allclose(again.area_mm2, panel.area_mm2, atol=0.01)
    np.testing.assert_array_equal(again.colour, panel.colour)
    assert again.group_names == panel.group_names


def test_it_says_how_far_it_is_and_stops_when_told_to(study):
    told = []

    def stop_half_way(share: float) -> bool:
        told.append(share)
        return share < 0.5

    with pytest.raises(LayStopped):
        lay(study, progress=stop_half_way)
    assert told == sorted(told)
    assert 0.5 <= told[-1] <= 1


def test_scraps_narrower_than_the_joint_are_counted_as_left_out():
    labels = np.ones((200, 200), np.int32)
    labels[100:103] = 2  # 0.6 mm wide
    study = Study(labels, (40.0, 40.0), (one_square(3.0, 40.0).regions[0], one_square(3.0, 40.0).regions[0]))
    laid = panel_of_lay(lay(study, joint_mm=0.8))
    assert sum(x.count for x in laid.left_out) + laid.tessera_count == lay(study, joint_mm=0.8).piece_count
    assert laid.left_out


def test_pieces_can_be_cut(panel):
    """Hollow sides cannot be scored and snapped (common practice, no source): most are their hull."""
    pieces = polygons(panel)
    filled = np.array([p.area / p.convex_hull.area for p in pieces])
    assert np.mean(filled > 0.9) > 0.93
    assert np.median([len(p.exterior.coords) - 1 for p in pieces]) <= 6

"""Joints, grout and weight: against shapely, and grids whose joints are known in closed form."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from bench.drawing.svg import read_drawing
from bench.finish.faults import AmountOutOfRange
from bench.finish.grout import grout_for
from bench.finish.joints import joint_depth_mm
from bench.finish.weight import glass_mass_g, weight_of
from bench.finish.zones import group_zones, joint_grid, zone_joints_mm2
from tests.fakes.drawings import grid_svg
from tests.fakes.shapes import page, polygons_of, square, svg_of, voronoi


def joints_mm2(panel, zone, zones):
    return zone_joints_mm2(panel, joint_grid(panel), zone, zones)


def grid(columns, rows, *, piece_mm, joint_mm):
    svg = grid_svg(columns, rows, pitch_mm=piece_mm + joint_mm, joint_mm=joint_mm)
    return read_drawing(svg, "grid.svg")


@pytest.mark.parametrize(
    ("piece_mm", "joint_mm", "rule", "exact"),
    [(10, 2, 0.400, 0.306), (6, 0.8, 0.267, 0.221), (20, 2, 0.200, 0.174), (100, 3, 0.060, 0.057)],
)
def test_the_rule_of_thumb_says_too_much_for_small_pieces_and_the_true_joints_do_not(
    piece_mm, joint_mm, rule, exact
):
    """Of a square metre of ground: (L + W)/(L·W)·w by the rule, 1 − L·W/((L + w)(W + w)) in truth.

    The rule counts every crossing twice and forgets that joints take room: 31 % too much at 10 mm and 2 mm.
    """
    panel = grid(6, 5, piece_mm=piece_mm, joint_mm=joint_mm)
    by_rule = 2 * piece_mm / piece_mm**2 * joint_mm
    in_truth = 1 - piece_mm**2 / (piece_mm + joint_mm) ** 2
    assert by_rule == pytest.approx(rule, abs=5e-4)
    assert in_truth == pytest.approx(exact, abs=5e-4)
    assert panel.joint_area_mm2 / panel.outline_area_mm2 == pytest.approx(in_truth, rel=1e-4)
    assert by_rule > panel.joint_area_mm2 / panel.outline_area_mm2


def test_grout_of_a_grid_worked_by_hand():
    """100 × 100 mm, 64 pieces of 11.5 mm, joints of 1 mm: 10 000 − 64 · 132.25 = 1536 mm²;
    2 mm deep 3.072 cm³; at 1.6 g/cm³ 4.9152 g, with a tenth of waste 5.40672 g; water 0.31 of it."""
    grout = grout_for(grid(8, 8, piece_mm=11.5, joint_mm=1).joint_area_mm2, 2.0)
    assert grout.joint_area_mm2 == pytest.approx(1536, abs=0.01)
    assert grout.joint_volume_cm3 == pytest.approx(3.072, abs=1e-4)
    assert grout.powder_g == pytest.approx(5.40672, abs=1e-3)
    assert grout.water_g == pytest.approx(1.67608, abs=1e-3)
    assert grout.stays_g == pytest.approx(4.9152 * 1.31, abs=1e-3)


def test_the_dry_mass_of_a_square_metre_is_that_of_the_usual_tables_where_pieces_are_large():
    """kg/m² = (L + W)/(L·W)·w·d·ρ: 100 × 100 × 3 × 8 mm at 1.6 kg/l gives 0.768; in truth 4 % less."""
    exact_mm2 = 1e6 * (1 - 100**2 / 103**2)
    powder_kg = grout_for(exact_mm2, 8.0, waste=0.0).powder_g / 1000
    assert 0.768 * 0.95 < powder_kg < 0.768


def test_joints_are_the_panel_less_the_tesserae_as_shapely_sees_it():
    cells = voronoi(150, seed=2)
    panel = read_drawing(svg_of(cells, 100, 80), "cells.svg")
    left = shapely.box(0, 0, 100, 80).difference(shapely.union_all(cells)).area
    assert panel.joint_area_mm2 == pytest.approx(left, rel=1e-5)


def test_grout_goes_down_to_the_adhesive_left_in_the_joint():
    assert joint_depth_mm() == 2.0
    assert joint_depth_mm(4.0, adhesive_left_mm=0.5) == 3.5
    with pytest.raises(AmountOutOfRange, match="glass thickness"):
        joint_depth_mm(1.0)


def test_no_joints_take_no_grout():
    grout = grout_for(0.0, 2.0)
    assert (grout.powder_g, grout.water_g, grout.stays_g) == (0, 0, 0)


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf])
def test_amounts_that_cannot_be_are_named(wrong):
    with pytest.raises(AmountOutOfRange, match="depth"):
        grout_for(100, wrong)
    with pytest.raises(AmountOutOfRange, match="water"):
        grout_for(100, 2, water_share=wrong)
    with pytest.raises(AmountOutOfRange, match="backer"):
        weight_of(grid(2, 2, piece_mm=6, joint_mm=1), glass_mm=3, grout_g=1, backer_g_per_cm2=wrong)
    with pytest.raises(AmountOutOfRange, match="thickness"):
        glass_mass_g(100, wrong)


# -- zones -----------------------------------------------------------------------------------------------


def parted(cells, zone) -> list[float]:
    """The joints nearest to each zone, by shapely: the Voronoi cells of points all along the outlines."""
    points, whose = [], []
    for cell, k in zip(cells, zone, strict=True):
        line = cell.exterior
        points += [line.interpolate(s) for s in np.arange(0, line.length, 0.25)]
        whose += [k] * (len(points) - len(whose))
    frame = shapely.box(0, 0, 100, 80)
    near = shapely.get_parts(
        shapely.voronoi_polygons(shapely.MultiPoint(points), extend_to=frame, ordered=True)
    )
    left = frame.difference(shapely.union_all(cells))
    parts = shapely.area(shapely.intersection(near, left))
    return [float(parts[np.array(whose) == k].sum()) for k in range(max(zone) + 1)]


def test_each_spot_of_joint_belongs_to_the_nearest_zone():
    """Shapely's Voronoi diagram of points all along the outlines."""
    cells = voronoi(60, gap_mm=1.2, seed=4)
    zone = np.array([0 if c.centroid.x < 35 else 1 if c.centroid.y < 40 else 2 for c in cells], np.int32)
    panel = read_drawing(svg_of(cells, 100, 80), "cells.svg")
    found = joints_mm2(panel, zone, 3)
    assert found.sum() == pytest.approx(panel.joint_area_mm2)
    assert found == pytest.approx(parted(polygons_of(panel), zone), rel=0.02)


def test_two_like_halves_share_the_joints_alike_and_a_zone_without_glass_has_none():
    panel = grid(8, 6, piece_mm=6, joint_mm=0.8)
    zone = (np.arange(48) % 8 >= 4).astype(np.int32)
    found = joints_mm2(panel, zone, 3)
    assert found[0] == pytest.approx(found[1], rel=0.01)
    assert found[2] == 0
    assert found.sum() == pytest.approx(panel.joint_area_mm2)


def test_what_lies_beyond_the_outline_is_no_joint():
    body = '<path data-panel-outline="true" fill="none" d="M0,0h50v20h-50z"/>'
    panel = read_drawing(page(body + square(1, 1, 18) + square(31, 1, 18)), "outlined.svg")
    found = joints_mm2(panel, np.array([0, 1], np.int32), 2)
    assert found.sum() == pytest.approx(1000 - 2 * 324)
    assert found[0] == pytest.approx(found[1], rel=0.01)


def test_a_hole_in_a_tessera_is_joint():
    ring = '<path fill-rule="evenodd" d="M0,0h60v100h-60z M20,20h20v20h-20z"/>'
    panel = read_drawing(page(ring + '<path d="M62,0h38v100h-38z"/>'), "ring.svg")
    assert joints_mm2(panel, np.array([0, 1], np.int32), 2) == pytest.approx([500, 100], rel=0.02)


def test_pieces_that_leave_no_joint_take_no_grout_in_any_zone():
    panel = read_drawing(page('<path d="M0,0h50v100h-50z"/><path d="M50,0h50v100h-50z"/>'), "full.svg")
    assert joints_mm2(panel, np.array([0, 1], np.int32), 2) == pytest.approx([0, 0], abs=1e-6)


def test_glass_too_fine_for_the_grid_shares_the_joints_by_its_area():
    """A metre square with two specks: no grid point falls on glass."""
    specks = '<path d="M10.01,10.01h0.04v0.04z"/><path d="M90.01,90.01h0.04v0.12z"/>'
    panel = read_drawing(
        page(specks, size='width="1000mm" height="1000mm" viewBox="0 0 1000 1000"'), "specks.svg"
    )
    found = joints_mm2(panel, np.array([0, 1], np.int32), 2)
    assert found == pytest.approx([panel.joint_area_mm2 / 4, panel.joint_area_mm2 * 3 / 4], rel=1e-3)


def test_zones_are_the_drawings_groups_and_the_rest():
    body = f'<g id="cloth">{square(0, 0)}{square(12, 0)}</g>'
    zone, names = group_zones(read_drawing(page(body + square(24, 0)), "groups.svg"))
    assert (zone.tolist(), names) == ([0, 0, 1], ("cloth", "the rest"))
    assert group_zones(read_drawing(page(body), "groups.svg"))[1] == ("cloth",)
    assert group_zones(read_drawing(page(square(0, 0)), "plain.svg"))[1] == ("the panel",)


# -- weight ----------------------------------------------------------------------------------------------


def test_glass_weighs_what_soda_lime_does():
    """EN 572: 2500 kg/m³, so 2.5 kg/m² for each mm: 7.5 kg/m² at 3 mm."""
    assert glass_mass_g(1e6, 3.0) == pytest.approx(7500)


@given(st.floats(0, 5), st.floats(0, 5), st.floats(0, 500), st.floats(0.5, 10))
def test_the_panel_weighs_what_its_parts_do(backer, bed, grout_g, glass_mm):
    panel = grid(4, 5, piece_mm=9, joint_mm=1)  # 40 × 50 mm, 20 cm²
    weight = weight_of(panel, glass_mm=glass_mm, grout_g=grout_g, backer_g_per_cm2=backer, bed_g_per_cm2=bed)
    glass_g = 20 * 81 * glass_mm / 1000 * 2.5
    assert weight.total_g == pytest.approx(20 * backer + 20 * bed + grout_g + glass_g, rel=1e-4, abs=1e-6)

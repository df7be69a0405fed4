"""The glass list: what is one glass, what it is called, and that its figures add up."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from bench.drawing.colour import delta_e_2000, srgb_to_lab
from bench.drawing.svg import read_drawing
from bench.finish.alike import led_by
from bench.finish.glass import glass_list
from bench.finish.shades import ONE_SHEET_DE
from tests.fakes.glasses import CHANNEL, some_glass, squares
from tests.fakes.shapes import polygons_of, svg_of, voronoi

BLUE, NEAR_BLUE, YELLOW = (42, 92, 170), (43, 93, 171), (232, 201, 58)


def names(panel, **how):
    return [glass.name for glass in glass_list(panel, **how).glasses]


def led_plainly(lab, weight, like_de):
    """The rule as it is told, each leader compared with every colour."""
    leader = np.full(len(lab), -1)
    for k in np.argsort(-weight, kind="stable"):
        if leader[k] < 0:
            leader[(leader < 0) & (delta_e_2000(lab[k], lab) <= like_de)] = k
    return leader


def test_equal_colours_of_one_kind_are_one_glass_and_other_kinds_are_not():
    panel = squares([BLUE, YELLOW, BLUE, NEAR_BLUE, BLUE], kinds=[0, 0, 0, 0, 1])
    found = names(panel)
    assert found[0] == "dark blue #2a5caa"
    assert set(found[1:]) == {"dark blue #2b5dab", "clear dark blue #2a5caa", "light yellow #e8c93a"}
    assert [glass.pieces for glass in glass_list(panel).glasses] == [2, 1, 1, 1]
    assert np.flatnonzero(glass_list(panel).of == 0).tolist() == [0, 2]


def test_colours_within_the_difference_allowed_are_one_glass_under_the_name_of_what_covers_most():
    panel = squares([NEAR_BLUE, BLUE, YELLOW], side_mm=[5, 8, 6])
    listed = glass_list(panel, like_de=1.0)
    assert [g.name.split()[-1] for g in listed.glasses] == ["#2a5caa", "#e8c93a"]
    assert listed.glasses[0].area_mm2 == pytest.approx(25 + 64)
    assert listed.of.tolist() == [0, 0, 1]


def test_a_name_stays_whatever_else_the_panel_holds():
    alone = names(squares([BLUE]))
    assert alone[0] in names(squares([YELLOW] * 9 + [BLUE, NEAR_BLUE]))


@pytest.mark.parametrize("like_de", [0.5, 1.0, 2.5, 6.0, 15.0])
@pytest.mark.parametrize("around", [None, (36, 60, 190), (128, 128, 128)])
def test_only_looking_at_what_is_near_changes_nothing(like_de, around):
    """Colours of the whole gamut, of saturated blue where R_T turns most, and of grey."""
    rng = np.random.default_rng(7)
    rgb = rng.integers(0, 256, (700, 3))
    if around is not None:
        rgb = np.clip(np.array(around) + rng.integers(-45, 46, (700, 3)), 0, 255)
    lab = srgb_to_lab(np.unique(rgb, axis=0))
    weight = rng.random(len(lab))
    assert led_by(lab, weight, like_de).tolist() == led_plainly(lab, weight, like_de).tolist()


@given(some_glass(), st.floats(0, 8))
def test_every_piece_is_within_the_difference_of_its_glass_and_no_two_glasses_of_a_kind_are(panel, like_de):
    listed = glass_list(panel, like_de=like_de)
    away = delta_e_2000(srgb_to_lab(panel.colour), listed.lab[listed.of])
    assert (away <= like_de + 1e-9).all()  # a mean of equal colours is one of them but for rounding
    kinds = np.array([g.kind for g in listed.glasses])
    between = delta_e_2000(listed.lab[:, None], listed.lab[None])
    same_kind = (kinds[:, None] == kinds[None]) & ~np.eye(len(kinds), dtype=bool)
    assert (between[same_kind] > like_de).all()


@given(some_glass(), st.floats(0, 8))
def test_putting_glasses_together_never_changes_the_totals(panel, like_de):
    apart, together = glass_list(panel), glass_list(panel, like_de=like_de)
    for listed in (apart, together):
        assert sum(g.area_mm2 for g in listed.glasses) == pytest.approx(panel.glass_area_mm2)
        assert sum(g.pieces for g in listed.glasses) == panel.tessera_count
    assert len(together.glasses) <= len(apart.glasses)


@given(some_glass(), st.floats(0, 8), st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_does_not_matter(panel, like_de, random):
    order = list(range(panel.tessera_count))
    random.shuffle(order)
    sides = np.sqrt(panel.area_mm2)[order]
    mixed = squares(panel.colour[order].tolist(), side_mm=sides, kinds=panel.glass[order])
    here, there = (
        {(g.name, g.pieces) for g in glass_list(p, like_de=like_de).glasses} for p in (panel, mixed)
    )
    assert here == there


def test_areas_are_those_of_an_independent_library():
    """Shapely on the same polygons, colour by colour."""
    rng = np.random.default_rng(3)
    cells = voronoi(120, seed=3)
    svg = svg_of(cells, 100, 80).decode()
    codes = [f"#{v:06x}" for v in rng.choice([0x2A5CAA, 0xE8C93A, 0xF5F0E3], len(cells)).tolist()]
    for k, code in enumerate(codes):
        svg = svg.replace(f'id="p{k}"', f'id="p{k}" fill="{code}"')
    panel = read_drawing(svg.encode(), "cells.svg")
    areas = {glass.name[-7:]: glass.area_mm2 for glass in glass_list(panel).glasses}
    for code in set(codes):
        of_it = shapely.area([cell for cell, c in zip(cells, codes, strict=True) if c == code]).sum()
        assert areas[code] == pytest.approx(of_it, rel=1e-5)


def test_the_narrowest_width_is_that_across_an_edge_of_the_hull():
    """The least width lies across an edge of the convex hull (Houle & Toussaint 1988); shapely's hull."""
    panel = read_drawing(svg_of(voronoi(80, seed=5), 100, 80), "cells.svg")
    least = []
    for cell in polygons_of(panel):
        hull = np.array(cell.convex_hull.exterior.coords)
        along = np.diff(hull, axis=0)
        out = np.stack([-along[:, 1], along[:, 0]], axis=1) / np.hypot(*along.T)[:, None]
        across = hull @ out.T
        least.append((across.max(axis=0) - across.min(axis=0)).min())
    found = glass_list(panel).glasses[0]
    assert min(least) <= found.narrowest_mm <= min(least) + 0.009 * found.longest_mm
    assert max(least) <= found.widest_mm <= max(least) + 0.009 * found.longest_mm


@given(st.lists(st.tuples(CHANNEL, CHANNEL, CHANNEL), min_size=2, max_size=25))
def test_the_shade_range_is_that_of_the_pieces(colours):
    """All put together by hand, so that the spread is the largest of all differences."""
    from bench.finish.shades import shades_of

    lab = srgb_to_lab(np.array(colours))
    found = shades_of(lab, np.array([0]))[0]
    assert found.light == (lab[:, 0].min(), lab[:, 0].max())
    assert found.a == (lab[:, 1].min(), lab[:, 1].max())
    assert found.spread_de == pytest.approx(delta_e_2000(lab[:, None], lab[None]).max())


def test_a_glass_whose_shades_lie_far_apart_says_that_one_sheet_may_not_do():
    greys = [(v, v, v) for v in range(100, 120, 2)]
    narrow, wide = glass_list(squares(greys[:2]), like_de=9), glass_list(squares(greys), like_de=9)
    assert narrow.glasses[0].shades.one_sheet_may_hold
    assert len(wide.glasses) == 1
    assert wide.glasses[0].shades.spread_de > ONE_SHEET_DE
    assert not wide.glasses[0].shades.one_sheet_may_hold


def test_a_panel_without_glass_has_no_glasses():
    empty = squares([BLUE])
    none = type(empty)(**{**empty.__dict__, "ids": (), "area_mm2": np.zeros(0)})
    assert glass_list(none).glasses == ()


def test_many_pieces_of_as_many_colours_are_listed_with_none_lost():
    """20,000 colours, grouped closely and loosely; speed is measured in the benchmarks."""
    rng = np.random.default_rng(1)
    colours = np.unique(rng.integers(0, 256, (20_000, 3)), axis=0)
    panel = squares(colours)
    apart, near, far = (len(glass_list(panel, like_de=de).glasses) for de in (0.0, 1.0, 6.0))
    assert apart == len(colours) > near > far > 100

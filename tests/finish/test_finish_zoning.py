"""Zones proposed from glass; masking and days, against networkx and brute force."""

from itertools import permutations

import networkx as nx
import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.drawing.load import load_drawing
from bench.drawing.svg import read_drawing
from bench.finish.masking import STRIP_MM, border_mm, days_of_grout, strip_mm2
from bench.finish.zones import joint_grid
from bench.finish.zoning import proposed_zones
from bench.resources import resource
from tests.fakes.drawings import BLUE, YELLOW, grid_svg

PALE, DARK = (220, 218, 210), (40, 40, 44)


def test_zones_follow_the_colours_of_the_glass_and_hold_every_piece():
    panel = read_drawing(grid_svg(12, 8, colour=lambda c, r: BLUE if c < 7 else YELLOW), "two.svg")
    zone, names = proposed_zones(panel)
    assert len(names) == 2
    assert "blue" in names[0]
    assert "yellow" in names[1]
    columns = np.arange(96) % 12
    assert (zone == np.where(columns < 7, 0, 1)).all()


def test_a_speck_of_another_colour_is_no_zone():
    panel = read_drawing(grid_svg(12, 8, colour=lambda c, r: YELLOW if c == r == 3 else BLUE), "speck.svg")
    zone, names = proposed_zones(panel)
    assert len(names) == 1
    assert (zone == 0).all()


def test_zones_of_the_demo_are_few_named_apart_and_each_worth_masking():
    _, panel = load_drawing(resource("assets", "demo", "lemons.svg"))
    zone, names = proposed_zones(panel)
    assert 2 <= len(names) == len(set(names)) <= 6
    area_mm2 = np.bincount(zone, panel.area_mm2)
    assert (np.diff(area_mm2) <= 1e-9).all()
    assert (area_mm2 >= 0.03 * panel.glass_area_mm2).all()


def test_tape_runs_along_the_joints_between_two_zones():
    """Twelve pieces of 6.2 mm face each other across the line between the columns: 74.4 mm."""
    panel = read_drawing(grid_svg(10, 12), "grid.svg")
    zone = (np.arange(120) % 10 >= 4).astype(np.int32)
    border = border_mm(panel, zone, 2)
    assert border[0, 1] == border[1, 0] == pytest.approx(12 * 6.2, abs=0.1)
    assert np.diag(border).tolist() == [0, 0]


def test_the_ground_to_be_covered_is_a_strip_beside_the_zone_as_shapely_sees_it():
    panel = read_drawing(grid_svg(30, 20), "grid.svg")  # 210 × 140 mm
    inner = [(c, r) for r in range(20) for c in range(30)]
    zone = np.array([12 <= c < 18 and 8 <= r < 12 for c, r in inner]).astype(np.int32)
    found = strip_mm2(joint_grid(panel), zone, np.array([0, 1], np.int32))
    box = shapely.box(12 * 7, 8 * 7, 18 * 7, 12 * 7)
    true = shapely.box(0, 0, 210, 140).intersection(box.buffer(STRIP_MM, 64)).area - box.area
    assert found[1] == pytest.approx(true, rel=0.02)


def test_one_grout_needs_no_strip():
    panel = read_drawing(grid_svg(6, 6), "grid.svg")
    zone = (np.arange(36) % 2).astype(np.int32)
    assert strip_mm2(joint_grid(panel), zone, np.array([0, 0], np.int32)).tolist() == [0, 0]


borders = st.integers(1, 5).flatmap(
    lambda n: st.lists(st.sampled_from([0, 0, 30, 80, 120]), min_size=n * n, max_size=n * n).map(
        lambda flat, n=n: np.triu(np.array(flat, float).reshape(n, n), 1)
    )
)


@settings(max_examples=60, deadline=None)
@given(upper=borders, greys=st.lists(st.integers(0, 255), min_size=5, max_size=5))
def test_days_are_the_fewest_and_grouts_that_meet_never_share_one(upper, greys):
    """The fewest days are the chromatic number; networkx's greedy colouring can only need as many or more."""
    border = upper + upper.T
    count = len(border)
    days = days_of_grout(border, [(g, g, g) for g in greys[:count]])
    assert sorted(k for day in days for k in day.colours) == list(range(count))
    for day in days:
        assert not border[np.ix_(day.colours, day.colours)].any()
    graph = nx.from_numpy_array(border)
    greedy = max(nx.greedy_color(graph, "DSATUR").values()) + 1
    assert len(days) <= greedy
    assert len(days) >= max(len(clique) for clique in nx.find_cliques(graph))


@settings(max_examples=40, deadline=None)
@given(lengths=st.lists(st.integers(1, 99), min_size=6, max_size=6), greys=st.permutations([9, 90, 160, 230]))
def test_of_all_orders_the_one_with_the_least_tape_is_chosen(lengths, greys):
    """Four grouts that all meet: every order tried by hand; the darker second tapes what is paler again."""
    border = np.zeros((4, 4))
    border[np.triu_indices(4, 1)] = lengths
    border += border.T

    def tape(order):
        total = 0.0
        for k, one in enumerate(order):
            total += sum(border[one, other] for other in order[k + 1 :])
            total += sum(border[one, other] for other in order[:k] if greys[one] < greys[other])
        return total

    days = days_of_grout(border, [(g, g, g) for g in greys])
    assert sum(day.tape_mm for day in days) == pytest.approx(min(map(tape, permutations(range(4)))))


def test_dark_grout_goes_before_pale():
    """Common practice, no source: a dark grout stains a pale one that is filled already."""
    border = np.array([[0.0, 50.0], [50.0, 0.0]])
    days = days_of_grout(border, [PALE, DARK])
    assert [day.colours for day in days] == [(1,), (0,)]
    assert [day.tape_mm for day in days] == [50.0, 0.0]


def test_many_grouts_are_placed_too():
    border = np.ones((14, 14)) - np.eye(14)
    days = days_of_grout(border, [(k * 15, k * 15, k * 15) for k in range(14)])
    assert len(days) == 14
    assert days[0].colours == (0,)


def test_nothing_takes_no_day():
    assert days_of_grout(np.zeros((0, 0))) == ()

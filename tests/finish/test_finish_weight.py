"""Weight with its spread, loads of fixings and wires, boards that bend: against statics done otherwise."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from bench.drawing.svg import read_drawing
from bench.finish.bend import POISSON, bend_of
from bench.finish.faults import AmountOutOfRange
from bench.finish.hanging import hung, hung_by_wire, newtons, wire_angle_deg
from bench.finish.hanging_words import bend_lines, duty, hung_lines, part_lines, weight_words
from bench.finish.units import Units
from bench.finish.weight import pounds, spreads_with, weight_of
from tests.fakes.drawings import grid_svg

# ASME B30.9's table of sling angles, from memory: pull in a leg over its vertical share of the load.
SLING_FACTORS = {90: 1.000, 60: 1.155, 45: 1.414, 30: 2.000}


@pytest.fixture(scope="module")
def panel():
    return read_drawing(grid_svg(40, 30), "grid.svg")


@pytest.fixture
def weight(panel):
    return weight_of(panel, glass_mm=3, grout_g=80, backer_g_per_cm2=1.2, bed_g_per_cm2=0.12, frame_g=900)


def test_the_spread_is_that_of_parts_that_are_off_each_on_its_own(weight):
    """A hundred thousand panels drawn part by part: 8 in 10 lie between the two ends."""
    rng = np.random.default_rng(1)
    z90 = 1.2815515655446004
    parts = weight.parts_g
    drawn = sum(rng.normal(mass, weight.spreads[name] * mass / z90, 100_000) for name, mass in parts.items())
    p10, p50, p90 = np.quantile(drawn, (0.1, 0.5, 0.9))
    assert (weight.p10_g, weight.total_g, weight.p90_g) == pytest.approx((p10, p50, p90), rel=2e-3)


def test_parts_add_up_and_each_is_area_times_what_was_entered(panel, weight):
    area_cm2 = panel.outline_area_mm2 / 100
    assert weight.backer_g == pytest.approx(area_cm2 * 1.2)
    assert sum(weight.parts_g.values()) == pytest.approx(weight.total_g)
    assert f"frame {900} g ± 2 %" in part_lines(weight)


def test_a_pound_is_the_international_one_and_weight_is_told_in_both(weight):
    assert pounds(453.59237) == 1.0
    told = weight_words(weight)
    assert f"{weight.total_g / 1000:.2f} kg" in told
    assert f"{weight.total_g / 453.59237:.1f} lb" in told


def test_spreads_can_be_told_and_what_is_none_is_refused():
    assert spreads_with({"backer": 0.2})["backer"] == 0.2
    assert spreads_with({})["glass"] == 0.07
    with pytest.raises(AmountOutOfRange, match="glass, backer, bed, grout, frame"):
        spreads_with({"cheese": 0.2})
    with pytest.raises(AmountOutOfRange, match="a share from 0 to 1"):
        spreads_with({"backer": 1.5})


@pytest.mark.parametrize(("angle_deg", "factor"), SLING_FACTORS.items())
def test_a_wire_pulls_as_the_table_of_sling_angles_says(angle_deg, factor):
    if angle_deg == 90:
        angle_deg = 85
        factor = 1 / math.sin(math.radians(85))
    loads = hung_by_wire(1000.0, points=1, angle_deg=angle_deg)
    assert loads.tension_g == pytest.approx(factor * 500.0, rel=1e-3)


def test_the_forces_at_hook_and_rings_balance():
    """Solved as forces in two wires that must hold the weight up and cancel sideways."""
    loads = hung_by_wire(2300.0, points=1, angle_deg=wire_angle_deg(300.0, 70.0))
    way = np.array([150.0, 70.0]) / math.hypot(150.0, 70.0)
    pulls = np.linalg.solve([[way[0], -way[0]], [way[1], way[1]]], [0.0, 2300.0])
    assert loads.tension_g == pytest.approx(pulls[0])
    assert loads.inward_g == pytest.approx(pulls[0] * way[0])
    assert loads.worst_g == 2300.0


def test_two_fixings_carry_by_their_levers_and_of_more_two_may_carry_all():
    """About the left fixing: W·(d/2 + aside) = right·d."""
    right = 1000.0 * (100.0 + 30.0) / 200.0
    assert hung(1000.0, points=2, apart_mm=200.0, aside_mm=-30.0).worst_g == pytest.approx(right)
    four = hung(1000.0, points=4, apart_mm=200.0)
    assert (four.each_g, four.worst_g) == (250.0, 500.0)
    assert hung(1000.0, points=1).worst_g == 1000.0
    assert "two alone may bear" in " ".join(hung_lines(four))


def test_a_kilogram_weighs_as_the_standard_has_it():
    """Standard gravity, CGPM 1901: 9.80665 m/s²."""
    assert newtons(1000.0) == 9.80665


@pytest.mark.parametrize(
    ("act", "said"),
    [
        (lambda: hung(0.0, points=2), "weight: 0 cannot be"),
        (lambda: hung(1000.0, points=0), "hanging points: 0 cannot be; give 1 to 20"),
        (lambda: hung(1000.0, points=2, apart_mm=50.0, aside_mm=40.0), "the panel would tip"),
        (lambda: hung_by_wire(1000.0, points=1, angle_deg=0.0), "wire angle: 0 cannot be; give 5 to 85"),
        (lambda: hung_by_wire(1000.0, points=0, angle_deg=30.0), "hanging points: 0 cannot be"),
        (lambda: hung_by_wire(0.0, points=1, angle_deg=30.0), "weight: 0 cannot be"),
        (lambda: wire_angle_deg(0.0, 50.0), "distance of the rings: 0 cannot be"),
        (lambda: bend_of(0.0, span_mm=1, width_mm=1, board_mm=1, board_GPa=1), "weight: 0 cannot be"),
        (lambda: bend_of(1.0, span_mm=1, width_mm=1, board_mm=0, board_GPa=1), "board thickness: 0"),
        (lambda: bend_of(1.0, span_mm=1, width_mm=1, board_mm=1, board_GPa=math.nan), "board stiffness"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(act, said):
    with pytest.raises(AmountOutOfRange) as caught:
        act()
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


def test_the_sag_is_that_of_the_beam_equation_solved_numerically():
    """D·w'''' = q on two simple supports, by SciPy's collocation."""
    mass_g, span_mm, width_mm, board_mm, board_GPa = 5200.0, 900.0, 600.0, 12.5, 4.0
    load = mass_g / 1000 * 9.80665 / (0.9 * 0.6)
    stiff = board_GPa * 1e9 * 0.0125**3 / (12 * (1 - POISSON**2))
    x = np.linspace(0, 0.9, 41)
    solved = solve_bvp(
        lambda x, y: np.vstack([y[1], y[2], y[3], np.full_like(x, load / stiff)]),
        lambda a, b: np.array([a[0], a[2], b[0], b[2]]),
        x,
        np.zeros((4, len(x))),
        tol=1e-8,
    )
    found = bend_of(mass_g, span_mm=span_mm, width_mm=width_mm, board_mm=board_mm, board_GPa=board_GPa)
    assert found.sag_mm == pytest.approx(1000 * solved.sol(0.45)[0], rel=1e-5)


def test_a_board_is_judged_by_the_rules_of_tile_and_stone_and_told_whose_duty_the_rest_is():
    """L/720 and L/360: from memory of the North American tile trade's rules."""
    kept = {"span_mm": 600.0, "width_mm": 400.0, "board_GPa": 4.0}
    thick, middling, thin = (bend_of(4000.0, board_mm=t, **kept) for t in (12.5, 9.0, 4.0))
    assert [b.verdict for b in (thick, middling, thin)] == ["stiff", "doubtful", "flexes"]
    assert thick.ratio >= 720 > middling.ratio >= 360 > thin.ratio
    says, rule = bend_lines(thin, Units())
    assert "joints will break" in says
    assert "from memory" in rule
    assert "installer" in duty()

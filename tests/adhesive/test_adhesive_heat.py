"""The heat of a cup against closed forms, published heats, an energy balance and another integrator."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from bench.adhesive import heat, heat_constants, kettle
from bench.adhesive.heat import cups_needed, exotherm
from bench.adhesive.kinetics import time_to_conversion_s
from bench.adhesive.product_file import find_product, parse_product
from tests.fakes.products import CHECKS, example, rounded, two_part_products

PASTE = parse_product(example(), "x")
CLOSED = CHECKS["conversion"]


def _in_time(this, until_s):
    """Return scipy's solution of the same cup, stepped in time as the equations are printed."""

    def slope(_, state):
        alpha, kelvin = state
        arrhenius = math.exp(this.activation_K * (1 / this.reference_K - 1 / kelvin))
        rate = this.rate_per_s * (1 + kettle.AUTOCATALYSIS * alpha) * (1 - alpha) * arrhenius
        return rate, this.rise_K * rate - this.cooling_per_s * (kelvin - this.room_K)

    return solve_ivp(
        slope, (0, until_s), (0.0, this.start_K), method="LSODA", rtol=1e-9, atol=1e-10, dense_output=True
    )


@pytest.mark.parametrize(("time_s", "alpha"), CLOSED["rows"])
def test_the_published_conversions_are_reached_at_their_times(time_s, alpha):
    """The table has five digits: its time lies between those of half a digit less and more."""
    k1, k2 = CLOSED["k1_per_s"], CLOSED["k2_per_s"]
    least_s, most_s = (time_to_conversion_s(k1, k2, alpha + less_or_more) for less_or_more in (-5e-6, 5e-6))
    assert least_s <= time_s <= most_s


@pytest.mark.parametrize("alpha", [alpha for _, alpha in CLOSED["rows"]])
def test_the_steps_meet_the_closed_form_where_no_heat_is_made(alpha, monkeypatch):
    k1, k2 = CLOSED["k1_per_s"], CLOSED["k2_per_s"]
    monkeypatch.setattr(kettle, "AUTOCATALYSIS", k2 / k1)
    cold = kettle.Kettle(k1, 296.15, 6600.0, 0.0, 1e-4, 296.15, 296.15)
    assert kettle.time_to_s(cold, alpha) == pytest.approx(time_to_conversion_s(k1, k2, alpha), rel=1e-6)


def test_work_ends_before_any_usual_hardener_gels():
    gels = [alpha for _, _, alpha in CHECKS["gel"]["rows"]]
    assert min(gels) > heat_constants.WORKABLE_CONVERSION


def test_the_gel_point_is_flory_and_stockmayers_for_the_active_hydrogens_of_its_source():
    assert [5.54, 1.0, heat_constants.GEL_CONVERSION] in CHECKS["gel"]["rows"]


def test_the_heat_of_a_mix_is_the_measured_one():
    """Polímeros: EEW 187 with equivalents of 27.5 g gave 486 J/g; within 3 %."""
    row = CHECKS["heat"]["measured"]
    found = heat_constants.heat_of_equivalents_J_per_g(row["eew_g_per_eq"], row["ahew_g_per_eq"])
    assert row["J_per_g"] == pytest.approx(found, rel=0.03)


@pytest.mark.parametrize(("name", "ahew", "heat_J_per_g", "rise_K"), CHECKS["heat"]["derived"]["rows"])
def test_without_losses_a_cup_rises_by_its_heat_over_its_capacity(name, ahew, heat_J_per_g, rise_K):
    """EEW 190: 508 and 460 J/g over 1.8 J/gK (capacity from memory); an unfilled, sealed mix."""
    equivalents = f"eew_g_per_eq = 190\nahew_g_per_eq = {ahew}"
    neat = {"by_mass = [100, 50]": equivalents, "= 1.55": "= 1.12", "= 1.48": "= 1.0"}
    cup = heat.kettle_of(parse_product(example(neat), "x"), mass_g=100, temperature_C=23)
    steps = kettle.march(replace(cup, cooling_per_s=0.0), 12.0)
    assert heat_J_per_g == pytest.approx(heat_constants.heat_of_equivalents_J_per_g(190, ahew), rel=0.01), (
        name
    )
    assert rise_K == pytest.approx(steps.kelvin[-1] - steps.kelvin[0], rel=0.01)


@pytest.mark.parametrize("mass_g", [5, 40, 100, 400])
@pytest.mark.parametrize("temperature_C", [15, 30])
def test_another_integrator_finds_the_same_cup(mass_g, temperature_C):
    """scipy's LSODA on the equations in time: the same peak, and the same time to gel."""
    mine = exotherm(PASTE, mass_g=mass_g, temperature_C=temperature_C)
    cup = heat.kettle_of(PASTE, mass_g=mass_g, temperature_C=temperature_C)
    theirs = _in_time(cup, mine.time_s[-1])
    at = theirs.sol(mine.time_s)
    assert np.abs(at[0] - mine.conversion).max() < 2e-4
    assert np.abs(at[1] - 273.15 - mine.temperature_C).max() < 0.2
    gel_alpha = float(theirs.sol(mine.gel_s)[0])
    assert gel_alpha == pytest.approx(heat_constants.GEL_CONVERSION, abs=2e-4)


@given(two_part_products(), rounded(1, 500, 1), rounded(12, 33, 1))
@settings(max_examples=60, deadline=None)
def test_heat_made_is_heat_kept_plus_heat_lost(product, mass_g, temperature_C):
    """The energy balance, by the trapezoid rule over the curve."""
    curve = exotherm(product, mass_g=mass_g, temperature_C=temperature_C)
    cup = heat.kettle_of(product, mass_g=mass_g, temperature_C=temperature_C)
    above = curve.temperature_C - temperature_C
    lost = kettle.cooling_in_use_per_s(cup) * np.trapezoid(above, curve.time_s)
    assert above[-1] + lost == pytest.approx(cup.rise_K * curve.conversion[-1], rel=0.02)


@given(two_part_products())
@settings(max_examples=40, deadline=None)
def test_the_fit_brings_the_labels_cup_to_its_end_at_the_labels_minutes(product):
    table = product.working_time
    found = heat.heat_limit_s(product, temperature_C=table.test_temperature_C, mass_g=table.test_mass_g)
    assert found == pytest.approx(table.minutes * 60, rel=1e-6)


@given(two_part_products(), rounded(1, 500, 1), rounded(1, 500, 1), rounded(12, 33, 1))
@settings(max_examples=60, deadline=None)
def test_a_larger_cup_is_never_cooler_and_none_passes_the_adiabatic_peak(product, one_g, other_g, room_C):
    small, large = (exotherm(product, mass_g=g, temperature_C=room_C) for g in sorted((one_g, other_g)))
    rise_K = heat_constants.thermal_of(product).rise_K
    assert small.peak_C <= large.peak_C + 1e-3
    assert room_C <= small.peak_C
    assert large.peak_C <= room_C + rise_K + 1e-3
    assert large.gel_s <= small.gel_s * (1 + 1e-6)


def test_spread_out_it_stays_cool():
    """Common practice, no source: the cup that smokes is harmless as a film."""
    in_cup = exotherm(PASTE, mass_g=150, temperature_C=25)
    spread = exotherm(PASTE, mass_g=150, temperature_C=25, spread_mm=0.8)
    assert in_cup.to_hot_s is not None
    assert spread.to_hot_s is None
    assert spread.peak_C < 30


def test_warm_bottles_gel_sooner():
    usual = exotherm(PASTE, mass_g=10, temperature_C=20)
    assert exotherm(PASTE, mass_g=10, temperature_C=20, mix_C=35).gel_s < usual.gel_s


def test_a_usual_section_is_whole_and_a_big_cup_is_split_into_what_holds():
    assert cups_needed(PASTE, mass_g=10, temperature_C=23) == 1
    cups = cups_needed(PASTE, mass_g=250, temperature_C=28)
    assert cups > 1
    assert not exotherm(PASTE, mass_g=250 / cups, temperature_C=28).runs_away
    assert exotherm(PASTE, mass_g=250 / (cups - 1), temperature_C=28).runs_away


def test_the_curve_is_worth_showing_above_forty_grams_or_sixty_degrees():
    assert not exotherm(PASTE, mass_g=10, temperature_C=23).worth_showing
    assert exotherm(PASTE, mass_g=41, temperature_C=10).worth_showing
    hot = exotherm(find_product("clear-fast"), mass_g=20, temperature_C=28)
    assert hot.to_hot_s is not None
    assert hot.to_hot_s < hot.peak_s
    assert hot.worth_showing


def test_a_ready_adhesive_makes_no_heat():
    with pytest.raises(ValueError, match="no heat"):
        exotherm(find_product("white-ready"), mass_g=10, temperature_C=20)


@given(st.floats(0.2, 5000))
@settings(max_examples=40, deadline=None)
def test_a_cup_sheds_less_for_each_gram_the_larger_it_is(mass_g):
    thermal = heat_constants.thermal_of(PASTE)
    assert heat.cup_cooling_per_s(thermal, mass_g * 1.01) < heat.cup_cooling_per_s(thermal, mass_g)

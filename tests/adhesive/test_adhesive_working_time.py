"""Working time, film and cure against Arrhenius identities and published energies."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.adhesive.cure import cure_s
from bench.adhesive.faults import AmountNotAllowed, OutsideRange
from bench.adhesive.kinetics import activation_kJ_per_mol, arrhenius
from bench.adhesive.product import ACTIVATION_SPAN_KJ_PER_MOL, DEFAULT_ACTIVATION_KJ_PER_MOL
from bench.adhesive.product_file import find_product, parse_product
from bench.adhesive.working_time import film_open_s, working_time_s
from tests.fakes.products import CHECKS, example, rounded, two_part_products

PASTE = parse_product(example(), "x")
warmth = rounded(10, 35, 1)
masses = st.floats(-1, 3).map(lambda power: round(10**power, 2))


@pytest.mark.parametrize(("from_C", "to_C", "energy"), CHECKS["arrhenius_doubling"]["rows"])
def test_ten_degrees_double_the_rate_at_the_energy_of_the_identity(from_C, to_C, energy):
    assert energy == pytest.approx(activation_kJ_per_mol(2, from_C=from_C, to_C=to_C), abs=0.05)
    assert arrhenius(energy, from_C=from_C, to_C=to_C) == pytest.approx(2, rel=2e-3)


@pytest.mark.parametrize("row", CHECKS["arrhenius_published"], ids=lambda row: row["source"])
def test_published_energies_give_the_published_speed_up(row):
    found = arrhenius(row["kJ_per_mol"], from_C=row["from_C"], to_C=row["to_C"])
    assert row["times"] == pytest.approx(found, abs=0.011)


@pytest.mark.parametrize(("times", "energy"), CHECKS["activation_span"]["rows"])
def test_the_allowed_energies_span_what_the_trade_sees(times, energy):
    """Common practice, no source: 1.5 to 2.5 times faster from 23 to 33 °C."""
    assert energy == pytest.approx(activation_kJ_per_mol(times, from_C=23, to_C=33), abs=0.05)
    low, high = ACTIVATION_SPAN_KJ_PER_MOL
    assert low <= energy <= high


def test_the_default_energy_is_a_published_one():
    low, high = CHECKS["activation_range"]["kJ_per_mol"]
    assert low <= DEFAULT_ACTIVATION_KJ_PER_MOL <= high


def test_at_the_labels_own_mass_and_temperature_it_is_the_labels_time():
    """EN 14022 method 1: 200 g at 23 °C is where its figure holds."""
    method = CHECKS["working_time_methods"]
    product = parse_product(example({"test_mass_g = 100": f"test_mass_g = {method['test_mass_g']}"}), "x")
    at_label = working_time_s(product, temperature_C=23, mass_g=200)
    assert at_label == pytest.approx(32 * 60, rel=1e-6)


def test_a_small_cold_batch_gets_the_label_and_no_more():
    assert working_time_s(PASTE, temperature_C=15, mass_g=5) == 32 * 60


def test_a_warm_small_batch_follows_arrhenius():
    at_33 = working_time_s(PASTE, temperature_C=33, mass_g=5)
    assert at_33 == pytest.approx(32 * 60 / arrhenius(55, from_C=23, to_C=33))
    assert 1.5 <= 32 * 60 / at_33 <= 2.5


def test_twice_the_labels_mass_is_shorter_than_the_label():
    """ASTM D2471 and ISO 9514 ask for the volume with the gel time: more mass gels sooner."""
    assert working_time_s(PASTE, temperature_C=23, mass_g=200) < 0.97 * 32 * 60


@given(two_part_products(), warmth, warmth, masses, masses)
@settings(max_examples=100, deadline=None)
def test_warmer_and_larger_never_lengthen_and_nothing_exceeds_the_label(
    product, one_C, other_C, one_g, other_g
):
    low_C, high_C = sorted((one_C, other_C))
    low_g, high_g = sorted((one_g, other_g))
    cool = working_time_s(product, temperature_C=low_C, mass_g=low_g)
    warm = working_time_s(product, temperature_C=high_C, mass_g=low_g)
    large = working_time_s(product, temperature_C=low_C, mass_g=high_g)
    assert warm <= cool * (1 + 1e-6)
    assert large <= cool * (1 + 1e-6)
    assert warm > 0
    assert cool <= product.working_time.minutes * 60


def test_bottles_kept_warm_shorten_and_cold_ones_are_credited_with_nothing():
    usual = working_time_s(PASTE, temperature_C=23, mass_g=10)
    assert working_time_s(PASTE, temperature_C=23, mass_g=10, mix_C=33) < usual
    assert working_time_s(PASTE, temperature_C=23, mass_g=10, mix_C=12) == usual


@pytest.mark.parametrize("mix_C", [4.0, 41.0])
def test_bottles_outside_the_range_are_refused_with_what_to_do(mix_C):
    with pytest.raises(OutsideRange, match=f"bottles at {mix_C:g} °C are outside") as caught:
        working_time_s(PASTE, temperature_C=23, mass_g=10, mix_C=mix_C)
    assert "let the closed bottles come to the room's temperature" in caught.value.todo


def test_a_ready_adhesive_has_an_open_time_that_mass_does_not_touch():
    ready = find_product("white-ready")
    assert working_time_s(ready, temperature_C=23, mass_g=1000) == 20 * 60
    assert working_time_s(ready, temperature_C=28, mass_g=1) < 20 * 60


def test_cup_and_film_are_two_clocks():
    paste = find_product("white-paste")
    assert film_open_s(paste, 23) == 40 * 60
    assert film_open_s(paste, 33) == pytest.approx(40 * 60 / arrhenius(55, from_C=23, to_C=33))
    assert film_open_s(paste, 15) == 40 * 60
    assert film_open_s(PASTE, 23) is None


@pytest.mark.parametrize("temperature_C", [-40, 4.9, 40.1, 73, math.nan, math.inf])
def test_out_of_range_is_refused_with_the_range(temperature_C):
    for ask in (
        lambda: working_time_s(PASTE, temperature_C=temperature_C, mass_g=10),
        lambda: film_open_s(PASTE, temperature_C),
        lambda: cure_s(PASTE, "firm", temperature_C),
    ):
        with pytest.raises(OutsideRange, match="5 to 40 °C") as caught:
            ask()
        assert caught.value.range_C == (5.0, 40.0)


def test_a_fahrenheit_reading_is_recognised():
    with pytest.raises(OutsideRange, match="that is 23 °C"):
        working_time_s(PASTE, temperature_C=73, mass_g=10)


@pytest.mark.parametrize("mass_g", [0, -1, math.nan, 1e6])
def test_a_mass_that_is_none_is_refused(mass_g):
    with pytest.raises(AmountNotAllowed):
        working_time_s(PASTE, temperature_C=23, mass_g=mass_g)


@pytest.mark.parametrize(("stage", "hours"), [("firm", 4), ("handle", 8), ("grout", 24)])
def test_the_cure_is_the_data_sheets_at_its_temperature_and_slower_in_the_cold(stage, hours):
    """Common practice, no source: ten degrees colder takes about twice as long."""
    assert cure_s(PASTE, stage, 23) == pytest.approx(hours * 3600)
    assert 1.5 <= cure_s(PASTE, stage, 13) / (hours * 3600) <= 2.5


@given(two_part_products(), warmth, warmth)
@settings(max_examples=60, deadline=None)
def test_the_cure_goes_firm_handle_grout_and_warmth_never_slows_it(product, one_C, other_C):
    low_C, high_C = sorted((one_C, other_C))
    stages = [cure_s(product, stage, low_C) for stage in ("firm", "handle", "grout")]
    assert stages == sorted(stages)
    assert cure_s(product, "firm", high_C) <= stages[0]

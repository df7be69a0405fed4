"""A batch: mass balance, the scale's steps, the worst case, and what is poured."""

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bench.adhesive.batch import ladder, prescribe, scale_advice, smallest_batch_g, worst_ratio_error
from bench.adhesive.faults import AmountNotAllowed
from bench.adhesive.poured import judge_poured
from bench.adhesive.product_file import find_product, parse_product
from bench.adhesive.scale import Scale
from tests.fakes.products import CHECKS, example, rounded, two_part_products

PASTE = parse_product(example(), "x")
READY = find_product("white-ready")
areas = rounded(50, 20_000, 1)
scales = st.builds(Scale, st.sampled_from([0.01, 0.1, 0.5, 1.0]), st.booleans())


def test_the_batch_is_the_bed_times_density_plus_waste_and_residue():
    """Worked by hand: 100 cm² at 0.8 mm is 8 cm³; 8 * 1.5259 * 1.1 + 1.5 = 14.93 g, of it 2/3 resin."""
    batch = prescribe(PASTE, bed_area_mm2=10_000)
    assert batch.volume_cm3 == pytest.approx(8.0)
    assert batch.mixed_density_g_per_cm3 == pytest.approx(1.5 / (1 / 1.55 + 0.5 / 1.48))
    assert (batch.resin_g, batch.hardener_g) == (10.0, 5.0)
    assert batch.worst_ratio_error == pytest.approx((1 + 0.1 / 5) / (1 - 0.1 / 20) - 1)
    assert batch.scale_ok


@given(two_part_products(), areas, rounded(0.5, 2), rounded(0, 0.5), rounded(0, 3), scales)
@settings(max_examples=100, deadline=None)
def test_mass_balance_is_exact_and_within_a_step_of_what_the_bed_needs(
    product, area, bed, waste, residue, scale
):
    batch = prescribe(product, bed_area_mm2=area, bed_mm=bed, waste=waste, residue_g=residue, scale=scale)
    needed_g = area * bed / 1000 * product.mixed_density_g_per_cm3 * (1 + waste) + residue
    assert batch.resin_g + batch.hardener_g == batch.total_g
    assert batch.hardener_target_g == batch.resin_g * product.mass_ratio
    if batch.resin_g > scale.step_g:
        off_by_at_most = scale.step_g / 2 * (2 + product.mass_ratio) + 1e-6
        assert abs(batch.total_g - needed_g) <= off_by_at_most
    for mass_g in (batch.resin_g, batch.hardener_g):
        assert mass_g / scale.step_g == pytest.approx(round(mass_g / scale.step_g), abs=1e-6)


@given(two_part_products(), areas, areas, scales)
@settings(max_examples=60, deadline=None)
def test_more_area_never_takes_less(product, one, other, scale):
    small, large = (prescribe(product, bed_area_mm2=area, scale=scale) for area in sorted((one, other)))
    assert small.resin_g <= large.resin_g
    assert small.hardener_g <= large.hardener_g
    assert small.smallest_batch_g == large.smallest_batch_g


@given(two_part_products(), rounded(0.3, 200), scales, st.floats(-1, 1), st.floats(-1, 1))
@settings(max_examples=200, deadline=None)
def test_no_reading_the_scale_allows_is_further_off_than_the_worst_case(product, resin, scale, up, down):
    """What is in the cup differs from the prescription by what the scale cannot show, never by more."""
    batch = prescribe(product, bed_area_mm2=100, scale=scale, poured_resin_g=resin)
    assume(math.isfinite(batch.worst_ratio_error))
    in_cup_resin = batch.resin_g + up * scale.step_g / 2
    in_cup_hardener = batch.hardener_g + down * scale.second_reading_g
    off = in_cup_hardener / (in_cup_resin * product.mass_ratio) - 1
    assert abs(off) <= batch.worst_ratio_error + 1e-9


@pytest.mark.parametrize(
    ("resin", "scale", "worst"),
    [
        (6.0, Scale(0.1), (1 + 0.1 / 3.0) / (1 - 0.1 / 12.0) - 1),
        (6.0, Scale(0.1, cumulative=True), (1 + 0.15 / 3.0) / (1 - 0.1 / 12.0) - 1),
        (60.0, Scale(1), (1 + 1 / 30) / (1 - 1 / 120) - 1),
        (0.5, Scale(1), math.inf),
        (0.4, Scale(1), math.inf),
        (1.0, Scale(1), math.inf),  # half a gram of hardener shows as 0 or 1
        (0.05, Scale(0.1), math.inf),
    ],
)
def test_the_worst_case_is_one_plus_d_over_h_over_one_minus_d_over_two_r(resin, scale, worst):
    assert worst == pytest.approx(worst_ratio_error(PASTE, resin_g=resin, scale=scale))


def test_a_hardener_rounded_up_by_almost_half_a_step_is_granted_no_less_than_its_bound():
    """2.551 g shows as 2.6 g and may be 2.65 g: a little more than d/H of the prescribed 2.6 g."""
    worst = worst_ratio_error(PASTE, resin_g=5.102, scale=Scale(0.1))
    assert worst == pytest.approx(2.65 / 2.551 / (1 - 0.1 / 10.204) - 1)
    assert worst > (1 + 0.1 / 2.6) / (1 - 0.1 / 10.204) - 1


@given(two_part_products(), scales)
@settings(max_examples=60, deadline=None)
def test_the_smallest_batch_holds_and_nothing_smaller_does(product, scale):
    total_g = smallest_batch_g(product, scale)
    steps = 1
    while worst_ratio_error(product, resin_g=scale.on_step_g(steps), scale=scale) > product.tolerance:
        steps += 1
    resin_g = scale.on_step_g(steps)
    assert total_g == resin_g + scale.nearest_g(resin_g * product.mass_ratio)


def test_a_small_batch_cannot_be_held_on_a_one_gram_scale_and_the_other_is_named():
    """Held within 5 % (common practice, no source): 8 g on a 1 g scale is not, 78 g is."""
    coarse = prescribe(PASTE, bed_area_mm2=5000, scale=Scale(1))
    fine = prescribe(PASTE, bed_area_mm2=5000, scale=Scale(0.1))
    assert (coarse.scale_ok, fine.scale_ok) == (False, True)
    assert coarse.smallest_batch_g > 70
    assert fine.smallest_batch_g < fine.total_g


def test_what_the_scale_cannot_hold_is_answered_in_grams():
    coarse = Scale(1)
    batch = prescribe(PASTE, bed_area_mm2=6000, scale=coarse)
    said = scale_advice(PASTE, batch, coarse)
    assert f"mix {batch.smallest_batch_g:.1f} g, or use a 0.1 g scale." in said
    assert "join" not in said  # eight sections of this size would make one batch
    assert scale_advice(PASTE, prescribe(PASTE, bed_area_mm2=6000), Scale()) == ""


def test_two_small_sections_are_joined_to_what_the_scale_can_hold():
    small = prescribe(PASTE, bed_area_mm2=2500)
    lacks_g = small.smallest_batch_g - small.total_g
    assert not small.scale_ok
    assert f"or join another section that takes {lacks_g:.1f} g." in scale_advice(PASTE, small, Scale())
    assert small.total_g + lacks_g == pytest.approx(smallest_batch_g(PASTE, Scale()))


def test_a_cumulative_scale_that_misses_by_little_is_told_to_tare():
    summed = Scale(0.1, cumulative=True)
    batch = prescribe(PASTE, bed_area_mm2=5000, scale=summed)
    assert not batch.scale_ok
    assert "tare between the parts" in scale_advice(PASTE, batch, summed)


def test_ten_to_one_asks_more_of_the_scale_than_one_to_one():
    """Common practice, no source: a lopsided ratio is the more sensitive one."""
    even = parse_product(example({"[100, 50]": "[1, 1]"}), "x")
    lopsided = parse_product(example({"[100, 50]": "[10, 1]"}), "x")
    assert smallest_batch_g(lopsided, Scale()) > 2 * smallest_batch_g(even, Scale())


def test_sections_of_a_foot_square_weigh_what_the_trade_says():
    """Common practice, no source: 18 to 32 sections of 4 to 12 g, 100 to 250 g in all."""
    foot = CHECKS["foot_square"]
    least, most = foot["section_g"]
    for sections in foot["sections"]:
        batch = prescribe(PASTE, bed_area_mm2=foot["side_mm"] ** 2 / sections)
        assert least <= batch.total_g <= most
        assert foot["panel_g"][0] <= batch.total_g * sections <= foot["panel_g"][1]


@given(two_part_products(), areas, scales, st.integers(1, 15))
@settings(max_examples=60, deadline=None)
def test_the_ladder_climbs_by_one_step_and_holds_the_prescription(product, area, scale, rungs):
    batch = prescribe(product, bed_area_mm2=area, scale=scale)
    steps = ladder(product, batch, scale, rungs)
    assert len(steps) == rungs
    assert (batch.resin_g, batch.hardener_g) in [(rung.resin_g, rung.hardener_g) for rung in steps]
    for lower, upper in itertools.pairwise(steps):
        assert upper.resin_g - lower.resin_g == pytest.approx(scale.step_g)
        assert lower.hardener_g <= upper.hardener_g
    assert steps[0].resin_g > 0


def test_the_hardener_follows_the_resin_actually_poured():
    batch = prescribe(PASTE, bed_area_mm2=5000, poured_resin_g=6.4)
    assert (batch.resin_g, batch.hardener_g, batch.hardener_target_g) == (6.4, 3.2, 3.2)
    assert batch.total_g == pytest.approx(9.6)


def test_a_ready_adhesive_is_grams_only():
    batch = prescribe(READY, bed_area_mm2=10_000)
    assert (batch.hardener_g, batch.worst_ratio_error, batch.scale_ok) == (0.0, 0.0, True)
    assert batch.resin_g == batch.total_g == pytest.approx(8 * 1.6 * 1.1 + 1.5, abs=0.05)
    assert {rung.hardener_g for rung in ladder(READY, batch, Scale())} == {0.0}


@given(two_part_products(), rounded(1, 100), rounded(1, 100), scales)
@settings(max_examples=100, deadline=None)
def test_what_is_added_brings_the_cup_back_to_its_ratio(product, resin, hardener, scale):
    cup = judge_poured(product, resin_g=resin, hardener_g=hardener, scale=scale)
    assert min(cup.resin_to_add_g, cup.hardener_to_add_g) == 0
    assert abs(cup.ratio_error) <= cup.worst_ratio_error
    if abs(cup.ratio_error) <= product.tolerance:
        assert cup.resin_to_add_g == cup.hardener_to_add_g == 0
    else:
        off_g = (hardener + cup.hardener_to_add_g) - (resin + cup.resin_to_add_g) * product.mass_ratio
        assert abs(off_g) <= scale.step_g / 2 * max(1, product.mass_ratio) + 1e-6


def test_over_poured_hardener_gives_the_resin_to_add():
    cup = judge_poured(PASTE, resin_g=6.0, hardener_g=3.6)
    assert cup.ratio_error == pytest.approx(0.2)
    assert (cup.resin_to_add_g, cup.hardener_to_add_g, cup.within_tolerance) == (1.2, 0.0, False)


@pytest.mark.parametrize(
    ("resin", "hardener", "words"),
    [
        (0.0, 3.0, "pour 6 g of resin"),
        (0.0, 0.0, "0.0 g of resin"),
        (6.0, 0.0, "0.0 g of hardener"),
        (0.006, 3.0, "out of range"),
        (-6.0, 3.0, "-6"),
        (math.nan, 3.0, "nan"),
    ],
)
def test_readings_that_cannot_be_end_in_one_line(resin, hardener, words):
    if words == "out of range":
        cup = judge_poured(PASTE, resin_g=resin, hardener_g=hardener)
        assert cup.worst_ratio_error == math.inf
        return
    with pytest.raises(AmountNotAllowed, match=words):
        judge_poured(PASTE, resin_g=resin, hardener_g=hardener)


def test_a_ready_adhesive_is_given_no_hardener():
    with pytest.raises(AmountNotAllowed, match="no hardener"):
        judge_poured(READY, resin_g=6, hardener_g=3)


@pytest.mark.parametrize(
    ("figure", "value"),
    [
        ("bed_area_mm2", 0),
        ("bed_area_mm2", math.inf),
        ("bed_area_mm2", -5),
        ("bed_mm", 0),
        ("bed_mm", 80),
        ("waste", -0.1),
        ("waste", 10),
        ("residue_g", math.nan),
        ("poured_resin_g", 0.0),
        ("poured_resin_g", 0.0005),
        ("poured_resin_g", 1e9),
    ],
)
def test_figures_that_are_not_sane_are_refused_by_name(figure, value):
    with pytest.raises(AmountNotAllowed) as caught:
        prescribe(PASTE, **{"bed_area_mm2": 5000, figure: value})
    assert caught.value.field == figure
    assert caught.value.todo


@pytest.mark.parametrize("step", [0, -0.1, math.nan, 1000])
def test_a_scale_without_a_sane_step_is_refused(step):
    with pytest.raises(AmountNotAllowed):
        Scale(step)

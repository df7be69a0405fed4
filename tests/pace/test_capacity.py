"""What fits one batch at the promise."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace.capacity import SureOutOfRange, WorkingTimeTooShort, capacity, probability_in_time
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.life import Life, WorkingTimeNotPositive, learn_life, standard_nodes
from bench.pace.routine import Routine

LABEL_S = 1500.0


def of(pace_per_min=5.0, glue_ups=(), working_time_s=LABEL_S, **more):
    hands = learn_hands(glue_ups, pace_per_min=pace_per_min, now_utc=more.pop("now_utc", None))
    life = learn_life(glue_ups, working_time_s=working_time_s)
    routine = more.pop("routine", Routine())
    return capacity(hands, life, working_time_s=working_time_s, routine=routine, **more)


def medium(pieces, seconds, **more):
    made = GlueUp(None, 0, pieces, 0, seconds, 0.0, 21.0, seconds + 150, None, True)
    return replace(made, **more)


def test_a_foot_square_of_2000_pieces_takes_18_to_32_sections():
    """Common practice, no source: 304.8 mm square, over 2,000 pieces, 25 min, 5 a minute: 18 to 32 sections.

    The wish to keep forms whole may add a tenth, so the fewest must leave room for it.
    """
    found = of(area_per_piece_mm2=304.8**2 / 2000)
    sections = math.ceil(2000 / found.pieces_medium)
    assert sections >= 18
    assert sections * 1.1 <= 32


def test_the_working_time_is_the_sum_of_its_parts():
    found = of()
    parts = found.stir_s + found.spread_s + found.capacity_s + found.clean_s + found.reserve_s
    assert math.isclose(parts, LABEL_S)


@pytest.mark.parametrize("sure", [0.5, 0.75, 0.9, 0.95, 0.99])
def test_a_section_filled_to_capacity_keeps_exactly_the_promise(sure):
    hands, life = learn_hands([]), learn_life([], working_time_s=LABEL_S)
    found = capacity(hands, life, working_time_s=LABEL_S, routine=Routine(), sure=sure)
    chance = probability_in_time(
        hands,
        life,
        counts=(0, found.capacity_effort, 0),
        area_mm2=found.capacity_effort * 46.5,
        working_time_s=LABEL_S,
        routine=Routine(),
    )
    assert math.isclose(chance, sure, abs_tol=1e-6)


def test_one_more_piece_breaks_the_promise_and_one_less_keeps_it():
    hands, life = learn_hands([]), learn_life([], working_time_s=LABEL_S)
    n = capacity(hands, life, working_time_s=LABEL_S, routine=Routine()).pieces_medium
    chances = probability_in_time(
        hands,
        life,
        counts=[(0, n, 0), (0, n + 1, 0)],
        area_mm2=np.array([n, n + 1]) * 46.5,
        working_time_s=LABEL_S,
        routine=Routine(),
    )
    assert chances[0] >= 0.9 > chances[1]


def test_sigma_alone_changes_the_capacity():
    hands, life = learn_hands([]), learn_life([], working_time_s=LABEL_S)
    calm = replace(hands, nig=replace(hands.nig, beta=hands.nig.beta / 4))
    both = [capacity(h, life, working_time_s=LABEL_S, routine=Routine()) for h in (hands, calm)]
    assert both[0].capacity_s < both[1].capacity_s


def test_a_stringy_glue_up_shrinks_tomorrows_capacity():
    before = [medium(60, 700), medium(62, 730)]
    finished = medium(60, 700, finished_after_s=1000.0)
    stringy = medium(60, 700, finished_after_s=None, stringy_after_s=1000.0, all_placed=False)
    assert of(glue_ups=[*before, stringy]).capacity_s < 0.95 * of(glue_ups=[*before, finished]).capacity_s


@settings(max_examples=25, deadline=None)
@given(st.floats(0.5, 0.98), st.floats(0.5, 0.98), st.integers(0, 4))
def test_the_earlier_it_goes_stringy_the_less_fits_tomorrow(first, second, finished):
    first, second = sorted((first, second))
    book = [medium(60, 700)] * finished
    told = [
        of(glue_ups=[*book, medium(60, 700, finished_after_s=None, stringy_after_s=part * LABEL_S)])
        for part in (first, second)
    ]
    assert told[0].capacity_s <= told[1].capacity_s * (1 + 1e-6)
    assert told[1].capacity_s < of(glue_ups=[*book, medium(60, 700)]).capacity_s


@settings(max_examples=20, deadline=None)
@given(st.integers(2, 12), st.floats(10, 200))
def test_ten_days_away_hold_less_than_yesterday(n, days):
    start = datetime(2025, 3, 1, 9, tzinfo=UTC)
    book = [medium(60, 700 + 40 * (k % 3), started_utc=start + timedelta(days=k)) for k in range(n)]
    last = book[-1].started_utc
    soon = of(glue_ups=book, now_utc=last + timedelta(days=1))
    assert of(glue_ups=book, now_utc=last + timedelta(days=days)).capacity_s < soon.capacity_s


def test_a_working_time_that_holds_no_piece_names_the_minutes():
    with pytest.raises(WorkingTimeTooShort, match=r"working time of 1\.5 min.*take 1\.6 min") as told:
        of(working_time_s=90.0)
    assert (told.value.working_time_s, told.value.sure) == (90.0, 0.9)


@pytest.mark.parametrize("working_time_s", [0.0, -60.0, math.nan, math.inf])
def test_a_working_time_that_is_no_time_is_refused(working_time_s):
    with pytest.raises(WorkingTimeNotPositive):
        of(working_time_s=working_time_s)


@pytest.mark.parametrize("sure", [0.0, 0.49, 0.991, 1.0, math.nan])
def test_a_promise_outside_half_to_99_of_100_is_refused(sure):
    with pytest.raises(SureOutOfRange, match="sure of"):
        of(sure=sure)


@settings(max_examples=30, deadline=None)
@given(st.floats(1, 20), st.floats(1.02, 2), st.floats(0.5, 0.97), st.floats(0.005, 0.02))
def test_slower_hands_or_a_surer_promise_hold_less(pace, faster, sure, surer):
    base = of(pace, sure=sure)
    assert base.capacity_effort < of(pace * faster, sure=sure).capacity_effort
    assert of(pace, sure=sure + surer).capacity_effort < base.capacity_effort


def test_no_pieces_are_in_time_unless_the_rest_takes_too_long():
    hands, life = learn_hands([]), learn_life([], working_time_s=LABEL_S)
    chances = probability_in_time(
        hands,
        life,
        counts=np.zeros((2, 3)),
        area_mm2=np.array([100.0, 1e7]),
        working_time_s=LABEL_S,
        routine=Routine(),
    )
    assert chances.tolist() == pytest.approx([1.0, 0.0], abs=1e-9)


def test_many_sections_have_the_chances_they_have_one_by_one():
    hands, life = learn_hands([medium(60, 700)]), learn_life([], working_time_s=LABEL_S)
    rng = np.random.default_rng(1)
    counts, area = rng.integers(0, 50, (2500, 3)), rng.uniform(500, 6000, 2500)
    label = rng.uniform(900, 1800, 2500)
    told = {"routine": Routine()}
    together = probability_in_time(hands, life, counts=counts, area_mm2=area, working_time_s=label, **told)
    alone = [
        probability_in_time(
            hands, life, counts=counts[k], area_mm2=area[k], working_time_s=float(label[k]), **told
        )
        for k in (0, 1999, 2000, 2499)
    ]
    assert together[[0, 1999, 2000, 2499]].tolist() == pytest.approx(alone, abs=1e-12)


def test_the_quadrature_agrees_with_an_adaptive_one_to_a_ten_thousandth():
    """scipy.integrate.quad over a log-normal life, scipy.stats.t for the predictive setting time."""
    from scipy import integrate, stats

    hands, life = learn_hands([]), Life(0.12 * standard_nodes()[0])
    scale = math.sqrt(0.18**2 / 2 * (1 + 1 / (0.18 / 0.35) ** 2))
    for pieces in (20, 70, 110):
        around = Routine().around_s(pieces * 46.5)

        def density(z, pieces=pieces, around=around):
            left = LABEL_S * math.exp(0.12 * z) - around
            chance = stats.t.cdf((math.log(left) - math.log(12.0 * pieces)) / scale, 4) if left > 0 else 0.0
            return chance * stats.norm.pdf(z)

        expected, _ = integrate.quad(density, -8, 8, epsabs=1e-9)
        found = probability_in_time(
            hands,
            life,
            counts=(0, pieces, 0),
            area_mm2=pieces * 46.5,
            working_time_s=LABEL_S,
            routine=Routine(),
        )
        assert math.isclose(expected, found, abs_tol=1e-4)

"""Trends and laying, against published tables and reference libraries."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from importlib.resources import files

import numpy as np
import pytest

from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.laying import BadSpell, Spell, learn_laying
from bench.pace.trends import (
    TooFewForTrend,
    class_effort,
    least_squares,
    life_on_warm_days,
    practice_and_tiring,
    t_quantile,
)

DAY0 = datetime(2025, 3, 1, 9, tzinfo=UTC)


def glue_up(k, seconds, a_day=1, **more):
    started = DAY0 + timedelta(days=k // a_day, hours=2 * (k % a_day))
    return replace(GlueUp(started, 0, 60, 0, seconds, 0.0, 21.0, None, None, True), **more)


def test_least_squares_certifies_on_norris():
    """NIST Statistical Reference Datasets, Norris: B0, B1, residual sd, and their standard deviations."""
    text = files("scipy.stats.tests").joinpath("data/nist_linregress/Norris.dat").read_text()
    rows = [[float(part) for part in line.split()] for line in text.splitlines()[60:96]]
    y, x = np.array(rows).T
    fit = least_squares(np.column_stack([np.ones(len(x)), x]), y)
    assert fit.coefficient.tolist() == pytest.approx([-0.262323073774029, 1.00211681802045], rel=1e-11)
    assert fit.residual_sd == pytest.approx(0.884796396144373, rel=1e-11)
    assert fit.sd.tolist() == pytest.approx([0.232818234301152, 0.429796848199937e-3], rel=1e-10)


def test_t_quantiles_agree_with_scipy():
    from scipy import stats

    for freedom in (2, 3, 10, 100):
        assert t_quantile(0.9, freedom) == pytest.approx(stats.t.ppf(0.9, freedom), rel=2e-4)


def test_wrights_80_per_cent_curve_is_recognised():
    """Wright (1936), unit times of the 80 % curve: 100, 80, 70.21, 64, 59.56, 56.17; exponent log2 0.8."""
    book = [glue_up(k, 10 * t) for k, t in enumerate((100, 80, 70.21, 64, 59.56, 56.17))]
    practice, tiring = practice_and_tiring(book, learn_hands(book))
    assert practice.value == pytest.approx(math.log2(0.8), abs=1e-4)
    assert practice.clear
    assert not tiring.clear


def test_wrights_cumulative_averages_follow_from_the_unit_times_of_the_average_curve():
    """The average after 2 is 80 and after 4 is 64, so the second takes 60 and all four 256."""
    average = 100 * np.arange(1, 5) ** math.log2(0.8)
    unit = np.diff(np.concatenate([[0], average * np.arange(1, 5)]))
    assert (unit[1], unit.sum()) == pytest.approx((60, 256))
    book = [glue_up(k, float(t)) for k, t in enumerate(np.cumsum(unit) / np.arange(1, 5))]
    assert practice_and_tiring(book, learn_hands(book))[0].value == pytest.approx(math.log2(0.8))


def test_the_third_mix_of_a_day_shows_as_slower():
    rng = np.random.default_rng(4)
    book = [glue_up(k, 700 * 1.1 ** (k % 3) * math.exp(0.03 * rng.normal()), a_day=3) for k in range(18)]
    practice, tiring = practice_and_tiring(book, learn_hands(book))
    assert tiring.low < 1.1 < tiring.high
    assert tiring.clear
    assert not practice.clear


def test_small_pieces_show_as_more_than_their_share():
    rng = np.random.default_rng(6)
    book = []
    for k in range(30):
        small = int(rng.integers(0, 60))
        seconds = (0.7 * small + (60 - small)) * 12 * math.exp(0.05 * rng.normal())
        book.append(glue_up(k, seconds, small=small, medium=60 - small))
    effort = class_effort(learn_hands(book), 0)
    assert effort.low < 0.7 < effort.high
    assert effort.clear


def test_warm_days_shorten_the_life_beyond_the_label():
    rng = np.random.default_rng(7)
    book = []
    for k in range(40):
        warm = float(rng.uniform(16, 32))
        life_s = 1500 * 0.8 ** ((warm - 23) / 10) * math.exp(0.05 * rng.normal())
        told = {"stringy_after_s": life_s} if k % 2 else {"finished_after_s": 0.95 * life_s}
        book.append(glue_up(k, 600.0, temperature_C=warm, **told))
    trend = life_on_warm_days(book, working_time_s=1500.0)
    assert trend.low < 0.8 < trend.high
    assert trend.clear


def test_too_little_shows_no_trend():
    with pytest.raises(TooFewForTrend):
        practice_and_tiring([glue_up(0, 700.0)], learn_hands([]))
    with pytest.raises(TooFewForTrend):
        life_on_warm_days([], working_time_s=1500.0)
    with pytest.raises(TooFewForTrend):
        least_squares(np.ones((5, 2)), np.arange(5.0))


def test_laying_starts_from_the_stated_pace_and_follows_the_spells():
    prior = learn_laying([])
    assert prior.hours(100)["p50"] == pytest.approx(2.0)
    learned = learn_laying([Spell(40, 3600.0), Spell(21, 1800.0), Spell(80, 7200.0)])
    told = learned.hours(100)
    assert told["p50"] == pytest.approx(2.45, rel=0.05)
    assert told["p10"] < told["p50"] < told["p90"]
    assert told["p90"] - told["p10"] < prior.hours(100)["p90"] - prior.hours(100)["p10"]


@pytest.mark.parametrize(("pieces", "seconds"), [(0, 60.0), (5, 0.0), (5, math.nan), (-1, 60.0)])
def test_a_spell_without_pieces_or_time_is_refused(pieces, seconds):
    with pytest.raises(BadSpell):
        Spell(pieces, seconds)

"""What a bed takes and a cup keeps, learned from weighed cups: against hand figures and SciPy."""

import math
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace import coverage as cv
from bench.pace.coverage import BadWeighing, Weighing, learn_coverage

MONDAY = datetime(2026, 5, 4, 9, tzinfo=UTC)


def weighed(factor, *, stayed_g=1.5, cup="over", day=None):
    """A cup after a bed of 40 cm², reckoned at 0.12 g/cm², that took `factor` times as much."""
    mixed_g = 40 * 0.12 * factor + stayed_g
    at_utc = None if day is None else MONDAY + timedelta(days=day)
    return Weighing(at_utc, 40.0, 0.12, mixed_g, stayed_g, cup)


def test_the_factor_of_a_weighing_worked_by_hand():
    """8 g mixed, 1.28 g stayed: 6.72 g on 42 cm² is 0.16 g/cm²; reckoned were 0.128: 1.25 times."""
    assert Weighing(None, 42.0, 0.128, 8.0, 1.28).factor == pytest.approx(1.25)


def test_without_a_weighing_the_settings_stand():
    found = learn_coverage([], residue_g=1.5)
    assert found.factor["p50"] == pytest.approx(1.0, abs=1e-6)
    assert (found.bed_factor, found.batch_residue_g, found.waste(0.1)) == (
        pytest.approx(1.0, abs=1e-6),
        1.5,
        0.1,
    )


def test_before_any_weighing_8_of_10_beds_are_foretold_by_the_stated_spread():
    """A normal of sd √(0.30² + 0.10²·e^{2·0.35²}) about the settings, by SciPy's quantile."""
    from scipy import stats

    found = learn_coverage([], residue_g=1.5)
    sd = math.sqrt(0.30**2 + 0.10**2 * math.exp(2 * 0.35**2))
    assert math.log(found.factor["p90"]) == pytest.approx(stats.norm.ppf(0.9) * sd, rel=0.01)
    assert found.factor["p10"] * found.factor["p90"] == pytest.approx(1.0, rel=1e-3)


def test_with_a_known_scatter_it_is_the_conjugate_normal(monkeypatch):
    """Posterior mean (Σx/τ²)/(1/s² + n/τ²), predictive sd √(τ² + 1/(1/s² + n/τ²)); SciPy's quantiles."""
    from scipy import stats

    monkeypatch.setattr(cv, "SCATTER_SD_LOG", 1e-9)
    monkeypatch.setattr(cv, "SLIP_SHARE", 0.0)
    factors = [1.2, 1.1, 1.3, 1.15]
    found = learn_coverage([weighed(f) for f in factors], residue_g=1.5, half_life=None)
    precision = 1 / 0.30**2 + len(factors) / 0.10**2
    mean = sum(math.log(f) for f in factors) / 0.10**2 / precision
    next_one = stats.norm(mean, math.sqrt(0.10**2 + 1 / precision))
    for p, name in ((0.1, "p10"), (0.5, "p50"), (0.9, "p90")):
        assert math.log(found.factor[name]) == pytest.approx(next_one.ppf(p), abs=1e-3)


def by_quadrature(values, sides, weights, *, centre, sd, scatter, p):
    """The quantile of the next value by SciPy's integrals over μ and log τ, written out anew."""
    from scipy import integrate, optimize, stats

    def terms(x, side, mu, tau):
        told, slip = stats.norm(mu, tau), stats.norm(centre, cv.SLIP_SD)
        of = {0: lambda d: d.pdf(x), 1: lambda d: d.sf(x), -1: lambda d: d.cdf(x)}[side]
        return (1 - cv.SLIP_SHARE) * of(told) + cv.SLIP_SHARE * of(slip)

    mus = np.linspace(centre - 1.4, centre + 1.4, 701)
    log_taus = math.log(scatter) + 0.35 * np.linspace(-3.0, 3.0, 61)
    mu, log_tau = np.meshgrid(mus, log_taus, indexing="ij")
    density = stats.norm(centre, sd).pdf(mu) * stats.norm(math.log(scatter), 0.35).pdf(log_tau)
    for x, side, weight in zip(values, sides, weights, strict=True):
        density = density * terms(x, side, mu, np.exp(log_tau)) ** weight

    def total(of):
        return integrate.simpson(integrate.simpson(of, x=log_taus, axis=1), x=mus)

    def below(x):
        return total(density * stats.norm(mu, np.exp(log_tau)).cdf(x)) / total(density)

    return optimize.brentq(lambda x: below(x) - p, centre - 3, centre + 3)


@pytest.mark.parametrize(
    "cups",
    [
        [(1.2, "over"), (1.25, "over")],
        [(1.0, "short"), (1.05, "short"), (1.3, "over")],
        [(0.9, "scraped"), (0.95, "over"), (0.2, "over"), (0.92, "short")],
    ],
)
def test_the_grid_agrees_with_scipys_integrals(cups):
    found = learn_coverage([weighed(f, cup=cup) for f, cup in cups], residue_g=1.5)
    ages = np.arange(len(cups))[::-1]
    values, sides = [math.log(f) for f, _ in cups], [1 if cup == "short" else 0 for _, cup in cups]
    for p, name in ((0.1, "p10"), (0.5, "p50"), (0.9, "p90")):
        expected = by_quadrature(values, sides, 0.5 ** (ages / 12), centre=0.0, sd=0.3, scatter=0.1, p=p)
        assert math.log(found.factor[name]) == pytest.approx(expected, abs=4e-3)


def test_a_hundredfold_slip_of_the_scale_moves_the_batch_by_little():
    good = [weighed(f) for f in (1.05, 1.0, 1.02, 0.98, 1.01)]
    slipped = [*good, weighed(0.08)]
    before, after = (learn_coverage(w, residue_g=1.5).bed_factor for w in (good, slipped))
    assert after == pytest.approx(before, rel=0.02)
    assert learn_coverage([weighed(0.08)], residue_g=1.5).bed_factor >= 0.9


def test_newer_cups_weigh_more():
    rising = [weighed(f, day=k) for k, f in enumerate([0.9] * 9 + [1.2] * 9)]
    falling = [weighed(f, day=k) for k, f in enumerate([1.2] * 9 + [0.9] * 9)]
    up, down, same = (learn_coverage(x, residue_g=1.5).bed_factor for x in (rising, falling, rising[::-1]))
    assert up > down
    assert same == pytest.approx(up)


def test_a_batch_is_not_much_below_the_settings_until_three_weighings_say_otherwise():
    for count, least in ((1, 0.9), (2, 0.9), (3, 0.0)):
        found = learn_coverage([weighed(0.6, stayed_g=0.5, cup="scraped")] * count, residue_g=1.5)
        assert found.bed_factor >= least
        assert found.batch_residue_g >= least * 1.5
        assert found.factor["p50"] < 0.75
    assert found.bed_factor < 0.75
    assert found.batch_residue_g < 0.9 * 1.5


def test_what_ran_short_is_never_read_as_enough():
    """The bed got 1.0 times what was reckoned and wanted more: the next one is given more."""
    short = learn_coverage([weighed(1.0, cup="short")] * 3, residue_g=1.5)
    enough = learn_coverage([weighed(1.0, cup="scraped")] * 3, residue_g=1.5)
    assert short.bed_factor > 1.1 > 1.02 > enough.bed_factor


def test_a_scraped_cup_tells_what_stays_and_one_with_left_overs_only_the_most():
    scraped = learn_coverage([weighed(1.0, stayed_g=2.4, cup="scraped")] * 5, residue_g=1.5)
    over = learn_coverage([weighed(1.0, stayed_g=2.4, cup="over")] * 5, residue_g=1.5)
    assert scraped.residue_g["p50"] == pytest.approx(2.4, rel=0.05)
    assert over.residue_g["p50"] < 1.5


def test_from_three_weighings_on_nine_beds_in_ten_are_allowed_for():
    scattered = [weighed(f) for f in (0.7, 1.4, 0.8, 1.3, 0.75, 1.35)]
    found = learn_coverage(scattered, residue_g=1.5)
    assert found.bed_factor * (1 + found.waste(0.1)) == pytest.approx(found.factor["p90"])
    assert learn_coverage(scattered[:2], residue_g=1.5).waste(0.1) == 0.1


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("bed_cm2", 0.0),
        ("bed_cm2", math.inf),
        ("reckoned_g_per_cm2", -1.0),
        ("mixed_g", math.nan),
        ("stayed_g", -0.1),
        ("stayed_g", 9.0),
        ("stayed_g", 1e9),
        ("stayed_g", math.nan),
    ],
)
def test_a_weighing_that_cannot_be_is_refused_by_name(field, value):
    fine = {"at_utc": None, "bed_cm2": 40.0, "reckoned_g_per_cm2": 0.12, "mixed_g": 8.0, "stayed_g": 1.0}
    with pytest.raises(BadWeighing) as caught:
        Weighing(**{**fine, field: value})
    assert caught.value.field == field


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.05, 8.0), st.floats(0.0, 6.0), st.sampled_from(["scraped", "over", "short"])),
        max_size=12,
    ),
    st.floats(0.0, 5.0),
)
def test_whatever_was_weighed_the_figures_are_in_order_and_above_nothing(cups, residue_g):
    found = learn_coverage([weighed(f, stayed_g=s, cup=c) for f, s, c in cups], residue_g=residue_g)
    for spread in (found.factor, found.residue_g):
        assert 0 < spread["p10"] < spread["p50"] < spread["p90"] < math.inf
    assert found.bed_factor > 0
    assert found.batch_residue_g >= 0
    assert found.waste(0.1) >= 0.1


@settings(max_examples=20, deadline=None)
@given(st.floats(0.6, 1.7), st.lists(st.floats(-1.5, 1.5), min_size=14, max_size=14))
def test_many_cups_lead_to_what_the_makers_bed_truly_takes(truth, noise):
    found = learn_coverage([weighed(truth * math.exp(0.08 * z)) for z in noise], residue_g=1.5)
    assert found.factor["p50"] == pytest.approx(truth, rel=0.14)

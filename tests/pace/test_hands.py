"""What the book learns about a maker's hands."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace.glueup import GlueUp
from bench.pace.hands import HalfLifeNotPositive, PaceOutOfRange, learn_hands
from bench.pace.moments import ALPHA0, BETA0, CLASS_SD, KAPPA0, NormalInverseGamma, posterior

DAY0 = datetime(2025, 3, 1, 9, tzinfo=UTC)


def glue_up(seconds, small=0, medium=60, large=0, **more):
    return GlueUp(None, small, medium, large, seconds, 0.0, 21.0, None, None, True, **more)


def by_hand(rates, weights=None, pace=5.0):
    """The conjugate update written out: as any text on Bayesian statistics has it (from memory)."""
    y, w = np.array(rates), np.ones(len(rates)) if weights is None else np.array(weights)
    m0, kappa = math.log(60 / pace), KAPPA0 + w.sum()
    m = (KAPPA0 * m0 + w @ y) / kappa
    mean = w @ y / w.sum()
    squares = w @ (y - mean) ** 2 + KAPPA0 * w.sum() / kappa * (mean - m0) ** 2
    return m, kappa, ALPHA0 + w.sum() / 2, BETA0 + squares / 2


def numbers(nig):
    return nig.m, nig.kappa, nig.alpha, nig.beta


def test_the_prior_trusts_the_stated_pace_within_a_third_and_a_scatter_of_018():
    nig = learn_hands([], pace_per_min=4.0).nig
    assert numbers(nig) == pytest.approx((math.log(15), 0.2645, 2.0, 0.0324), abs=1e-4)
    assert pytest.approx(nig.beta / (nig.alpha - 1)) == 0.18**2
    assert pytest.approx(0.18**2 / nig.kappa) == 0.35**2


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(5, 30), min_size=1, max_size=12), st.floats(1, 20))
def test_medium_pieces_alone_give_the_plain_conjugate_update(rates, pace):
    book = [glue_up(60 * rate) for rate in rates]
    hands = learn_hands(book, pace_per_min=pace, half_life=None, spare_wild=False)
    assert numbers(hands.nig) == pytest.approx(by_hand(np.log(rates), pace=pace), rel=1e-9)
    assert hands.expected_s.tolist() == pytest.approx([math.exp(hands.nig.m)] * 3)


def test_the_posterior_moments_are_those_of_scipys_normal_inverse_gamma():
    """scipy.stats.normal_inverse_gamma(mu, lmbda, a, b): mean and variance of (μ, σ²), and its density."""
    from scipy import stats

    nig = learn_hands([glue_up(s) for s in (650, 800, 720, 910)], half_life=None).nig
    book = stats.normal_inverse_gamma(nig.m, nig.kappa, nig.alpha, nig.beta)
    mean_mu, mean_variance = book.mean()
    assert (mean_mu, mean_variance) == pytest.approx((nig.m, nig.beta / (nig.alpha - 1)))
    prior = stats.normal_inverse_gamma(math.log(12), KAPPA0, ALPHA0, BETA0)
    y = np.log(np.array([650, 800, 720, 910]) / 60)
    # Posterior over prior times likelihood is one constant, wherever it is looked at.
    points = [(2.3, 0.02), (2.5, 0.05), (2.8, 0.1)]
    ratio = [
        book.logpdf(mu, v) - prior.logpdf(mu, v) - stats.norm.logpdf(y, mu, math.sqrt(v)).sum()
        for mu, v in points
    ]
    assert ratio == pytest.approx([ratio[0]] * 3)


def test_the_pace_quantiles_are_those_of_students_t():
    from scipy import stats

    hands = learn_hands([glue_up(s) for s in (650, 800, 720)])
    nig = hands.nig
    scale = math.sqrt(nig.beta / nig.alpha * (1 + 1 / nig.kappa))
    t = stats.t(2 * nig.alpha, nig.m, scale)
    expected = {f"p{p}": 60 / math.exp(t.ppf(1 - p / 100)) for p in (10, 50, 90)}
    assert hands.pace_per_min == pytest.approx(expected, rel=1e-5)


def test_a_vague_prior_gives_the_example_of_scipys_bayes_mvs():
    """scipy.stats.bayes_mvs documentation: {6, 9, 12, 7, 8, 8, 13}, α = 0.9.

    Mean 9.0 [7.10365, 10.89635], variance 10.0 [3.17672, 24.45910]. Its prior 1/σ² is the limit
    κ0 = 0, α0 = −1/2, β0 = 0 of ours.
    """
    from scipy import stats

    y = np.array([6, 9, 12, 7, 8, 8, 13], dtype=float)
    moments = np.zeros((4, 4))
    moments[0, 0], moments[0, 3], moments[3, 3] = 7, y.sum(), y @ y
    nig = posterior(moments, NormalInverseGamma(0.0, 0.0, -0.5, 0.0)).nig
    t = stats.t(2 * nig.alpha, nig.m, math.sqrt(nig.beta / nig.alpha / nig.kappa))
    assert (nig.m, *t.interval(0.9)) == pytest.approx((9.0, 7.10365, 10.89635), abs=1e-5)
    variance = stats.invgamma(nig.alpha, scale=nig.beta)
    assert (variance.mean(), *variance.interval(0.9)) == pytest.approx((10.0, 3.17672, 24.45910), abs=1e-5)


def a_mixed_book(rng, n, log_weight, mu=2.4, sigma=0.15, censored=()):
    weight = np.exp([log_weight[0], 0.0, log_weight[1]])
    book = []
    for k in range(n):
        counts = rng.integers(5, 40, 3)
        seconds = float(counts @ weight) * math.exp(mu + sigma * rng.standard_normal())
        book.append(
            glue_up(seconds * (0.8 if k in censored else 1.0), *map(int, counts), closed=k not in censored)
        )
    return book


def grid_posterior(book):
    """Mean and sd of μ, log w_small, log w_large by brute force on a grid; scipy.stats densities."""
    from scipy import stats

    mu = np.linspace(1.4, 3.4, 61)[:, None, None, None]
    small = np.linspace(-1.0, 1.0, 41)[None, :, None, None]
    large = np.linspace(-1.0, 1.0, 41)[None, None, :, None]
    sigma = np.exp(np.linspace(-3.2, -0.7, 21))[None, None, None, :]
    # d σ² = 2 σ² d log σ
    log_p = stats.invgamma.logpdf(sigma**2, ALPHA0, scale=BETA0) + 2 * np.log(sigma)
    log_p = log_p + stats.norm.logpdf(mu, math.log(12), sigma / math.sqrt(KAPPA0))
    log_p = log_p + stats.norm.logpdf(small, 0, CLASS_SD) + stats.norm.logpdf(large, 0, CLASS_SD)
    for g in book:
        effort = g.small * np.exp(small) + g.medium + g.large * np.exp(large)
        z = (math.log(g.seconds) - np.log(effort) - mu) / sigma
        log_p = log_p + (-0.5 * z * z - np.log(sigma) if g.closed else stats.norm.logsf(z))
    p = np.exp(log_p - log_p.max())
    p /= p.sum()
    means = [float((p * part).sum()) for part in (mu, small, large)]
    return means, [
        math.sqrt(float((p * (part - m) ** 2).sum()))
        for part, m in zip((mu, small, large), means, strict=True)
    ]


def test_the_weights_of_the_classes_agree_with_a_brute_force_grid():
    book = a_mixed_book(np.random.default_rng(3), 10, (-0.3, 0.4))
    known = learn_hands(book, half_life=None, spare_wild=False).known
    means, sds = grid_posterior(book)
    found = [known.nig.m, known.log_weight[0], known.log_weight[2]]
    # The mode stands for the mean: within a fifth of the posterior's own width.
    assert np.abs(np.subtract(found, means)) == pytest.approx([0, 0, 0], abs=0.2 * min(sds))
    assert np.sqrt(np.diag(known.covariance)[[0, 2]]).tolist() == pytest.approx(sds[1:], rel=0.2)


def test_a_glue_up_never_closed_only_says_longer():
    rng = np.random.default_rng(8)
    book = a_mixed_book(rng, 8, (0.0, 0.0), censored=(2, 5))
    cut = learn_hands(book, half_life=None, spare_wild=False).nig
    means, _ = grid_posterior(book)
    assert cut.m == pytest.approx(means[0], abs=0.03)
    as_if_exact = learn_hands([replace(g, closed=True) for g in book], half_life=None, spare_wild=False).nig
    without = learn_hands([g for g in book if g.closed], half_life=None, spare_wild=False).nig
    assert as_if_exact.m < cut.m
    assert without.kappa < cut.kappa < as_if_exact.kappa


def test_a_glue_up_cut_short_at_once_says_nothing():
    book = [glue_up(700), glue_up(760)]
    told = learn_hands([*book, glue_up(5, closed=False)], half_life=None)
    assert numbers(told.nig) == pytest.approx(numbers(learn_hands(book, half_life=None).nig), rel=1e-3)


def test_newer_glue_ups_weigh_more_and_the_prior_does_not_decay():
    rates = [10, 11, 12, 14]
    hands = learn_hands([glue_up(60 * r) for r in rates], half_life=2.0)
    weights = 0.5 ** (np.array([3, 2, 1, 0]) / 2)
    assert numbers(hands.nig) == pytest.approx(by_hand(np.log(rates), weights))


def test_pauses_do_not_count_for_the_pace():
    assert numbers(learn_hands([replace(glue_up(700), paused_s=400.0)]).nig) == numbers(
        learn_hands([glue_up(700)]).nig
    )


def test_pieces_left_over_leave_the_pace_exact():
    cut = replace(glue_up(700), all_placed=False, stringy_after_s=900.0)
    assert numbers(learn_hands([cut]).nig) == numbers(learn_hands([glue_up(700)]).nig)


def test_what_is_unsure_is_kept_but_not_learned_from():
    assert learn_hands([glue_up(700), glue_up(7000, learn_pace=False)]).glue_up_count == 1


def test_the_order_of_dated_glue_ups_does_not_matter():
    book = [replace(glue_up(600 + 50 * k), started_utc=DAY0 + timedelta(hours=3 * k)) for k in range(5)]
    assert numbers(learn_hands(book[::-1]).nig) == numbers(learn_hands(book).nig)


def test_from_the_fourth_on_one_wild_glue_up_moves_little():
    calm = [glue_up(60 * r) for r in (11.5, 12.5, 12.0)]
    usual = learn_hands(calm)
    for wild in (glue_up(60 * 40), glue_up(60 * 3)):
        told, plain = learn_hands([*calm, wild]), learn_hands([*calm, wild], spare_wild=False)
        assert abs(plain.nig.m - usual.nig.m) > 0.2
        assert abs(told.nig.m - usual.nig.m) < 0.08
        assert told.pace_per_min["p10"] > plain.pace_per_min["p10"]


def test_a_new_pace_that_lasts_is_believed():
    book = [glue_up(60 * 12.0 * f) for f in (1.0, 1.1, 0.95, 1.05)] + [glue_up(60 * 24.0)] * 6
    assert learn_hands(book).nig.m == pytest.approx(math.log(24), abs=0.25)


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 60), st.floats(0.1, 60), st.integers(1, 8))
def test_days_away_widen_the_pace_and_leave_its_median(days, more, n):
    book = [replace(glue_up(700 + 30 * k), started_utc=DAY0 + timedelta(hours=3 * k)) for k in range(n)]
    last = book[-1].started_utc
    soon = learn_hands(book, now_utc=last + timedelta(days=days)).pace_per_min
    late = learn_hands(book, now_utc=last + timedelta(days=days + more)).pace_per_min
    assert late["p50"] == soon["p50"]
    assert late["p10"] <= soon["p10"]
    assert late["p90"] >= soon["p90"]


def test_ten_days_away_cost_a_clear_part_of_what_was_known():
    book = [replace(glue_up(700), started_utc=DAY0 + timedelta(days=k)) for k in range(10)]
    today, later = (learn_hands(book, now_utc=DAY0 + timedelta(days=d)).nig.kappa for d in (9, 19))
    assert 0.4 * today < later < 0.8 * today


def test_a_gap_within_the_book_ages_what_came_before_it():
    after = [replace(glue_up(900), started_utc=DAY0 + timedelta(days=30))]
    old = [replace(glue_up(600), started_utc=DAY0 + timedelta(hours=2 * k)) for k in range(4)]
    near = [replace(g, started_utc=g.started_utc + timedelta(days=29)) for g in old]
    assert learn_hands([*old, *after]).nig.m > learn_hands([*near, *after]).nig.m


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 30))
def test_one_more_glue_up_moves_the_posterior_as_learning_all_again(seed, n):
    rng = np.random.default_rng(seed)
    book = a_mixed_book(rng, n, 0.3 * rng.standard_normal(2))
    again, after = (
        learn_hands(book, spare_wild=False),
        learn_hands(book[:-1], spare_wild=False).after(book[-1], spare_wild=False),
    )
    assert after.nig.m == pytest.approx(again.nig.m, abs=0.05)
    assert after.known.log_weight == pytest.approx(again.known.log_weight, abs=0.1)
    assert after.nig.kappa == pytest.approx(again.nig.kappa)


def test_one_more_glue_up_of_medium_pieces_is_exactly_the_whole_book():
    book = [replace(glue_up(700 + 40 * (k % 5)), started_utc=DAY0 + timedelta(days=3 * k)) for k in range(20)]
    step = learn_hands(book[:-1]).after(book[-1])
    assert numbers(step.nig) == pytest.approx(numbers(learn_hands(book).nig), rel=1e-9)


@pytest.mark.parametrize("pace", [0.0, -1.0, math.nan, math.inf, 1e6])
def test_a_pace_no_hands_have_is_refused(pace):
    with pytest.raises(PaceOutOfRange, match="pieces a minute cannot be"):
        learn_hands([], pace_per_min=pace)


@pytest.mark.parametrize("half_life", [0.0, -2.0, math.nan])
def test_a_half_life_that_is_none_is_refused(half_life):
    with pytest.raises(HalfLifeNotPositive):
        learn_hands([], half_life=half_life)

"""How long a mix stays workable, learned against its label."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace.glueup import GlueUp
from bench.pace.life import (
    EXACT_TO_LENGTHEN,
    FAR_SD,
    FAR_SHARE,
    LOG_SPREAD,
    OFFSET_SD,
    PRIOR_SD,
    SPREAD_SD_LOG,
    WorkingTimeNotPositive,
    learn_life,
    standard_nodes,
)

LABEL_S = 1500.0
P = (0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.98)


def finished(after_s, **more):
    made = GlueUp(None, 0, 40, 0, 0.5 * after_s, 0.0, 21.0, after_s, None, True)
    return replace(made, **more)


def stringy(after_s, **more):
    return replace(
        finished(after_s), finished_after_s=None, stringy_after_s=after_s, all_placed=False, **more
    )


def quantiles(book, **more):
    life = learn_life(book, working_time_s=LABEL_S, **more)
    return [life.quantile_s(p, LABEL_S) for p in P]


def brute_force(log_ratio, exact):
    """Return the predictive's CDF in log(life/label) from a fine grid; scipy.stats densities."""
    from scipy import stats

    b = np.linspace(-1.5, 1.0, 1001)[:, None]
    log_tau = np.linspace(LOG_SPREAD - 1.0, LOG_SPREAD + 1.5, 81)[None]
    tau = np.exp(log_tau)
    offset = (1 - FAR_SHARE) * stats.norm.pdf(b, 0, OFFSET_SD) + FAR_SHARE * stats.norm.pdf(b, 0, FAR_SD)
    log_p = np.log(offset) + stats.norm.logpdf(log_tau, LOG_SPREAD, SPREAD_SD_LOG)
    for x, seen in zip(log_ratio, exact, strict=True):
        log_p = log_p + (stats.norm.logpdf(x, b, tau) if seen else stats.norm.logsf(x, b, tau))
    p = np.exp(log_p - log_p.max())
    p /= p.sum()
    return lambda x: float((p * stats.norm.cdf(x, b, tau)).sum())


def test_an_unseen_product_lasts_as_its_label_says_give_or_take_12_per_cent():
    from scipy import stats

    expected = LABEL_S * np.exp(PRIOR_SD * stats.norm.ppf(P))
    assert quantiles([]) == pytest.approx(expected.tolist(), rel=0.02)
    life = learn_life([], working_time_s=LABEL_S)
    weight = standard_nodes()[1]
    assert math.sqrt(weight @ life.log_ratio**2) == pytest.approx(PRIOR_SD, rel=0.03)


@pytest.mark.parametrize(
    "book",
    [
        [stringy(1100), stringy(1300), finished(1200), stringy(1450)],
        [finished(1400), finished(1550), stringy(1500), stringy(1700), stringy(1650)],
        [stringy(1000 + 50 * k) for k in range(12)] + [finished(900)] * 30,
        [stringy(950)],
        [stringy(600), finished(700), finished(650)],
    ],
)
def test_the_quantiles_agree_with_a_brute_force_posterior(book):
    log_ratio = [math.log((g.stringy_after_s or g.clock_s) / LABEL_S) for g in book]
    below = brute_force(log_ratio, [g.stringy_after_s is not None for g in book])
    found = [below(math.log(q / LABEL_S)) for q in quantiles(book, may_lengthen=True)]
    assert found == pytest.approx(P, abs=0.006)


def test_stringy_early_shortens_every_quantile():
    for early, label in zip(quantiles([stringy(1200)]), quantiles([]), strict=True):
        assert early < label


@settings(max_examples=30, deadline=None)
@given(st.floats(450, 1500), st.floats(0.7, 0.99))
def test_the_earlier_it_went_stringy_the_shorter_the_next(after_s, part):
    sooner, later = quantiles([stringy(part * after_s)]), quantiles([stringy(after_s)])
    assert sooner[3] < later[3]
    assert sooner[1] <= later[1]  # equal where the label caps both


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.floats(200, 4000), st.booleans()), max_size=8))
def test_until_three_were_stringy_nothing_lasts_longer_than_the_label(seen):
    exact = [k for k, (_, is_exact) in enumerate(seen) if is_exact][: EXACT_TO_LENGTHEN - 1]
    book = [stringy(t) if k in exact else finished(t) for k, (t, _) in enumerate(seen)]
    for found, label in zip(quantiles(book, may_lengthen=True), quantiles([]), strict=True):
        assert found <= label * (1 + 1e-9)


def test_finishing_in_time_changes_nothing_while_the_label_caps():
    assert quantiles([finished(1000)] * 5) == pytest.approx(quantiles([]), rel=1e-3)


def test_three_long_lives_lengthen_only_with_the_makers_consent():
    book = [stringy(1800), stringy(1900), stringy(1850)]
    without, consenting = (learn_life(book, working_time_s=LABEL_S, may_lengthen=m) for m in (False, True))
    assert without.would_lengthen
    assert not consenting.would_lengthen
    assert without.quantile_s(0.5, LABEL_S) == pytest.approx(LABEL_S)
    assert consenting.quantile_s(0.5, LABEL_S) > 1.08 * LABEL_S


def test_two_long_lives_do_not_ask_for_consent():
    assert not learn_life([stringy(1900)] * 2, working_time_s=LABEL_S).would_lengthen


def test_a_glue_ups_own_label_counts_where_it_has_one():
    warm = stringy(900, label_s=750.0)
    cool = stringy(1800)
    assert quantiles([warm]) == pytest.approx(quantiles([cool]))


def test_stringy_after_finishing_is_still_exact():
    both = finished(1000, stringy_after_s=1200.0)
    assert quantiles([both]) == pytest.approx(quantiles([stringy(1200)]))


def test_never_closed_only_says_it_held_so_long():
    opened = finished(1000, finished_after_s=None, all_placed=False, closed=False, paused_s=900.0)
    life = learn_life([opened], working_time_s=LABEL_S)
    assert (life.exact_count, life.censored_count) == (0, 1)


def test_an_unsure_clock_teaches_nothing():
    assert learn_life([stringy(600, learn_life=False)], working_time_s=LABEL_S).exact_count == 0


@pytest.mark.parametrize("after_s", [1.0, 20000.0])
def test_absurd_observations_still_give_finite_ordered_quantiles(after_s):
    found = quantiles([stringy(after_s)] * 4, may_lengthen=True)
    assert np.isfinite(found).all()
    assert np.diff(found).min() > 0


@pytest.mark.parametrize("working_time_s", [0.0, -1.0, math.nan, math.inf])
def test_a_working_time_that_is_no_time_is_refused(working_time_s):
    with pytest.raises(WorkingTimeNotPositive, match="min cannot be"):
        learn_life([], working_time_s=working_time_s)


def test_mixes_of_another_lot_tell_less_and_of_an_unknown_one_as_much():
    old = [stringy(0.8 * LABEL_S, lot="A12")] * 4
    same, other, unknown = (quantiles(old, lot=lot) for lot in ("A12", "B03", None))
    assert same == unknown
    assert same[3] * 1.01 < other[3] < LABEL_S  # the product as such is not as its label says


def test_long_lives_of_another_lot_do_not_lengthen_this_one():
    old = [stringy(1.3 * LABEL_S, lot="A12")] * 4
    for found, label in zip(quantiles(old, lot="B03", may_lengthen=True), quantiles([]), strict=True):
        assert found <= label * (1 + 1e-9)
    assert quantiles(old, lot="A12", may_lengthen=True)[3] > LABEL_S

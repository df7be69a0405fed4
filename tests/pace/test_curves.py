"""Curves of what was learned, by hand, against SciPy, and against learning the book again."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from scipy import stats

from bench.pace.curves import NoLevel, clopper_pearson, life_curve, pace_curve, promise_curve
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.routine import Routine
from tests.fakes.makers import a_maker, set_section

DAY0 = datetime(2026, 3, 2, 9, tzinfo=UTC)


def glue_up(k, seconds, **more):
    made = GlueUp(DAY0 + timedelta(days=k), 0, 60, 0, seconds, 0.0, 21.0, seconds + 200, None, True)
    return replace(made, **{"label_s": 1500.0, **more})


def book(count, seed=3):
    rng = np.random.default_rng(seed)
    maker = a_maker(rng)
    return [set_section(maker, rng, k, 60 * maker.proportion, Routine())[0] for k in range(count)]


def test_pace_is_medium_pieces_a_minute_and_the_first_band_is_the_stated_pace():
    """60 pieces in 720 s are 5 a minute; before it, Student's t of 4 degrees about 5 (SciPy)."""
    (seen,) = pace_curve([glue_up(0, 720.0)], pace_per_min=5.0).seen
    assert seen.per_min == pytest.approx(5.0)
    assert seen.middle == pytest.approx(5.0)
    scale = math.sqrt(0.18**2 / 2 * (1 + (0.35 / 0.18) ** 2))
    reach = stats.t.ppf(0.9, 4) * scale
    assert math.log(seen.high / 5.0) == pytest.approx(reach, rel=1e-3)
    assert math.log(5.0 / seen.low) == pytest.approx(reach, rel=1e-3)
    assert seen.as_believed


def test_each_band_is_what_the_book_believed_on_the_morning_of_that_glue_up():
    glue_ups = book(25)
    curve = pace_curve(glue_ups, pace_per_min=5.0)
    weight = np.exp(learn_hands(glue_ups, pace_per_min=5.0).known.log_weight)
    for k in (0, 1, 7, 24):
        before = learn_hands(glue_ups[:k], pace_per_min=5.0, now_utc=glue_ups[k].started_utc)
        counts = np.array([glue_ups[k].small, glue_ups[k].medium, glue_ups[k].large], dtype=float)
        setting = before.log_setting(counts)
        minutes = [60 * float(counts @ weight) / math.exp(setting.quantile(p)) for p in (0.9, 0.5, 0.1)]
        seen = curve.seen[k]
        assert (seen.low, seen.middle, seen.high) == pytest.approx(minutes, rel=1e-6)


def test_the_band_of_the_next_is_the_pace_that_sections_are_sized_by():
    glue_ups = book(12)
    told = learn_hands(glue_ups, pace_per_min=5.0).pace_per_min
    assert pace_curve(glue_ups, pace_per_min=5.0).next == pytest.approx(
        (told["p10"], told["p50"], told["p90"])
    )


def test_a_long_book_carried_on_stays_near_the_book_read_again():
    glue_ups = book(450)
    curve = pace_curve(glue_ups, pace_per_min=5.0)
    off = []
    for k in (205, 301, 448):
        before = learn_hands(glue_ups[:k], pace_per_min=5.0, now_utc=glue_ups[k].started_utc)
        counts = np.array([glue_ups[k].small, glue_ups[k].medium, glue_ups[k].large], dtype=float)
        setting = before.log_setting(counts)
        width = setting.quantile(0.9) - setting.quantile(0.1)
        exact = math.log(60 * float(counts @ np.exp(before.known.log_weight))) - setting.quantile(0.5)
        off.append((math.log(curve.seen[k].middle) - exact) / width)
    assert np.abs(off).max() < 0.25


def test_a_month_away_widens_the_band():
    steady = [glue_up(k, 700.0) for k in range(12)]
    late = replace(glue_up(12, 700.0), started_utc=DAY0 + timedelta(days=42))
    here, away = (
        pace_curve([*steady, last], pace_per_min=5.0).seen[-1] for last in (glue_up(12, 700.0), late)
    )
    assert math.log(away.high / away.low) > 1.1 * math.log(here.high / here.low)
    assert away.middle == pytest.approx(here.middle)


def test_bands_hold_eight_of_ten_of_makers_who_learn_and_tire():
    """A binomial of 600 at 0.8 stays within 0.75 to 0.85 (SciPy); makers stray from the model a little."""
    inside = [
        one.as_believed for seed in range(30) for one in pace_curve(book(25, seed), pace_per_min=5.0).seen[5:]
    ]
    low, high = stats.binom.ppf([0.001, 0.999], len(inside), 0.8)
    assert low <= sum(inside) <= high


def test_what_tells_nothing_of_the_hands_is_not_shown():
    some = [glue_up(0, 700.0), glue_up(1, 700.0, learn_pace=False), glue_up(2, 700.0, closed=False)]
    assert [one.which for one in pace_curve(some).seen] == [0]
    assert pace_curve([]).seen == ()


@pytest.mark.parametrize("level", [0.8, 0.9, 0.95])
def test_exact_intervals_are_clopper_pearsons(level):
    """SciPy's beta quantiles and its own binomtest; 'exact' there is Clopper & Pearson 1934."""
    hits, tries = np.array([0, 1, 7, 9, 10, 27, 30]), np.array([1, 1, 10, 10, 10, 30, 30])
    low, high = clopper_pearson(hits, tries, level=level)
    tail = (1 - level) / 2
    for k, (h, n) in enumerate(zip(hits.tolist(), tries.tolist(), strict=True)):
        told = stats.binomtest(h, n).proportion_ci(level, method="exact")
        assert (low[k], high[k]) == pytest.approx((told.low, told.high), abs=1e-12)
        assert low[k] == pytest.approx(stats.beta.ppf(tail, h, n - h + 1) if h else 0.0, abs=1e-12)
        assert high[k] == pytest.approx(stats.beta.ppf(1 - tail, h + 1, n - h) if h < n else 1.0, abs=1e-12)


def test_by_hand_one_hit_of_one_has_a_low_of_the_tail_itself():
    """P(1 of 1) = p: the least p that is not refuted at 5 % is 0.05."""
    low, high = clopper_pearson(np.array([1.0]), np.array([1.0]), level=0.9)
    assert (low[0], high[0]) == pytest.approx((0.05, 1.0))


@pytest.mark.parametrize("level", [0.0, 1.0, -0.5, 2.0])
def test_a_level_that_is_no_part_is_refused(level):
    with pytest.raises(NoLevel):
        clopper_pearson(np.array([1.0]), np.array([2.0]), level=level)


def test_promises_are_counted_on():
    rows = promise_curve([0.9, 0.95, 0.85], [True, False, True])
    assert [row.share for row in rows] == pytest.approx([1.0, 0.5, 2 / 3])
    assert [row.promised for row in rows] == pytest.approx([0.9, 0.925, 0.9])
    assert promise_curve([], []) == ()


def test_life_is_shown_by_warmth_with_the_label_there():
    some = [
        glue_up(0, 700.0, temperature_C=21.2, label_s=1500.0),
        glue_up(1, 700.0, temperature_C=20.8, label_s=1560.0, stringy_after_s=1200.0, all_placed=False),
        glue_up(2, 700.0, temperature_C=27.0, label_s=1080.0),
        glue_up(3, 700.0, learn_life=False),
    ]
    curve = life_curve(some)
    assert [(one.which, one.minutes, one.exact) for one in curve.seen] == [
        (0, 15.0, False),
        (1, 20.0, True),
        (2, 15.0, False),
    ]
    assert curve.temperature_C == (21, 27)
    assert curve.label_min == pytest.approx((25.5, 18.0))
    assert all(a < b < c for a, b, c in zip(curve.low_min, curve.middle_min, curve.high_min, strict=True))


def test_life_never_seen_to_end_is_the_labels():
    """0.12 is the prior's standard deviation of log life; the median stays on the label."""
    curve = life_curve([glue_up(k, 700.0) for k in range(5)])
    assert curve.middle_min[0] <= 25.0 + 1e-9
    assert not any(one.exact for one in curve.seen)
    assert life_curve([]).temperature_C == ()

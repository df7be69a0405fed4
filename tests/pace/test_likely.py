"""Pieces still likely during a glue-up, and the count at Dry."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.pace.capacity import SureOutOfRange, probability_in_time
from bench.pace.dry import judge_count
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.life import Life, standard_nodes
from bench.pace.likely import outlook
from bench.pace.routine import Routine

LABEL_S = 1500.0
HANDS = learn_hands(
    [GlueUp(None, 0, 60, 0, 720.0 * f, 0.0, 21.0, 900.0 * f, None, True) for f in (0.9, 1, 1.1)]
)
LIFE = Life(0.12 * standard_nodes()[0])  # log-normal about the label
FIXED = {"working_time_s": LABEL_S, "routine": Routine(), "area_mm2": 80 * 46.5}


def look(elapsed_s, placed=None, left=80, paused_s=0.0, **more):
    counts = (0, left, 0)
    told = {"elapsed_s": elapsed_s, "paused_s": paused_s, "placed": placed, "counts_left": counts}
    return outlook(HANDS, LIFE, **told, **{**FIXED, **more})


def test_before_the_first_piece_the_chance_is_that_of_the_section():
    expected = probability_in_time(
        HANDS, LIFE, counts=(0, 80, 0), area_mm2=80 * 46.5, working_time_s=LABEL_S, routine=Routine()
    )
    for placed in (None, 0):
        assert look(0.0, placed).in_time == pytest.approx(expected, abs=1e-3)


def test_the_outlook_agrees_with_counting_simulated_glue_ups():
    """Monte Carlo from the same posterior: lives still going at 1000 s, not all placed by then."""
    rng = np.random.default_rng(2)
    n, nig = 400_000, HANDS.nig
    variance = nig.beta / rng.gamma(nig.alpha, size=n)
    piece_s = np.exp(nig.m + np.sqrt(variance * (1 + 1 / nig.kappa)) * rng.standard_normal(n))
    life_s = LABEL_S * np.exp(0.12 * rng.standard_normal(n))
    before_s = Routine().stir_s + Routine().spread_s(80 * 46.5)
    open_still = (life_s > 1000) & (80 * piece_s > 1000 - before_s)
    piece_s, life_s = piece_s[open_still], life_s[open_still]
    in_time = before_s + 80 * piece_s + Routine().clean_s(80 * 46.5) <= life_s
    assert look(1000.0).in_time == pytest.approx(in_time.mean(), abs=0.01)
    reach = (np.maximum(life_s - Routine().clean_s(80 * 46.5), 1000.0) - before_s) / piece_s
    found = look(1000.0)
    assert 80 - found.leave == pytest.approx(np.floor(np.median(np.minimum(reach, 80))), abs=1)


def test_a_count_behind_what_is_usual_says_to_leave_pieces_early_enough():
    assert look(700.0, 47, left=33).leave == 0
    slow = look(700.0, 20, left=60)
    assert slow.leave > 20
    assert slow.pieces + slow.leave == 60


def test_more_counted_pieces_speak_louder_against_the_book():
    few, many = look(200.0, 3, left=77), look(900.0, 25, left=55)
    rate = [60 / ((200 - 97) / 3), 60 / ((900 - 97) / 25)]
    assert rate[0] == pytest.approx(rate[1], rel=0.1)
    assert few.in_time > many.in_time


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 2500), st.floats(0, 300), st.integers(0, 79), st.floats(0.5, 0.95))
def test_later_or_surer_is_never_more(elapsed_s, more_s, placed, sure):
    left = 80 - placed
    now = look(elapsed_s, placed, left, sure=sure)
    assert 0 <= now.pieces <= left
    assert now.pieces + now.leave == left
    assert look(elapsed_s + more_s, placed, left, paused_s=more_s, sure=sure).pieces <= now.pieces
    assert look(elapsed_s, placed, left, sure=min(0.99, sure + 0.04)).pieces <= now.pieces


def test_past_every_life_nothing_more_is_likely():
    assert look(4000.0, 30, left=50).pieces == 0
    assert look(4000.0).pieces == 0


def test_nothing_left_leaves_only_the_cleaning():
    """scipy.stats.norm: lives with a log standard deviation of 0.12 that outlast the cleaning."""
    from scipy import stats

    clean_s = Routine().clean_s(80 * 46.5)
    for elapsed_s in (700.0, 1300.0, 1480.0):
        lasts = [1 - stats.norm.cdf(math.log((elapsed_s + s) / LABEL_S) / 0.12) for s in (0.0, clean_s)]
        assert look(elapsed_s, 80, left=0).in_time == pytest.approx(lasts[1] / lasts[0], abs=0.02)


def test_a_count_that_fits_is_left_alone_and_one_too_large_says_how_many_to_leave():
    told = {"working_time_s": LABEL_S, "routine": Routine(), "sure": 0.9}
    fits = judge_count(HANDS, LIFE, counts=(0, 50, 0), area_mm2=50 * 46.5, **told)
    assert (fits.fits, fits.leave, fits.mixes) == (50, 0, 1)
    large = judge_count(HANDS, LIFE, counts=(20, 160, 20), area_mm2=200 * 46.5, **told)
    assert large.fits + large.leave == 200
    assert large.mixes == -(-200 // large.fits)
    kept = np.array([20, 160, 20]) * large.fits / 200
    chance = probability_in_time(
        HANDS, LIFE, counts=kept, area_mm2=large.fits * 46.5, working_time_s=LABEL_S, routine=Routine()
    )
    assert 0.9 <= chance < 0.93


def test_a_count_of_which_nothing_fits_says_so():
    told = {"working_time_s": 100.0, "routine": Routine()}
    none = judge_count(HANDS, LIFE, counts=(0, 50, 0), area_mm2=50 * 46.5, **told)
    assert (none.fits, none.leave, none.mixes) == (0, 50, 0)
    with pytest.raises(SureOutOfRange):
        judge_count(HANDS, LIFE, counts=(0, 50, 0), area_mm2=2000.0, sure=1.0, **told)

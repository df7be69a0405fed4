"""What remains, foretold and then lived through."""

import numpy as np
import pytest

from bench.pace.capacity import WorkingTimeTooShort, capacity
from bench.pace.forecast import HoursOutOfRange, forecast
from bench.pace.hands import learn_hands
from bench.pace.laying import Spell, learn_laying
from bench.pace.life import learn_life
from bench.pace.moments import ALPHA0, BETA0, KAPPA0, stated
from bench.pace.routine import Routine
from tests.fakes.makers import LABEL_S, Maker, set_section

FIXED = {"working_time_s": LABEL_S, "routine": Routine()}
HANDS, LIFE = learn_hands([]), learn_life([], working_time_s=LABEL_S)


def foretell(counts=(0, 1000, 0), hands=HANDS, life=LIFE, seed=1, **more):
    area_mm2 = 46.5 * sum(counts)
    rng = np.random.default_rng(seed)
    return forecast(hands, life, counts_left=counts, area_mm2=area_mm2, rng=rng, **FIXED, **more)


def lived(rng, pieces):
    """Let a maker drawn from the prior set so many medium pieces; return glue-ups and hours it took."""
    variance = BETA0 / rng.gamma(ALPHA0)
    level = stated(5.0).m + np.sqrt(variance / KAPPA0) * rng.standard_normal()
    one = np.array([0.0, 1.0, 0.0])
    maker = Maker(float(level), float(np.sqrt(variance)), np.zeros(3), 0.0, 0.0, 0.12, one)
    left, book, seconds, routine = float(pieces), [], 0.0, Routine()
    while left >= 1:
        life = learn_life(book, working_time_s=LABEL_S)
        try:
            fits = capacity(learn_hands(book), life, **FIXED).capacity_effort
        except WorkingTimeTooShort:
            fits = 1.0
        count = min(left, fits)
        glue_up, _ = set_section(maker, rng, 0, one * count, routine)
        book.append(glue_up)
        placed = min(count, glue_up.medium if not glue_up.all_placed else count)
        seconds += routine.around_s(46.5 * count) + glue_up.seconds
        left -= placed
    return len(book), seconds / 3600


def test_four_of_five_panels_fall_within_what_was_foretold():
    """40 makers from the prior live through it; 8 in 10 expected, binomial: 24 to 40 leave out 1 in 1000."""
    rng = np.random.default_rng(5)
    told = foretell((0, 600, 0))
    outcomes = np.array([lived(rng, 600) for _ in range(40)])
    hours_hit = (outcomes[:, 1] >= told.hours["p10"]) & (outcomes[:, 1] <= told.hours["p90"])
    glue_ups_hit = (outcomes[:, 0] >= told.glue_ups["p10"]) & (outcomes[:, 0] <= told.glue_ups["p90"])
    assert hours_hit.sum() >= 24
    assert glue_ups_hit.sum() >= 24
    assert told.glue_ups["p50"] == pytest.approx(np.median(outcomes[:, 0]), rel=0.25)
    assert told.hours["p50"] == pytest.approx(np.median(outcomes[:, 1]), rel=0.25)


def test_nothing_left_takes_nothing():
    told = foretell((0, 0, 0), hours_a_day=4.0)
    assert (set(told.glue_ups.values()), set(told.hours.values()), set(told.days.values())) == ({0}, {0}, {0})


def test_the_same_seed_foretells_the_same():
    assert foretell(seed=3) == foretell(seed=3)


def test_more_pieces_take_longer_and_every_band_is_in_order():
    few, many = foretell((0, 500, 0)), foretell((0, 30_000, 0))
    for told in (few, many):
        for band in (told.glue_ups, told.hours):
            assert band["p10"] <= band["p50"] <= band["p90"]
    assert many.hours["p50"] == pytest.approx(60 * few.hours["p50"], rel=0.2)


def test_sections_that_are_not_filled_count():
    assert foretell(sections_planned=30).glue_ups["p50"] > 1.4 * foretell(sections_planned=15).glue_ups["p50"]


def test_laying_adds_its_hours_and_days_follow_the_hours_a_day():
    laying = learn_laying([Spell(50, 3600.0)] * 30)
    plain, told = foretell(), foretell(laying=laying, pieces_to_lay=1000, hours_a_day=5.0)
    assert told.hours["p50"] == pytest.approx(plain.hours["p50"] + 20, rel=0.1)
    assert told.days["p50"] == pytest.approx(told.hours["p50"] / 5, abs=1)
    assert plain.days is None


@pytest.mark.parametrize("hours_a_day", [0.0, -1.0, 25.0, float("nan")])
def test_hours_no_day_has_are_refused(hours_a_day):
    with pytest.raises(HoursOutOfRange):
        foretell(hours_a_day=hours_a_day)


def test_grams_are_those_of_the_bed_and_of_every_cup():
    """Without anything gone stringy: area times grams, and a residue a glue-up; more bed is never less."""
    left = foretell(grams=(0.002, 1.5))
    assert left.adhesive_g is not None
    bed_g = 0.002 * 46.5 * 1000
    assert left.adhesive_g["p10"] >= bed_g + 1.5 * left.glue_ups["p10"] - 1e-6
    assert left.adhesive_g["p90"] <= 1.5 * (bed_g + 1.5 * left.glue_ups["p90"])
    assert foretell().adhesive_g is None
    assert foretell(counts=(0, 0, 0), grams=(0.002, 1.5)).adhesive_g == {"p10": 0, "p50": 0, "p90": 0}

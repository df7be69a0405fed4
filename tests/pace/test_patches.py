"""Set by the patch: patches and their bed are learned, foretold and read from a table like pieces."""

import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from scipy import stats

from bench.pace.capacity import capacity, probability_in_time
from bench.pace.csv_file import read_glue_ups, write_glue_ups
from bench.pace.curves import pace_curve
from bench.pace.dry import judge_count
from bench.pace.forecast import forecast
from bench.pace.glueup import BadGlueUp, GlueUp
from bench.pace.hands import learn_hands
from bench.pace.life import Life, learn_life
from bench.pace.likely import outlook
from bench.pace.moments import ALPHA0, BETA0, CLASS_SD, KAPPA0
from bench.pace.patches import UNIT_CM2, ByPatch, PatchOutOfRange, patch_counts
from bench.pace.routine import Routine
from bench.pace.trends import practice_and_tiring
from bench.table import BadTable

PATCH = ByPatch()
LABEL_S = 1500.0


def glue_up(patches: int, area_cm2: float, seconds: float, k: int = 0) -> GlueUp:
    started = datetime(2025, 1, 1, 9, tzinfo=UTC) + timedelta(hours=2 * k)
    return GlueUp(
        started, 0, 40, 0, seconds, 0.0, 21.0, seconds + 200.0, None, True,
        patches=patches, area_mm2=100.0 * area_cm2,
    )  # fmt: skip


def label_life() -> Life:
    return learn_life([], working_time_s=LABEL_S)


def test_before_any_glue_up_a_usual_patch_takes_a_minute():
    hands = learn_hands([], by_patch=PATCH)
    assert hands.one_s == pytest.approx(60.0)
    assert hands.pace_per_min["p50"] == pytest.approx(1.0)
    slower = learn_hands([], by_patch=ByPatch(patch_cm2=80.0, per_min=0.5))
    assert slower.one_s == pytest.approx(120.0)


def test_seconds_a_patch_and_seconds_a_cm2_are_told_apart():
    """40 s a patch and 0.5 s a cm², patches of 10 to 90 cm²: both come out within a few per cent."""
    rng = np.random.default_rng(4)
    book = []
    for k in range(300):
        patches, each = int(rng.integers(2, 9)), rng.uniform(10, 90)
        seconds = patches * 40.0 + patches * each * 0.5
        book.append(glue_up(patches, patches * each, seconds * math.exp(0.05 * rng.normal()), k))
    hands = learn_hands(book, by_patch=PATCH, half_life=None)
    a_patch, a_unit = hands.expected_s[1], hands.expected_s[2]
    assert a_patch == pytest.approx(40.0, rel=0.05)
    assert a_unit / UNIT_CM2 == pytest.approx(0.5, rel=0.05)


def test_pieces_teach_nothing_of_patches_nor_patches_of_pieces():
    by_patch, by_piece = glue_up(5, 200, 300), replace(glue_up(5, 200, 300), patches=0, area_mm2=0.0)
    assert learn_hands([by_piece], by_patch=PATCH).glue_up_count == 0
    assert learn_hands([by_patch]).glue_up_count == 0
    both = learn_hands([by_patch, by_piece], by_patch=PATCH)
    assert both.glue_up_count == 1
    assert both.after(by_piece) is both
    assert [seen.which for seen in pace_curve([by_piece, by_patch], by_patch=PATCH).seen] == [1]


def test_the_next_setting_time_by_the_patch_has_a_uniform_rank():
    """Simulation-based calibration, Talts et al. 2018: the ranks of what comes next are uniform."""
    rng, ranks = np.random.default_rng(8), []
    for _ in range(300):
        variance = BETA0 / rng.gamma(ALPHA0)
        log_s = math.log(30.0) + math.sqrt(variance / KAPPA0) * rng.standard_normal()
        weight = math.exp(CLASS_SD * rng.standard_normal())

        def setting_s(patches, each_cm2, scatter, log_s=log_s, weight=weight, variance=variance):
            effort = patches + weight * patches * each_cm2 / UNIT_CM2
            return effort * math.exp(log_s + math.sqrt(variance) * scatter)

        book = []
        for k in range(6):
            patches, each = int(rng.integers(2, 9)), rng.uniform(15, 80)
            book.append(glue_up(patches, patches * each, setting_s(patches, each, rng.standard_normal()), k))
        patches, each = int(rng.integers(2, 9)), rng.uniform(15, 80)
        hands = learn_hands(book, by_patch=PATCH, half_life=None, spare_wild=False)
        told = hands.log_setting(patch_counts(patches, 100.0 * patches * each))
        truth = math.log(setting_s(patches, each, rng.standard_normal()))
        ranks.append(float(told.cdf(np.array([truth]))[0]))
    assert stats.kstest(ranks, "uniform").pvalue > 0.001


@pytest.mark.parametrize("sure", [0.75, 0.9, 0.95])
def test_patches_filled_to_capacity_keep_exactly_the_promise(sure):
    hands, life = learn_hands([], by_patch=PATCH), label_life()
    found = capacity(hands, life, working_time_s=LABEL_S, routine=Routine(), sure=sure)
    bed_mm2 = 100.0 * PATCH.patch_cm2 * found.capacity_effort
    chance = probability_in_time(
        hands,
        life,
        counts=patch_counts(found.capacity_effort, bed_mm2),
        area_mm2=bed_mm2,
        working_time_s=LABEL_S,
        routine=Routine(),
    )
    assert chance == pytest.approx(sure, abs=1e-6)
    assert found.pieces_medium == math.floor(found.capacity_effort)
    assert found.capacity_s == pytest.approx(found.capacity_effort * 60.0)


def test_too_many_patches_say_how_many_to_leave():
    found = judge_count(
        learn_hands([], by_patch=PATCH),
        label_life(),
        counts=patch_counts(10, 10 * 4000.0),
        area_mm2=40_000.0,
        working_time_s=LABEL_S,
        routine=Routine(),
        patches=10,
    )
    assert found.fits + found.leave == 10
    assert 0 < found.fits < 10
    fits = judge_count(
        learn_hands([], by_patch=PATCH),
        label_life(),
        counts=patch_counts(found.fits, found.fits * 4000.0),
        area_mm2=found.fits * 4000.0,
        working_time_s=LABEL_S,
        routine=Routine(),
        patches=found.fits,
    )
    assert fits.in_time >= 0.9


def test_a_count_of_patches_behind_the_usual_says_to_leave_some():
    how = {
        "elapsed_s": 900.0,
        "paused_s": 0.0,
        "working_time_s": LABEL_S,
        "routine": Routine(),
        "area_mm2": 8 * 4000.0,
    }
    hands, life = learn_hands([], by_patch=PATCH), label_life()
    left = patch_counts(6, 6 * 4000.0)
    slow = outlook(hands, life, placed=2.0, counts_left=left, patches_left=6, **how)
    quick = outlook(hands, life, placed=7.0, counts_left=patch_counts(1, 4000.0), patches_left=1, **how)
    assert slow.pieces + slow.leave == 6
    assert slow.leave > 0
    assert (quick.pieces, quick.leave) == (1, 0)


def test_twice_the_patches_take_about_twice_the_glue_ups():
    rng = np.random.default_rng(1)
    hands, life = learn_hands([], by_patch=PATCH), label_life()

    def told(patches):
        bed_mm2 = patches * 4000.0
        return forecast(
            hands, life, counts_left=patch_counts(patches, bed_mm2), area_mm2=bed_mm2,
            working_time_s=LABEL_S, routine=Routine(), rng=rng,
        )  # fmt: skip

    few, many = told(20).glue_ups["p50"], told(40).glue_ups["p50"]
    held = capacity(hands, life, working_time_s=LABEL_S, routine=Routine()).capacity_effort
    assert 0.5 * 20 / held <= few <= 1.5 * math.ceil(20 / held)
    assert many == pytest.approx(2 * few, abs=2)


def test_practice_shows_in_patches_too():
    """Wright 1936: on the 80 % curve the n-th takes n^log2(0.8) of the first."""
    exponent = math.log2(0.8)
    book = [glue_up(5, 200, 400.0 * (k + 1) ** exponent, 12 * k) for k in range(10)]
    practice, _ = practice_and_tiring(book, learn_hands(book, by_patch=PATCH))
    assert practice.value == pytest.approx(exponent, abs=1e-6)


HEAD = (
    "started_utc,small,medium,large,seconds,paused_s,temperature_C,finished_after_s,stringy_after_s,"
    "all_placed,patches,area_cm2\n"
)


def test_patches_are_read_from_a_table_and_written_back(tmp_path):
    path = tmp_path / "glue-ups.csv"
    rows = ("2025-01-01T09:00:00Z,0,0,0,300,0,21,500,,yes,6,240", ",0,40,0,300,0,21,500,,yes,,")
    path.write_text(HEAD + "\n".join(rows))
    by_patch, by_piece = read_glue_ups(path)
    assert (by_patch.patches, by_patch.area_mm2, by_patch.is_by_patch) == (6, 24_000.0, True)
    assert not by_piece.is_by_patch
    path.write_text(write_glue_ups([by_patch, by_piece]))
    assert read_glue_ups(path) == [by_patch, by_piece]


@pytest.mark.parametrize(
    ("cells", "column", "what"),
    [
        ("0,0,0,300,0,21,500,,yes,6,", "area_cm2", "without a bed"),
        ("0,0,0,300,0,21,500,,yes,0,", "small, medium, large", "0 pieces"),
        ("0,0,0,300,0,21,500,,yes,six,240", "patches", "no whole number"),
        ("0,0,0,300,0,21,500,,yes,6,2 m²", "area_cm2", "no number"),
        ("0,0,0,300,0,21,500,,yes,6,-3", "area_cm2", "cannot be"),
        ("0,0,0,0,0,21,500,,yes,6,240", "seconds", "0 s"),
    ],
)
def test_patches_that_cannot_be_are_named_by_line_and_column(tmp_path, cells, column, what):
    path = tmp_path / "glue-ups.csv"
    path.write_text(f"{HEAD}2025-01-01T09:00:00Z,{cells}\n")
    with pytest.raises(BadTable, match=what) as fault:
        read_glue_ups(path)
    assert (fault.value.line, fault.value.column) == (2, column)


def test_a_patch_nobody_lifts_and_patches_beyond_count_are_refused():
    for patch_cm2 in (0.0, math.nan, 1e6):
        with pytest.raises(PatchOutOfRange):
            ByPatch(patch_cm2)
    with pytest.raises(BadGlueUp, match="patches"):
        glue_up(-1, 40, 300)


def test_words_on_a_glue_up_stand_on_one_line_and_are_no_formula(tmp_path):
    path = tmp_path / "glue-ups.csv"
    path.write_text(write_glue_ups([glue_up(5, 200, 300), glue_up(5, 200, 300, 3)], ["=1+1\nslow, cold", ""]))
    lines = path.read_text().splitlines()
    assert len(lines) == 3
    assert lines[0].endswith(",note")
    assert "\"'=1+1 slow, cold\"" in lines[1]
    assert len(read_glue_ups(path)) == 2

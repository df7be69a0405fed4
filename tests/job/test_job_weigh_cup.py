"""A cup weighed after its glue-up: the next batches follow it, and it can be taken back."""

import math

import pytest

from bench.book.events import CupWeighed
from bench.job import cup_faults, faults
from bench.job.acts import cup, dry, glueup, opening, record, weigh_cup
from bench.job.advice import advise
from bench.job.bedding import bed_area_mm2, reckoned_g_per_cm2
from bench.job.fold import fold
from bench.job.foretelling import forecast_left
from bench.job.measuring import sizer
from bench.job.stock_words import coverage_words
from bench.job.taught import LEARNT_FROM, weighings_of
from bench.job.words import book_lines
from tests.fakes.benches import set_section, start_mix

TARE_G = 4.2


def weigh(job, mix, stayed_g, how="scraped"):
    weigh_cup.weigh_cup(job, mix, gross_g=TARE_G + stayed_g, tare_g=TARE_G, cup=how)


def set_and_weigh(job, stayed_g, how="scraped"):
    mix = set_section(job, advise(job).section)
    weigh(job, mix, stayed_g, how)
    job.clock.advance(24 * 3600)
    return mix


def test_what_a_bed_took_worked_by_hand(job):
    mix = set_section(job, advise(job).section)
    weigh(job, mix, 1.9)
    ((key, rows),) = weighings_of(job.store.of_kinds(LEARNT_FROM)).items()
    assert key == ("white-paste", "spread")
    bed_cm2 = bed_area_mm2(job.panel)[list(job.section(job.mix(mix).section).tesserae)].sum() / 100
    used_g = job.mix(mix).batch.total_g - 1.9
    reckoned = 0.08 * job.product("white-paste").mixed_density_g_per_cm3  # 0.8 mm of bed
    assert rows[0].factor == pytest.approx(used_g / (bed_cm2 * reckoned))


def test_the_next_batches_and_the_forecast_follow_what_was_weighed(job):
    mix = set_section(job, advise(job).section)
    number = advise(job).section
    members = list(job.section(number).tesserae)
    before, told_before = sizer(job).batch("white-paste", members), forecast_left(job).adhesive_g
    weigh(job, mix, 0.4)  # nearly all of it went onto the bed
    after, told_after = sizer(job).batch("white-paste", members), forecast_left(job).adhesive_g
    coverage = sizer(job).coverage("white-paste")
    assert coverage.weighed == 1
    bed_g = after.bed_area_mm2 / 100 * reckoned_g_per_cm2(job.product("white-paste"), job.state.bench)
    expected_g = bed_g * coverage.bed_factor * 1.1 + coverage.batch_residue_g
    assert after.total_g == pytest.approx(expected_g, abs=0.126)  # half steps: the hardener follows
    assert after.total_g != before.total_g
    assert (told_after["p50"] - told_before["p50"]) * (after.total_g - before.total_g) > 0
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    assert cup.sheet(job, mix).batch.total_g == after.total_g


def test_it_is_told_in_one_calm_line(job):
    for _ in range(2):
        set_and_weigh(job, 1.5)
    coverage = sizer(job).coverage("white-paste")
    used = coverage.bed_factor * 0.122
    assert coverage_words(coverage, 0.122) == f"Reckoned as your last 2 cups: {used:.3f} g/cm²."


def test_a_batch_that_was_promised_stays_as_it_was_shown(job):
    first = set_section(job, advise(job).section)
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    promised = job.mix(mix).batch.total_g
    weigh(job, first, 0.1, "short")
    assert cup.sheet(job, mix).batch.total_g == pytest.approx(promised)


def test_a_glue_up_with_pieces_left_tells_nothing_of_its_bed(job):
    mix = set_section(job, advise(job).section, left=4, why="did not fit")
    weigh(job, mix, 1.0)
    assert job.mix(mix).cup_weighed is not None
    assert weighings_of(job.store.of_kinds(LEARNT_FROM)) == {}


def test_it_can_be_taken_back_and_weighed_again(job):
    mix = set_section(job, advise(job).section)
    before = sizer(job).batch("white-paste", [0, 1, 2]).total_g
    weigh(job, mix, 0.3, "short")
    assert "stayed, it ran short" in book_lines(job)[0].text
    record.undo(job)
    assert job.mix(mix).cup_weighed is None
    assert sizer(job).batch("white-paste", [0, 1, 2]).total_g == before
    weigh(job, mix, 1.0)
    weigh(job, mix, 1.4)
    assert job.mix(mix).cup_weighed.gross_g == pytest.approx(TARE_G + 1.4)
    assert len(weighings_of(job.store.of_kinds(LEARNT_FROM))["white-paste", "spread"]) == 1
    assert fold(job.store.events(job.panel_id)) == job.state
    assert weigh_cup.known_tare_g(job) == TARE_G


def test_only_a_closed_glue_up_has_a_cup_to_weigh(job):
    assert weigh_cup.cup_to_weigh(job) is None
    mix = start_mix(job, advise(job).section)
    assert weigh_cup.cup_to_weigh(job) is None
    with pytest.raises(faults.WrongOrder):
        weigh(job, mix, 1.0)
    job.clock.advance(900)
    glueup.close(job, mix)
    assert weigh_cup.cup_to_weigh(job).number == mix
    weigh(job, mix, 1.0)
    assert weigh_cup.cup_to_weigh(job) is None


@pytest.mark.parametrize(
    ("gross_g", "tare_g"),
    [(4.0, 4.2), (400.0, 4.2), (-1.0, 0.0), (5.0, -1.0), (math.nan, 4.2), (1e9, 4.2), (1e9, 1e9 - 1)],
)
def test_a_cup_that_cannot_be_is_refused_and_nothing_is_kept(job, gross_g, tare_g):
    mix = set_section(job, advise(job).section)
    with pytest.raises(cup_faults.CupGrams):
        weigh_cup.weigh_cup(job, mix, gross_g=gross_g, tare_g=tare_g, cup="over")
    assert not any(isinstance(x.event, CupWeighed) for x in job.store.events(job.panel_id))
    assert weigh_cup.known_tare_g(job) is None


def test_buttered_pieces_are_learned_apart_from_spread_beds(job):
    set_and_weigh(job, 0.4)
    opening.set_bench(job, job.state.bench.model_copy(update={"bed": "buttered"}))
    assert sizer(job).coverage("white-paste").weighed == 0
    opening.set_bench(job, job.state.bench.model_copy(update={"bed": "spread", "bed_mm": 1.2}))
    assert sizer(job).coverage("white-paste").weighed == 1  # carried over to another thickness

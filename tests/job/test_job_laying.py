"""Hours of laying dry: told, learned over all panels, and in the days to come."""

import math

import pytest

from bench.job import faults
from bench.job.acts import dry, opening, record
from bench.job.acts.opening import open_panel
from bench.job.calendar import calendar, laid_first
from bench.job.foretelling import finishing_days, forecast_left
from bench.job.measuring import sizer
from bench.job.taught import LEARNT_FROM, spells_of
from bench.job.words import book_lines
from bench.pace.laying import DEFAULT_LAID_PER_HOUR
from bench.sections.order import Foreseen
from tests.fakes.benches import set_section
from tests.fakes.drawings import grid_svg


def spells(job):
    return [(s.pieces, s.seconds) for s in spells_of(job.store.of_kinds(LEARNT_FROM))]


def test_before_any_was_told_laying_goes_as_is_usual(job):
    left = forecast_left(job)
    usual_h = job.panel.tessera_count / DEFAULT_LAID_PER_HOUR
    assert left.laying_hours["p10"] < usual_h < left.laying_hours["p90"]


def test_hours_told_are_learned_and_the_last_word_on_a_section_counts(job):
    dry.lay(job, 1)
    pieces = job.section(1).piece_count
    dry.time_laying(job, 1, 9.0)
    dry.time_laying(job, 1, 0.5)
    assert spells(job) == [(pieces, 1800.0)]
    assert book_lines(job)[0].text == f"Section 1: 0.5 h to lay {pieces} pieces"
    quicker = sizer(job).known.laying
    assert 3600 / math.exp(quicker.nig.m) > DEFAULT_LAID_PER_HOUR
    record.undo(job)
    assert spells(job) == [(pieces, 9 * 3600.0)]


def test_laid_again_after_it_was_taken_up_is_another_spell(job):
    dry.lay(job, 1)
    dry.time_laying(job, 1, 1.0)
    dry.take_up(job, 1)
    with pytest.raises(faults.WrongStage):
        dry.time_laying(job, 1, 1.0)
    dry.lay(job, 1, job.section(1).piece_count - 2)
    dry.time_laying(job, 1, 2.0)
    assert [seconds for _, seconds in spells(job)] == [3600.0, 7200.0]


def test_it_may_be_told_after_the_glue_up_and_on_another_panel_it_counts_too(job, store, clock):
    set_section(job, 1)
    dry.time_laying(job, 1, 1.5)
    other = open_panel(store, clock, grid_svg(6, 6), "other.svg")
    assert sizer(other).known.laying.spell_count == 1


@pytest.mark.parametrize("hours", [0.0, -1.0, math.nan, math.inf, 501.0])
def test_hours_that_cannot_be_are_refused(job, hours):
    dry.lay(job, 1)
    with pytest.raises(faults.HoursLaying):
        dry.time_laying(job, 1, hours)
    assert spells(job) == []


def test_no_section_is_foreseen_before_the_day_it_is_laid_and_the_rest_follows():
    steps = [Foreseen(1, 0.0, "", 1), Foreseen(2, 0.0, "", 1), Foreseen(3, 0.0, "", 2)]
    later = laid_first(steps, {1: 2.0, 2: 5.0, 3: 1.0}, 3.0)
    assert [step.day for step in later] == [1, 3, 4]
    assert laid_first(steps, {}, 3.0) == tuple(steps)


def test_slow_laying_moves_the_days_and_more_hours_a_day_bring_them_back(job):
    days = calendar(job)[-1].day
    for number in (1, 2):
        dry.lay(job, number)
        dry.time_laying(job, number, 12.0)
    slow = calendar(job)[-1].day
    assert slow > days
    opening.set_bench(job, job.state.bench.model_copy(update={"laying_hours_a_day": 12.0}))
    assert calendar(job)[-1].day < slow


def test_the_finishing_day_waits_for_what_is_laid():
    glue_ups = {"p10": 8.0, "p50": 10.0, "p90": 15.0}
    laid = {"p10": 2.0, "p50": 9.0, "p90": 9.0}
    assert finishing_days(4, 10, glue_ups, laid) == {"p10": 4.0, "p50": 9.0, "p90": 9.0}

"""Glue-ups that cannot be: each ends in one clear line, or is kept and not learned from."""

import shutil

import pytest

from bench.book import Store
from bench.book.events import BenchSet, MixClosed
from bench.fault import Fault
from bench.job import faults
from bench.job.acts import cup, dry, glueup, opening
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.remembered import glue_ups_with_notes
from bench.job.taught import LEARNT_FROM, glue_ups_of
from bench.pace.csv_file import read_glue_ups, write_glue_ups
from tests.fakes.benches import set_section, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


def learned(job):
    return [g for _, g in glue_ups_of(job.store.of_kinds(LEARNT_FROM))]


def pace_known(job) -> int:
    return sizer(job).known.hands.glue_up_count


@pytest.mark.parametrize("pieces", [0, -3, 10**6])
def test_a_section_of_no_pieces_or_far_too_many_is_not_laid(job, pieces):
    with pytest.raises(faults.CountOutOfRange) as fault:
        dry.lay(job, 1, pieces)
    assert "\n" not in str(fault.value)
    assert job.section(1).stage == "drawn"


def test_more_placed_than_laid_is_refused_and_the_count_before_stands(job):
    mix = start_mix(job, 1)
    glueup.count(job, mix, 10)
    most = job.section(1).piece_count
    for placed in (most + 1, -1):
        with pytest.raises(faults.CountOutOfRange, match=f"0 to {most}"):
            glueup.count(job, mix, placed)
    assert job.mix(mix).placed == 10
    with pytest.raises(faults.CountOutOfRange):
        glueup.close(job, mix, left=most + 1, why="dropped")
    assert job.mix(mix).is_running


def test_nothing_placed_is_kept_and_teaches_no_pace(job):
    mix = start_mix(job, 1)
    job.clock.advance(900)
    glueup.close(job, mix, left=job.section(1).piece_count, why="changed my mind")
    (kept,) = learned(job)
    assert (kept.pieces, kept.learn_pace) == (0, False)
    assert pace_known(job) == 0


def test_a_glue_up_of_no_time_is_kept_and_teaches_nothing(job):
    mix = start_mix(job, 1)
    glueup.close(job, mix)
    (kept,) = learned(job)
    assert (kept.learn_pace, kept.learn_life) == (False, False)


def test_done_told_after_ten_hours_is_kept_and_teaches_nothing(job):
    set_section(job, 1, minutes=600)
    (kept,) = learned(job)
    assert (kept.finished_after_s, kept.learn_pace, kept.learn_life) == (36_000, False, False)


def test_a_clock_that_jumped_is_kept_and_teaches_nothing(job):
    mix = start_mix(job, 1)
    job.clock.advance(300)
    job.clock.reboot()
    glueup.close(job, mix)
    (kept,) = learned(job)
    assert not kept.teaches
    assert pace_known(job) == 0


def test_two_glue_ups_at_once_teach_their_adhesives_life_and_no_pace(job, tmp_path):
    """Two pieces of work by one pair of hands: how the hands were shared nobody knows."""
    mixes = [start_mix(job, number) for number in _apart(job)]
    job.clock.advance(600)
    for mix in mixes:
        glueup.close(job, mix)
    job.clock.advance(24 * 3600)
    set_section(job, job.state.with_stage("drawn")[0].number)
    assert [g.learn_pace for g in learned(job)] == [False, False, True]
    assert all(g.learn_life for g in learned(job))
    assert pace_known(job) == 1
    path = tmp_path / "glue-ups.csv"
    path.write_text(write_glue_ups(*glue_ups_with_notes(job.store)))
    assert len(read_glue_ups(path)) == 1


@pytest.mark.parametrize("hands", [1, 2, 4])
def test_several_pairs_of_hands_teach_the_pace_of_one(store, clock, tmp_path, hands):
    """They fill most of the time with setting: what one pair would have taken is more than the whole."""
    bench = BenchSet(pace_per_min=5.0, hands=hands)
    job = open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=bench)
    mix = start_mix(job, 1)
    for step, after_s in (("spread", 60), ("set", 60), ("clean", 900)):
        clock.advance(after_s)
        glueup.begin_step(job, mix, step)
    clock.advance(60)
    glueup.close(job, mix)
    opening.divide_anew(job)
    (kept,) = learned(job)
    assert (kept.teaches, kept.seconds, kept.setting_s) == (True, 900.0 * hands, 900.0)
    assert kept.clock_s == 1080.0
    assert pace_known(job) == 1
    path = tmp_path / "glue-ups.csv"
    path.write_text(write_glue_ups(*glue_ups_with_notes(job.store)))
    assert [g.seconds for g in read_glue_ups(path)] == [900.0 * hands]


def test_done_told_for_a_moment_before_the_edge_was_scraped_ends_the_setting_then(job):
    mix = start_mix(job, 1)
    job.clock.advance(100)
    glueup.begin_step(job, mix, "set")
    job.clock.advance(800)
    glueup.begin_step(job, mix, "clean")
    glueup.close(job, mix, ago_s=300.0)
    (kept,) = learned(job)
    assert (kept.teaches, kept.setting_s, kept.finished_after_s) == (True, 500.0, 600.0)


def test_times_that_contradict_each_other_teach_nothing_and_stop_nothing(job):
    """As a book may hold them that was written before such times were looked at."""
    set_section(job, 1)
    (good,) = [x.event for x in job.store.events(job.panel_id) if isinstance(x.event, MixClosed)]
    job.clock.advance(24 * 3600)
    mix = start_mix(job, job.state.with_stage("drawn")[0].number)
    job.clock.advance(600)
    bad = {"mix": mix, "section": job.mix(mix).section, "setting_s": 900.0, "finished_after_s": 600.0}
    job.write(good.model_copy(update=bad))
    assert [g.teaches for g in learned(job)] == [True, False]
    opening.divide_anew(job)
    assert pace_known(job) == 1


def _apart(job):
    """Return two sections that do not touch, so that both may be wet at once."""
    from bench.job.ground import borders_mm

    beside = borders_mm(job)
    return next((a, b) for a in beside for b in beside if a < b and b not in beside[a])


def test_a_mix_forgotten_overnight_spoils_no_glue_up_beside_it(job):
    first, second = _apart(job)
    forgotten = start_mix(job, first)
    job.clock.advance(3600)
    set_section(job, second)
    job.clock.advance(20 * 3600)
    glueup.close(job, forgotten)
    assert [g.learn_pace for g in learned(job)] == [False, True]


def test_a_book_from_another_tablet_opens_and_its_running_mix_is_unsure(tmp_path):
    """Its boot clock is another: the working time is read as over, and the glue-up teaches nothing."""
    with Store.open(tmp_path / "here") as store:
        job = open_panel(store, FakeClock(), grid_svg(24, 12), "grid.svg", bench=BenchSet(pace_per_min=5.0))
        set_section(job, 1)
        job.clock.advance(24 * 3600)
        mix = start_mix(job, job.state.with_stage("drawn")[0].number)
        job.clock.advance(120)
        panel_id, utc = job.panel_id, job.clock.utc()
    shutil.copytree(tmp_path / "here", tmp_path / "there")
    with Store.open(tmp_path / "there") as store:
        clock = FakeClock(utc, boot_s=50.0, boot_id="another tablet")
        moved = Job(store, clock, panel_id)
        assert moved.reading(mix).unsure
        assert moved.reading(mix).left_to_work_s == 0
        glueup.close(moved, mix)
        assert [g.teaches for g in learned(moved)] == [True, False]
        assert pace_known(moved) == 1


def test_every_refusal_is_one_line_that_says_what_to_do(job):
    mix = start_mix(job, 1)
    wrong = [
        lambda: glueup.count(job, mix, 10**6),
        lambda: glueup.close(job, mix, left=3),
        lambda: glueup.resume(job, mix),
        lambda: glueup.stringy(job, mix, ago_s=1e9),
        lambda: cup.first_contact(job, mix),
        lambda: glueup.cup_went(job, mix, after_s=60.0),
        lambda: dry.lay(job, 1),
    ]
    for act in wrong:
        with pytest.raises(Fault) as fault:
            act()
        assert "\n" not in str(fault.value)
        assert fault.value.todo

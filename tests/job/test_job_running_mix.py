"""A mix that runs: what is told late, what cannot be, and a clock that cannot be trusted."""

import pytest

from bench.job.acts import cup, dry, glueup, opening, record
from bench.job.advice import advise
from bench.job.cup_faults import TimeOutOfRange
from bench.job.faults import CountOutOfRange, NothingToUndo, WrongOrder
from bench.job.measuring import sizer


def test_first_contact_is_back_dated_and_corrected_but_never_undone(job, clock):
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix, back_dated_s=120)
    clock.advance(60)
    assert job.reading(mix).spent_s == pytest.approx(180)
    glueup.count(job, mix, 4)
    cup.correct_contact(job, mix, earlier_by_s=30)
    assert job.reading(mix).spent_s == pytest.approx(210)
    assert job.mix(mix).counts == [(pytest.approx(210), 4)]
    with pytest.raises(NothingToUndo, match="nobody can take back"):
        record.undo(job)
    with pytest.raises(TimeOutOfRange):
        cup.correct_contact(job, mix, earlier_by_s=-5)


def test_pauses_leave_the_pace_but_not_the_adhesives_clock(job, clock):
    mix = start_mix(job)
    clock.advance(60)
    glueup.begin_step(job, mix, "spread")
    clock.advance(60)
    glueup.begin_step(job, mix, "set")
    clock.advance(300)
    glueup.pause(job, mix)
    clock.advance(120)
    glueup.resume(job, mix)
    clock.advance(180)
    glueup.begin_step(job, mix, "clean")
    clock.advance(60)
    glueup.close(job, mix)
    closed = job.mix(mix).closed
    assert closed.setting_s == pytest.approx(480)
    assert closed.paused_s == pytest.approx(120)
    assert closed.finished_after_s == pytest.approx(780)
    assert not closed.steps_assumed


def start_mix(job, number=None):
    """Lay the next section and let resin meet hardener; return the mix."""
    number = advise(job).section if number is None else number
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    return mix


def test_done_may_be_told_late_with_clean_hands(job, clock):
    mix = start_mix(job)
    clock.advance(20 * 60)
    glueup.close(job, mix, ago_s=300)
    assert job.mix(mix).closed.finished_after_s == pytest.approx(900)


def test_nothing_can_be_told_from_before_first_contact(job, clock):
    mix = start_mix(job)
    clock.advance(30)
    with pytest.raises(TimeOutOfRange):
        glueup.stringy(job, mix, ago_s=60)


@pytest.mark.parametrize("placed", [-1, 10_000])
def test_a_count_beyond_the_section_is_refused(job, placed):
    mix = start_mix(job)
    with pytest.raises(CountOutOfRange):
        glueup.count(job, mix, placed)


def test_left_pieces_need_a_reason(job, clock):
    mix = start_mix(job)
    clock.advance(600)
    with pytest.raises(WrongOrder, match="no reason"):
        glueup.close(job, mix, left=3)


def test_a_glue_up_with_a_changed_clock_is_kept_and_not_learned_from(job, clock):
    mix = start_mix(job)
    clock.advance(300)
    clock.reboot(60)
    assert job.reading(mix).left_to_work_s == 0
    glueup.close(job, mix)
    assert job.mix(mix).closed.unsure
    assert sizer(job).known.hands.glue_up_count == 0


def test_correcting_first_contact_does_not_make_an_unsure_clock_sure(job, clock):
    mix = start_mix(job)
    clock.advance(120)
    clock.reboot(30)
    assert job.reading(mix).unsure
    cup.correct_contact(job, mix, earlier_by_s=60)
    assert job.reading(mix).unsure
    assert job.reading(mix).left_to_work_s == 0


def test_a_mix_forgotten_for_a_day_teaches_nothing_and_spoils_nothing(job, clock):
    mix = start_mix(job)
    clock.advance(30 * 3600)
    glueup.close(job, mix)
    assert sizer(job).known.hands.glue_up_count == 0
    assert opening.divide_anew(job)

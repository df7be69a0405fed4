"""How long an adhesive lasts: shorter at once, longer only with three seen and the maker's word."""

import pytest

from bench.book.events import BatchPrescribed, ContactMade, LifeAllowed, MixClosed
from bench.job import faults
from bench.job.acts import cup, glueup, opening, record
from bench.job.acts.lasting import allow_longer, hold_to_label, lasting
from bench.job.learned_graphs import learned_graphs
from bench.job.measuring import sizer
from bench.job.taught import LEARNT_FROM, allowed_of, glue_ups_of
from bench.job.words import book_lines
from tests.fakes.benches import start_mix

WHITE = "white-paste"


def events(job, kind):
    return [x.event for x in job.store.events(job.panel_id) if isinstance(x.event, kind)]


def set_stringy(job, after_min: float) -> None:
    """Set the next drawn section; the adhesive goes stringy after so many minutes, when all is clean."""
    number = job.state.with_stage("drawn")[0].number
    mix = start_mix(job, number)
    job.clock.advance(60 * after_min)
    glueup.stringy(job, mix)
    glueup.close(job, mix)
    job.clock.advance(24 * 3600)


@pytest.fixture
def lasts(job):
    """Four mixes that went stringy after 36 to 38 minutes; the label says 25."""
    for after_min in (36, 37, 38):
        set_stringy(job, after_min)
    return job


def capacity_s(job) -> float:
    return sizer(job).sizing(WHITE).capacity.capacity_s


def test_a_life_longer_than_the_label_is_used_only_once_the_maker_says_so(lasts):
    shown = lasting(lasts, WHITE)
    assert (shown.exact, shown.allowed, shown.may_ask) == (3, False, True)
    assert shown.ratio > 1.1
    held_s, held = capacity_s(lasts), learned_graphs(lasts)[2].bands[0]
    allow_longer(lasts, WHITE)
    longer_s, longer = capacity_s(lasts), learned_graphs(lasts)[2].bands[0]
    assert longer_s > held_s
    assert min(longer.high) > max(held.high)
    assert lasting(lasts, WHITE).allowed
    assert "longer than its label, as 3 mixes have shown" in book_lines(lasts)[0].text
    with pytest.raises(faults.WrongOrder):
        allow_longer(lasts, WHITE)
    hold_to_label(lasts, WHITE)
    assert capacity_s(lasts) == pytest.approx(held_s)
    with pytest.raises(faults.WrongOrder):
        hold_to_label(lasts, WHITE)
    assert [x.longer for x in events(lasts, LifeAllowed)] == [True, False]


def test_consent_is_taken_back_like_any_act(lasts):
    allow_longer(lasts, WHITE)
    record.undo(lasts)
    assert allowed_of(lasts.store.of_kinds(LEARNT_FROM)) == frozenset()
    assert lasting(lasts, WHITE).may_ask


def test_two_mixes_are_not_enough_and_three_short_ones_show_nothing(job):
    for after_min in (36, 37):
        set_stringy(job, after_min)
    with pytest.raises(faults.NotLonger, match="2 mixes"):
        allow_longer(job, WHITE)
    for after_min in (20, 19, 18):
        set_stringy(job, after_min)
    with pytest.raises(faults.NotLonger, match="no longer"):
        allow_longer(job, WHITE)
    assert events(job, LifeAllowed) == []


def test_with_consent_the_countdown_is_longer_and_the_label_is_still_what_is_learned_against(lasts):
    allow_longer(lasts, WHITE)
    opening.divide_anew(lasts)
    mix = start_mix(lasts, lasts.state.with_stage("drawn")[0].number)
    contact = events(lasts, ContactMade)[-1]
    assert contact.working_time_s > contact.label_s == pytest.approx(1500, rel=0.05)
    lasts.clock.advance(1200)
    glueup.close(lasts, mix)
    assert events(lasts, MixClosed)[-1].label_s == contact.label_s


def test_what_went_stringy_early_shortens_the_next_countdown_and_is_not_counted_twice(job):
    labels = []
    for _ in range(3):
        set_stringy(job, 15)
        mix = start_mix(job, job.state.with_stage("drawn")[0].number)
        contact, batch = events(job, ContactMade)[-1], events(job, BatchPrescribed)[-1]
        assert contact.working_time_s == batch.working_time_s < contact.label_s
        labels.append(contact.label_s)
        glueup.close(job, mix, left=job.section(job.mix(mix).section).piece_count, why="changed my mind")
        job.clock.advance(24 * 3600)
    assert max(labels) == pytest.approx(min(labels), rel=0.02)
    median = sizer(job).known.life_of(WHITE).quantile_s(0.5, 25.0)
    assert 14 < median < 22


def test_until_it_was_seen_to_go_the_countdown_is_the_labels(job):
    mix = start_mix(job, 1)
    assert job.mix(mix).working_time_s == job.mix(mix).label_s
    sheet_s = events(job, BatchPrescribed)[-1].working_time_s
    assert sheet_s == pytest.approx(job.mix(mix).label_s)


def test_why_pieces_were_left_decides_what_is_learned(job):
    """Stringy: it had gone by then. Called away: nobody saw. Else it held so long at least."""
    seen = {}
    for why in ("stringy", "called away", "did not fit", "dropped", "changed my mind"):
        mix = start_mix(job, job.state.with_stage("drawn")[0].number)
        job.clock.advance(1000)
        glueup.close(job, mix, left=5, why=why)
        job.clock.advance(24 * 3600)
        seen[why] = glue_ups_of(job.store.of_kinds(LEARNT_FROM))[-1][1]
    assert all(g.learn_pace for g in seen.values())
    assert seen["stringy"].stringy_after_s == 1000
    assert not seen["called away"].learn_life
    for why in ("did not fit", "dropped", "changed my mind"):
        assert (seen[why].learn_life, seen[why].stringy_after_s) == (True, None)


def test_a_cup_lost_sight_of_is_no_reason_to_trust_a_longer_life(job):
    mix = start_mix(job, 1)
    job.clock.advance(900)
    glueup.close(job, mix)
    assert not lasting(job, WHITE).may_ask
    with pytest.raises(faults.NotLonger, match="0 mixes"):
        allow_longer(job, WHITE)
    assert cup.sheet(job, cup_for(job)).working_time_s == pytest.approx(1500, rel=0.05)


def cup_for(job) -> int:
    from bench.job.acts import dry

    job.clock.advance(24 * 3600)
    number = job.state.with_stage("drawn")[0].number
    dry.lay(job, number)
    return cup.open_mix(job, number, 21.0)

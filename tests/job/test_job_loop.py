"""A whole panel, worked by acts alone: no screen, no file, no waiting."""

import numpy as np
import pytest

from bench.book.events import MixClosed, SectionsDrawn
from bench.job.acts import cup, cure, dry, glueup, opening, record
from bench.job.advice import advise, section_sheet
from bench.job.cup_faults import AlreadyStarted, CautionsNotRead, CupInUse
from bench.job.faults import BesideSoftWork, NothingToUndo, WrongStage
from bench.job.fold import fold
from bench.job.ground import borders_mm, section_numbers
from bench.job.measuring import sizer
from tests.job.test_job_running_mix import start_mix


def glue_up(job, clock, number, *, minutes=12.0, left=0, why=None):
    """Lay, mix and set one section; the whole takes so many minutes from first contact."""
    if job.section(number).stage == "drawn":
        dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    clock.advance(minutes * 60)
    glueup.close(job, mix, left=left, why=why)
    opening.divide_anew(job)
    return mix


def assert_every_tessera_is_in_one_section(job):
    seen = np.zeros(job.panel.tessera_count, dtype=int)
    for section in job.state.sections.values():
        seen[list(section.tesserae)] += 1
    assert seen.min() == seen.max() == 1


def test_a_whole_panel_is_worked_by_following_the_advice(two_adhesives, clock):
    job = two_adhesives
    done = 0
    for _ in range(200):
        advice = advise(job)
        if advice.act == "finish":
            break
        if advice.act == "wait":
            clock.advance(3600)
            continue
        glue_up(job, clock, advice.section)
        assert_every_tessera_is_in_one_section(job)
        done += 1
    assert advise(job).act == "finish"
    assert {job.life(n) for n in job.state.sections} == {"hard"}
    assert done == len(job.state.sections)
    assert {s.adhesive for s in job.state.sections.values()} == {"clear-slow", "white-paste"}


def test_the_pace_learned_changes_what_is_still_drawn(job, clock):
    """Quick hands earn larger sections: fewer are left to do."""
    before = len(job.state.with_stage("drawn"))
    first = advise(job).section
    kept = job.section(first).tesserae
    glue_up(job, clock, first, minutes=5.0)
    after = job.state.with_stage("drawn")
    assert len(after) < before - 1
    assert job.section(first).tesserae == kept
    assert max(len(s.tesserae) for s in after) > len(kept)


def test_a_stringy_glue_up_shrinks_the_sections_of_tomorrow(job, clock):
    before_s = sizer(job).sizing("white-paste").capacity.capacity_s
    mix = start_mix(job)
    clock.advance(14 * 60)
    glueup.stringy(job, mix)
    glueup.close(job, mix, left=10, why="stringy")
    life, label_s = sizer(job).known.life_of("white-paste"), job.mix(mix).working_time_s
    assert life.quantile_s(0.5, label_s) < label_s * 0.97
    in_time = job.mix(mix).closed.in_time
    assert not in_time
    unlearned_s = sizer(job).sizing("white-paste").capacity.capacity_s
    assert unlearned_s < before_s * 1.5


def test_some_left_go_back_to_drawn_from_the_open_edge(job, clock):
    number = advise(job).section
    size = len(job.section(number).tesserae)
    mix = glue_up(job, clock, number, left=5, why="did not fit")
    closed = job.mix(mix).closed
    assert len(closed.left) == 5
    assert closed.left_assumed
    assert closed.placed == size - 5
    assert len(job.section(number).tesserae) == size - 5
    assert set(closed.left) <= job.state.laid_once
    assert_every_tessera_is_in_one_section(job)
    drawn = {t for s in job.state.with_stage("drawn") for t in s.tesserae}
    assert set(closed.left) <= drawn


def test_the_pieces_left_can_be_named(job, clock):
    number = advise(job).section
    named = job.section(number).tesserae[:3]
    mix = glue_up(job, clock, number, left=named, why="dropped")
    assert set(job.mix(mix).closed.left) == set(named)
    assert not job.mix(mix).closed.left_assumed


def test_all_pieces_left_leaves_no_section_behind_and_never_its_number(job, clock):
    number = advise(job).section
    size = len(job.section(number).tesserae)
    glue_up(job, clock, number, left=size, why="called away")
    assert number not in job.state.sections
    assert number in job.state.worked_numbers
    assert_every_tessera_is_in_one_section(job)
    assert number not in {s.number for s in job.state.with_stage("drawn")}


def test_the_counted_pieces_decide_not_the_drawn(job):
    number = advise(job).section
    drawn = len(job.section(number).tesserae)
    dry.lay(job, number, drawn)
    as_drawn = job.section(number).in_time
    dry.lay(job, number, 2 * drawn)
    assert section_sheet(job, number).pieces == 2 * drawn
    assert job.section(number).in_time < as_drawn
    assert job.section(number).in_time < job.state.bench.sure


def test_a_hot_room_offers_the_split_and_the_parts_keep_the_promise(job):
    number = advise(job).section
    dry.lay(job, number)
    assert dry.in_time(job, job.section(number)) >= 0.9
    assert dry.in_time(job, job.section(number), temperature_C=33.0) < 0.9
    pieces = job.section(number).piece_count
    parts = dry.split(job, number, temperature_C=33.0)
    assert parts[0] == number
    assert sum(job.section(n).piece_count for n in parts) == pieces
    for n in parts:
        assert job.section(n).stage == "dry"
        assert dry.in_time(job, job.section(n), temperature_C=33.0) >= 0.9
    assert_every_tessera_is_in_one_section(job)


def test_taken_up_pieces_are_drawn_again_under_the_same_number(job):
    number = advise(job).section
    dry.lay(job, number)
    dry.take_up(job, number)
    assert job.life(number) == "drawn"
    with pytest.raises(WrongStage, match="only a dry section"):
        dry.take_up(job, number)


def test_a_chipped_out_section_gives_its_ground_back_under_new_numbers(job, clock):
    number = advise(job).section
    ground = set(job.section(number).tesserae)
    glue_up(job, clock, number)
    cure.chip_out(job, number)
    assert number not in job.state.sections
    assert ground <= {t for s in job.state.with_stage("drawn") for t in s.tesserae}
    opening.divide_anew(job)
    assert number not in {s.number for s in job.state.with_stage("drawn")}
    assert_every_tessera_is_in_one_section(job)


def test_wet_becomes_soft_firm_and_hard_by_the_cure(job, clock):
    number = advise(job).section
    mix = glue_up(job, clock, number)
    closed = job.mix(mix).closed
    assert job.life(number) == "soft"
    clock.advance(closed.firm_s)
    assert job.life(number) == "firm"
    clock.advance(closed.grout_s - closed.firm_s)
    assert job.life(number) == "hard"


def test_no_section_is_set_beside_soft_work(job, clock):
    number = advise(job).section
    glue_up(job, clock, number)
    beside = next(n for n in borders_mm(job)[number] if job.section(n).stage == "drawn")
    dry.lay(job, beside)
    with pytest.raises(BesideSoftWork, match=f"section {number}, which is not firm"):
        cup.open_mix(job, beside, 21.0)
    clock.advance(job.mix(1).closed.firm_s)
    assert cup.open_mix(job, beside, 21.0) == 2


def test_resin_meets_hardener_only_after_the_cautions(job):
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    with pytest.raises(CautionsNotRead):
        cup.first_contact(job, mix)
    cup.acknowledge(job, mix)
    assert any("data sheet" in text for text in job.mix(mix).shown)
    cup.first_contact(job, mix)
    with pytest.raises(AlreadyStarted):
        cup.first_contact(job, mix)


def test_hardener_follows_the_resin_actually_poured(job):
    number = advise(job).section
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    ratio = job.product("white-paste").mass_ratio
    assert cup.pour_resin(job, mix, 6.4) == pytest.approx(6.4 * ratio)
    assert cup.sheet(job, mix).batch.hardener_target_g == pytest.approx(6.4 * ratio)


def test_one_cup_is_made_ready_at_a_time_and_can_be_put_away(job):
    first, second = [s.number for s in job.state.with_stage("drawn")][:2]
    dry.lay(job, first)
    dry.lay(job, second)
    mix = cup.open_mix(job, first, 21.0)
    with pytest.raises(CupInUse):
        cup.open_mix(job, second, 21.0)
    cup.put_away(job, mix)
    assert job.life(first) == "dry"
    assert cup.open_mix(job, second, 21.0) == 2


def test_undo_takes_back_the_last_act_and_its_division(job, clock):
    number = advise(job).section
    before = section_numbers(job).tolist()
    mix = glue_up(job, clock, number, minutes=5.0)
    assert section_numbers(job).tolist() != before
    record.undo(job)
    assert job.mix(mix).is_running
    assert section_numbers(job).tolist() == before
    with pytest.raises(NothingToUndo):
        record.undo(job)
    glueup.close(job, mix)
    assert job.life(number) == "soft"


def test_undo_of_laying_leaves_the_panel_as_it_was(job):
    number = advise(job).section
    dry.lay(job, number)
    record.undo(job)
    assert job.life(number) == "drawn"
    with pytest.raises(NothingToUndo, match="opening"):
        record.undo(job)


def test_promises_once_stored_do_not_change(job, clock):
    first = [
        e.event for e in job.store.events(job.panel_id) if isinstance(e.event, SectionsDrawn | MixClosed)
    ]
    glue_up(job, clock, advise(job).section)
    again = [
        e.event for e in job.store.events(job.panel_id) if isinstance(e.event, SectionsDrawn | MixClosed)
    ]
    assert again[: len(first)] == first


def test_the_fold_of_the_stored_book_is_the_state_that_was_followed(job, clock):
    glue_up(job, clock, advise(job).section, left=4, why="dropped")
    record.note(job, "Cobalt sheet is used up.")
    assert fold(job.store.events(job.panel_id)) == job.state

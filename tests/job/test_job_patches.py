"""A panel set by the patch: what decides, what is counted, what is left, and what the book learns."""

import numpy as np
import pytest

from bench.book.events import BenchSet, MixClosed
from bench.job import faults
from bench.job.acts import cup, dry, glueup, opening, record
from bench.job.acts.opening import open_panel
from bench.job.dry_count import judged, mixes_of
from bench.job.foretelling import forecast_left
from bench.job.glue_sheet import glue_sheet
from bench.job.learned_graphs import learned_graphs
from bench.job.measuring import sizer
from bench.job.practice import PlayingHand, play
from bench.job.taught import LEARNT_FROM, glue_ups_of
from bench.job.words import book_lines
from tests.fakes.benches import set_section, start_mix
from tests.fakes.drawings import grid_svg

PATCH = BenchSet(transfer="patch", patch_cm2=6.0, patches_per_min=0.5)


@pytest.fixture
def job(store, clock):
    """A panel of 24 × 12 tesserae, set in patches of 6 cm² at two minutes each."""
    return open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=PATCH)


def closed(job) -> MixClosed:
    return [x.event for x in job.store.events(job.panel_id) if isinstance(x.event, MixClosed)][-1]


def test_every_section_keeps_the_promise_by_its_patches_and_bed(job):
    assert min(s.in_time for s in job.state.sections.values()) >= 0.9
    measures = sizer(job)
    for section in job.state.sections.values():
        members = np.array(section.tesserae, dtype=np.int32)
        bed_cm2 = measures.bed_mm2(members) / 100
        assert measures.patches(members) == max(1, round(bed_cm2 / 6.0))
    fewer = len(job.state.sections)
    opening.set_bench(job, job.state.bench.model_copy(update={"patches_per_min": 0.25}))
    assert len(job.state.sections) > fewer


def test_at_dry_the_patches_decide_not_the_pieces(job):
    section = job.section(1)
    usual = dry.patches_of(job, section)
    dry.lay(job, 1, len(section.tesserae) + 30)
    kept = job.section(1).in_time
    assert (job.section(1).patches, kept) == (usual, pytest.approx(section.in_time, abs=0.02))
    dry.lay(job, 1, patches=2 * usual)
    assert job.section(1).in_time < kept
    assert job.section(1).piece_count == len(section.tesserae) + 30
    found = judged(job, 1, section.piece_count)
    assert (found.fits, found.unit) == (False, "patches")
    assert 0 < found.leave < 2 * usual
    assert len(found.strip) == pytest.approx(found.leave / (2 * usual) * len(section.tesserae), abs=1)
    mixes = mixes_of(job, 1)
    assert sorted(t for part in mixes for t in part) == sorted(section.tesserae)
    assert f"in {2 * usual} patches" in book_lines(job)[0].text


def test_a_split_shares_the_patches_out(job):
    usual = dry.patches_of(job, job.section(1))
    dry.lay(job, 1, patches=2 * usual)
    numbers = dry.split(job, 1)
    assert sum(job.section(n).patches for n in numbers) == 2 * usual
    assert min(job.section(n).in_time for n in numbers) >= 0.9 - 0.02


@pytest.mark.parametrize("patches", [0, -2, 10_000])
def test_patches_that_cannot_be_are_refused(job, patches):
    dry.lay(job, 1)
    with pytest.raises(faults.CountOutOfRange, match="patches"):
        dry.lay(job, 1, patches=patches)


def test_the_glue_up_is_counted_in_patches_and_says_which_edge_to_leave(job):
    mix = start_mix(job, 1)
    whole = job.mix(mix).patches
    job.clock.advance(300)
    glueup.begin_step(job, mix, "set")
    job.clock.advance(500)
    glueup.count(job, mix, 2)
    sheet = glue_sheet(job, mix)
    assert (sheet.pieces, sheet.placed, sheet.unit) == (whole, 2, "patches")
    assert sheet.leave > 0
    assert sheet.likely_more + sheet.leave == whole - 2
    assert f" edge, about {sheet.leave} patch" in sheet.advice
    assert sheet.advice.endswith(f": {sheet.likely_more} more will fit.")
    with pytest.raises(faults.CountOutOfRange, match="patches"):
        glueup.count(job, mix, whole + 1)


def test_patches_left_are_so_much_of_the_drawing_and_the_rest_is_learned(job):
    drawn = len(job.section(1).tesserae)
    mix = start_mix(job, 1)
    whole = job.mix(mix).patches
    job.clock.advance(1200)
    glueup.close(job, mix, left=2, why="did not fit")
    told = closed(job)
    assert (told.patches, told.left_assumed) == (whole - 2, True)
    assert len(told.left) == round(2 * drawn / whole)
    assert told.placed == drawn - round(drawn * 2 / whole)
    (_, learned), = glue_ups_of(job.store.of_kinds(LEARNT_FROM))
    assert (learned.patches, learned.area_mm2) == (whole - 2, told.bed_mm2)
    assert sizer(job).known.hands.glue_up_count == 1


def test_pieces_tapped_as_left_take_their_share_of_the_patches(job):
    mix = start_mix(job, 1)
    tesserae, whole = job.section(1).tesserae, job.mix(mix).patches
    job.clock.advance(1200)
    glueup.close(job, mix, left=tesserae[: len(tesserae) // 2], why="dropped")
    assert closed(job).patches == whole - round(whole / 2)


def test_all_patches_left_teach_no_pace(job):
    mix = start_mix(job, 1)
    job.clock.advance(1200)
    glueup.close(job, mix, left=job.mix(mix).patches, why="called away")
    assert (closed(job).patches, closed(job).placed) == (0, 0)
    (_, learned), = glue_ups_of(job.store.of_kinds(LEARNT_FROM))
    assert (learned.learn_pace, learned.learn_life) == (False, False)


def test_slow_patches_shrink_tomorrows_sections_and_show_in_the_graph(job):
    before = max(len(s.tesserae) for s in job.state.with_stage("drawn"))
    set_section(job, 1, minutes=24)
    opening.divide_anew(job)
    assert max(len(s.tesserae) for s in job.state.with_stage("drawn")) < before
    assert sizer(job).known.hands.pace_per_min["p50"] < 0.5
    pace = learned_graphs(job)[0]
    assert (len(pace.spots), pace.y.title) == (1, "patches of 6\u00a0cm² a minute")


def test_pieces_and_patches_are_two_paces_and_going_back_finds_the_old_one(job):
    set_section(job, 1, minutes=24)
    slow = sizer(job).known.hands.one_s
    opening.set_bench(job, job.state.bench.model_copy(update={"transfer": "single"}))
    assert sizer(job).known.hands.glue_up_count == 0
    opening.set_bench(job, job.state.bench.model_copy(update={"transfer": "face-down"}))
    assert sizer(job).known.hands.one_s == pytest.approx(slow)


def test_patch_and_face_down_divide_alike_and_nothing_changes_under_a_running_mix(job):
    drawn = dict(job.state.sections)
    opening.set_bench(job, job.state.bench.model_copy(update={"transfer": "face-down"}))
    assert job.state.sections == drawn
    start_mix(job, 1)
    with pytest.raises(faults.WrongOrder, match="mix runs"):
        opening.set_bench(job, job.state.bench.model_copy(update={"transfer": "single"}))


def test_a_section_laid_before_the_transfer_was_set_is_set_in_the_usual_patches(store, clock):
    job = open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=BenchSet(pace_per_min=5.0))
    dry.lay(job, 1)
    assert job.section(1).patches is None
    opening.set_bench(job, job.state.bench.model_copy(update={"transfer": "patch", "patch_cm2": 6.0}))
    mix = cup.open_mix(job, 1, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    assert job.mix(mix).patches == dry.patches_of(job, job.section(1))


def test_what_is_left_is_foretold_by_patches(job):
    all_of_it = forecast_left(job)
    set_section(job, 1, minutes=15)
    rest = forecast_left(job)
    assert 0 < rest.glue_ups["p50"] < all_of_it.glue_ups["p50"] + 1
    assert rest.laying_hours["p50"] < all_of_it.laying_hours["p50"]


def test_a_glue_up_by_the_patch_can_be_practised(job):
    said = [m.title for m in play(job, job.clock.advance, np.random.default_rng(2))]
    assert said[-1] == "The next section, by the pace just learned"
    assert closed(job).patches


def test_patches_are_taken_back_like_any_act(job):
    dry.lay(job, 1)
    dry.lay(job, 1, patches=2)
    record.undo(job)
    assert job.section(1).patches == dry.patches_of(job, job.section(1)) != 2


@pytest.mark.parametrize("by_patch", [True, False])
def test_a_made_up_hand_counts_what_the_mix_is_counted_in(job, by_patch):
    if not by_patch:
        opening.set_bench(job, BenchSet(pace_per_min=5.0))
    mix, hand, told = start_mix(job, 1), PlayingHand(seed=2), []
    whole, unit = glueup.to_set(job, job.mix(mix))
    assert unit == ("patches" if by_patch else "pieces")
    for _ in range(100):
        job.clock.advance(30)
        if hand.follow(job):
            told.append(job.mix(mix).placed)
    assert told == sorted(set(told))
    assert (len(told) > 1, told[-1]) == (True, whole)

"""Second thoughts: what is dry or later stays, bare ground is drawn anew, and undo takes all of it back."""

import copy
import hashlib
from datetime import timedelta

import numpy as np
import pytest

from bench.app import job_to_open
from bench.book.events import DrawingRevised, SectionsDrawn
from bench.job.acts import dry, glueup, opening, record, revising
from bench.job.advice import advise
from bench.job.drawings import panels_of_drawing
from bench.job.foretelling import forecast_left
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.practice import practice_of
from bench.job.revised_words import pieces_told, sections_told
from bench.job.words import book_lines
from tests.fakes.benches import start_mix
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.revisions import assert_same_panel, assert_whole, places, revise, yellow_from
from tests.fakes.shapes import page


def test_a_look_writes_nothing(begun):
    seq, state, panel = begun.store.last_seq(begun.panel_id), copy.deepcopy(begun.state), begun.panel
    revising.try_revise(begun, yellow_from(8), "second.svg")
    assert begun.store.last_seq(begun.panel_id) == seq
    assert begun.state == state
    assert begun.panel is panel


def test_what_is_dry_or_set_stays_where_it_is_with_its_count_and_promise(begun):
    before = {n: (places(begun, n), copy.copy(begun.section(n))) for n in (1, 2)}
    revise(begun, grid_svg(22, 11, pitch_mm=84 / 11, page_mm=(168, 84)))
    for number, (where, old) in before.items():
        assert places(begun, number) == where
        now = begun.section(number)
        assert (now.stage, now.pieces, now.in_time, now.expected_s, now.laid_utc, now.mix) == (
            (old.stage, old.pieces, old.in_time, old.expected_s, old.laid_utc, old.mix)
        )
    assert_whole(begun)


def test_the_figures_are_those_of_the_two_drawings(begun):
    """Counted by hand from the grids: columns from 8 on have turned yellow."""
    dry_or_set = [t for n in (1, 2) for t in begun.section(n).tesserae]
    column = (begun.panel.centroid_mm[:, 0] // 7).astype(int)
    bare = np.setdiff1d(np.arange(288), dry_or_set)
    tried = revising.try_revise(begun, yellow_from(8), "second.svg")
    event = tried.events[0]
    assert (event.stay, event.added, event.gone) == (len(dry_or_set), 0, 0)
    assert event.changed == (column[bare] >= 8).sum()
    assert event.same == (column[bare] < 8).sum()
    assert event.left_out == (column[dry_or_set] >= 8).sum()
    assert tried.before == len(begun.state.with_stage("drawn"))
    told = " ".join([*pieces_told(tried), sections_told(tried)])
    for count in (event.stay, event.changed, event.left_out):
        assert str(count) in told
    assert f"{tried.before} now, {tried.after} then" in told


def test_grams_before_and_after_are_those_of_the_sections_drawn(begun):
    measures = sizer(begun)
    grams = sum(
        measures.batch(s.adhesive, np.asarray(s.tesserae)).total_g for s in begun.state.with_stage("drawn")
    )
    tried = revise(begun, grid_svg(12, 6, pitch_mm=14, joint_mm=1.0))
    assert tried.before_g == pytest.approx(grams)
    measures = sizer(begun)
    grams = sum(
        measures.batch(s.adhesive, np.asarray(s.tesserae)).total_g for s in begun.state.with_stage("drawn")
    )
    assert tried.after_g == pytest.approx(grams)


def test_the_book_opened_again_shows_the_revised_panel(begun):
    revise(begun, yellow_from(8))
    again = Job(begun.store, begun.clock, begun.panel_id)
    assert_same_panel(begun.panel, again.panel)
    assert again.state == begun.state
    assert advise(again).headline == advise(begun).headline


def test_taking_it_back_returns_the_very_state_and_drawing(begun):
    before, panel = copy.deepcopy(begun.state), begun.panel
    first = revise(begun, yellow_from(8))
    once = copy.deepcopy(begun.state)
    revise(begun, grid_svg(12, 6, pitch_mm=14), "third.svg")
    record.undo(begun)
    assert begun.state == once
    assert begun.panel is first.panel
    record.undo(begun)
    assert begun.state == before
    assert begun.panel is panel
    again = Job(begun.store, begun.clock, begun.panel_id)
    assert again.state == before
    assert_same_panel(panel, again.panel)


def test_after_a_change_in_one_corner_sections_are_found_again_under_their_numbers(job):
    before = {n: set(places(job, n)) for n in job.state.sections}
    dry.lay(job, 1)
    tried = revise(job, grid_svg(24, 12, colour=lambda c, r: YELLOW if c > 21 and r > 9 else BLUE))
    assert tried.keep_number == tried.before == tried.after
    stay = [len(before[n].intersection(places(job, n))) for n in job.state.sections]
    assert sum(stay) >= 0.85 * job.panel.tessera_count
    assert all(count > len(before[n]) / 2 for n, count in zip(job.state.sections, stay, strict=True))


def test_with_nothing_laid_the_whole_drawing_is_the_new_one(job):
    tried = revise(job, grid_svg(12, 6, pitch_mm=14.0))
    assert job.panel.tessera_count == 72
    assert tried.events[0].stay == 0
    assert "stay" not in " ".join(pieces_told(tried))
    assert_whole(job)


def test_with_nothing_bare_only_what_lies_over_it_is_told(job):
    for number in sorted(job.state.sections):
        dry.lay(job, number)
    tried = revise(job, yellow_from(0))
    assert (tried.before, tried.after, tried.after_g) == (0, 0, 0)
    assert len(tried.revision.left_out) == 288
    assert (job.panel.colour == job.panel.colour[0]).all()
    assert_whole(job)


def test_a_drawing_may_leave_bare_ground_empty(begun):
    stay = sum(len(begun.section(n).tesserae) for n in (1, 2))
    spot = begun.panel.centroid_mm[begun.section(1).tesserae[0]] - 3.1
    alone = f'<rect x="{spot[0]}" y="{spot[1]}" width="6.2" height="6.2" fill="{BLUE}"/>'
    tried = revise(begun, page(alone, size='width="168mm" height="84mm" viewBox="0 0 168 84"'))
    assert begun.panel.tessera_count == stay
    assert tried.events[0].gone == 288 - stay
    assert tried.events[0].left_out == 0
    assert_whole(begun)


def test_it_is_one_act_and_both_files_are_kept(begun):
    data = yellow_from(8)
    tried = revise(begun, data)
    act = [x for x in begun.store.events(begun.panel_id) if x.act_id == begun.state.act_ids[-1]]
    assert [type(x.event) for x in act] == [DrawingRevised, SectionsDrawn]
    assert begun.store.blob(act[0].event.given_sha256) == data
    assert hashlib.sha256(begun.store.blob(begun.state.drawing_sha256)).hexdigest() == (
        tried.events[0].drawing_sha256
    )


def test_the_map_of_pieces_is_short_where_the_order_stays():
    to_new = np.array([5, 6, 7, -1, 8, 0])
    runs = revising.runs_of(to_new, np.array([True, True, True, False, True, True]))
    assert runs == ((0, 5, 3), (4, 8, 1), (5, 0, 1))
    assert revising.runs_of(to_new, np.zeros(6, bool)) == ()


def test_work_goes_on_over_the_revised_drawing(begun):
    """A dry section is set with pieces left over, the ground divided anew, one shaped, all foretold."""
    revise(begun, grid_svg(22, 11, pitch_mm=84 / 11, page_mm=(168, 84)))
    begun.clock.advance(timedelta(hours=6).total_seconds())
    mix = start_mix(begun, 2)
    begun.clock.advance(900)
    glueup.close(begun, mix, left=5, why="did not fit")
    opening.divide_anew(begun)
    assert_whole(begun)
    number = begun.state.with_stage("drawn")[0].number
    dry.lay(begun, number)
    opening.set_bench(begun, begun.state.bench.model_copy(update={"sure": 0.8}))
    assert_whole(begun)
    assert forecast_left(begun).glue_ups["p50"] > 0
    assert practice_of(begun).panel is begun.panel


def test_the_book_tells_it_in_plain_words(begun):
    revise(begun, yellow_from(8))
    event = next(x.event for x in begun.store.events(begun.panel_id) if isinstance(x.event, DrawingRevised))
    line = book_lines(begun)[1].text
    assert line == (
        f"Drawing revised to second.svg: {event.changed} changed, 0 added, 0 gone; "
        f"{event.stay} pieces dry or set stay"
    )


def test_the_revised_file_leads_back_to_its_panel_until_it_is_taken_back(begun, tmp_path):
    data = yellow_from(8)
    sha256 = hashlib.sha256(data).hexdigest()
    assert panels_of_drawing(begun.store, sha256) == []
    revise(begun, data)
    assert [p.panel_id for p in panels_of_drawing(begun.store, sha256)] == [begun.panel_id]
    path = tmp_path / "second.svg"
    path.write_bytes(data)
    assert job_to_open(begun.store, begun.clock, path).panel_id == begun.panel_id
    first = hashlib.sha256(grid_svg(24, 12)).hexdigest()
    assert [p.panel_id for p in panels_of_drawing(begun.store, first)] == [begun.panel_id]
    record.undo(begun)
    assert panels_of_drawing(begun.store, sha256) == []

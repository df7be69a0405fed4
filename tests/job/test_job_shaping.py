"""Sections shaped by hand: the rule that breaks is named, and later divisions leave them alone."""

import numpy as np
import pytest

from bench.book import Store
from bench.book.events import BenchSet, SectionsDrawn, SectionsShaped
from bench.fault import Fault
from bench.job.acts import dry, opening, record, shaping
from bench.job.faults import AcrossASeam, ShapedTooLarge, WrongOrder, WrongStage
from bench.job.ground import borders_mm, section_numbers
from bench.job.job import Job
from bench.job.words import book_lines
from bench.sections.faults import NotConnected, OverCapacity, StrokeDividesNothing
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


def whole(job: Job) -> bool:
    """Every tessera lies in exactly one section, and the book folds to the same."""
    lying = sorted(t for s in job.state.sections.values() for t in s.tesserae)
    return lying == list(range(job.panel.tessera_count))


def halves(job: Job, number: int) -> tuple[int, int]:
    """Part a section across its middle; return both numbers."""
    x_mm = float(np.median(job.panel.centroid_mm[list(job.section(number).tesserae), 0])) + 0.01
    shaped = shaping.try_split(job, number, [(x_mm, -10.0), (x_mm, 1000.0)])
    shaping.shape(job, shaped)
    a, b = (p.number for p in shaped.promises[:2])
    return a, b


def test_a_stroke_parts_a_section_and_the_larger_part_keeps_its_number(job):
    number = job.state.with_stage("drawn")[0].number
    pieces, used = len(job.section(number).tesserae), set(job.state.used_numbers)
    a, b = halves(job, number)
    assert a == number
    assert b not in used
    assert len(job.section(a).tesserae) + len(job.section(b).tesserae) == pieces
    assert job.section(a).by_hand
    assert job.section(b).by_hand
    assert whole(job)


def test_two_parts_are_joined_again_and_the_number_that_is_gone_is_not_used_again(job):
    number = job.state.with_stage("drawn")[0].number
    a, b = halves(job, number)
    joined = shaping.try_join(job, a, b)
    shaping.shape(job, joined)
    gone = {a, b}.difference(p.number for p in joined.promises)
    assert joined.gone == tuple(gone)
    assert gone <= job.state.used_numbers
    assert whole(job)
    again = halves(job, joined.promises[0].number)
    assert not gone & set(again)


def test_two_full_sections_cannot_be_one_and_the_rule_is_named(job):
    a = job.state.with_stage("drawn")[0].number
    beside = next(iter(borders_mm(job)[a]))
    with pytest.raises(OverCapacity) as told:
        shaping.try_join(job, a, beside)
    assert told.value.rule == "within capacity"
    assert whole(job)


def test_sections_that_do_not_touch_cannot_be_joined(job):
    numbers = section_numbers(job)
    far = int(numbers[np.argmax(job.panel.centroid_mm.sum(axis=1))])
    near = int(numbers[np.argmin(job.panel.centroid_mm.sum(axis=1))])
    a, _ = halves(job, near)
    b, _ = halves(job, far)
    with pytest.raises((NotConnected, OverCapacity)):
        shaping.try_join(job, a, b)


def test_pieces_moved_take_along_what_would_be_cut_off(job):
    """The least change that keeps the section they leave whole."""
    number = job.state.with_stage("drawn")[0].number
    a, b = halves(job, number)
    own = np.array(job.section(a).tesserae)
    edge = [t for t in own.tolist() if _touches(job, t, b)]
    shaped = shaping.try_move(job, edge, b)
    after = {p.number: set(p.tesserae) for p in shaped.promises}
    assert set(edge) <= after[b]
    shaping.shape(job, shaped)
    assert whole(job)


def _touches(job: Job, tessera: int, number: int) -> bool:
    pair, members = job.panel.joints.pair, set(job.section(number).tesserae)
    beside = [b if a == tessera else a for a, b in pair.tolist() if tessera in (a, b)]
    return any(t in members for t in beside)


def test_a_move_that_touches_no_other_drawn_section_says_so(job):
    number = job.state.with_stage("drawn")[0].number
    with pytest.raises(WrongOrder, match="no piece of another drawn section"):
        shaping.try_move(job, list(job.section(number).tesserae), number)


def test_a_stroke_beside_the_section_parts_nothing(job):
    number = job.state.with_stage("drawn")[0].number
    for stroke in ([(-5.0, -5.0), (-5.0, 500.0)], [(3.0, 3.0)], []):
        with pytest.raises(StrokeDividesNothing):
            shaping.try_split(job, number, stroke)


def test_what_lies_dry_is_not_shaped(job):
    a, b = halves(job, job.state.with_stage("drawn")[0].number)
    shaped = shaping.try_join(job, a, b)
    dry.lay(job, a)
    with pytest.raises(WrongStage):
        shaping.try_join(job, a, b)
    with pytest.raises(WrongStage):
        shaping.shape(job, shaped)


def test_what_was_tried_on_sections_that_have_changed_since_is_refused(job):
    """A division may come back between the try and the tap that keeps it: no piece may lie twice."""
    number = job.state.with_stage("drawn")[0].number
    x_mm = float(np.median(job.panel.centroid_mm[list(job.section(number).tesserae), 0])) + 0.01
    shaped = shaping.try_split(job, number, [(x_mm, -10.0), (x_mm, 1000.0)])
    opening.set_bench(job, job.state.bench.model_copy(update={"pace_per_min": 3.0}))
    before = job.store.last_seq(job.panel_id)
    with pytest.raises(WrongOrder, match="changed since"):
        shaping.shape(job, shaped)
    assert job.store.last_seq(job.panel_id) == before
    assert whole(job)


def test_where_every_section_was_shaped_by_hand_a_division_has_nothing_left_to_divide():
    with Store.in_memory() as store:
        job = opening.open_panel(
            store, FakeClock(), grid_svg(4, 2), "grid.svg", bench=BenchSet(pace_per_min=5.0)
        )
        halves(job, 1)
        before = section_numbers(job).tolist()
        opening.set_bench(job, job.state.bench.model_copy(update={"sure": 0.75}))
        assert section_numbers(job).tolist() == before
        assert whole(job)


def test_a_division_leaves_it_alone_while_it_keeps_the_promise(job):
    number = job.state.with_stage("drawn")[0].number
    a, b = halves(job, number)
    before = {n: job.section(n).tesserae for n in (a, b)}
    opening.set_bench(job, job.state.bench.model_copy(update={"sure": 0.75}))
    assert {n: job.section(n).tesserae for n in (a, b)} == before
    assert whole(job)
    assert any(isinstance(x.event, SectionsDrawn) for x in job.store.events(job.panel_id))


def test_one_that_no_longer_keeps_the_promise_is_divided_with_the_rest(job):
    """At a third of the pace even half a section is too much; the book says why it was divided."""
    a, b = halves(job, job.state.with_stage("drawn")[0].number)
    opening.set_bench(job, job.state.bench.model_copy(update={"pace_per_min": 1.6}))
    assert not any(s.by_hand for s in job.state.with_stage("drawn") if s.number in (a, b))
    assert min(s.in_time for s in job.state.with_stage("drawn")) >= 0.9 - 1e-9
    assert whole(job)


def test_undo_takes_the_change_back(job):
    number = job.state.with_stage("drawn")[0].number
    before = job.section(number).tesserae
    halves(job, number)
    record.undo(job)
    assert job.section(number).tesserae == before
    assert not job.section(number).by_hand


def test_the_book_says_it_in_words_and_folds_the_same(job):
    number = job.state.with_stage("drawn")[0].number
    halves(job, number)
    assert f"By hand, split: section {number}" in book_lines(job)[0].text
    again = Job(job.store, job.clock, job.panel_id, job.panel)
    assert again.state == job.state
    assert isinstance(job.store.events(job.panel_id)[-1].event, SectionsShaped)


def boards_svg(columns: int, rows: int) -> bytes:
    """A grid whose left half lies on one board and whose right half on another."""
    svg = grid_svg(columns, rows).decode()
    for c in range(columns):
        for r in range(rows):
            name = "west" if c < columns // 2 else "east"
            svg = svg.replace(f'id="c{c}r{r}"', f'id="c{c}r{r}" data-board="{name}"')
    return svg.encode()


def test_no_section_lies_across_a_seam_of_boards_not_even_by_hand():
    with Store.in_memory() as store:
        job = opening.open_panel(
            store, FakeClock(), boards_svg(24, 12), "two.svg", bench=BenchSet(pace_per_min=5.0)
        )
        for section in job.state.sections.values():
            assert len({job.panel.board[t] for t in section.tesserae}) == 1
        a, b = next(
            (a, b)
            for a, beside in borders_mm(job).items()
            for b in beside
            if job.panel.board[job.section(a).tesserae[0]] != job.panel.board[job.section(b).tesserae[0]]
        )
        with pytest.raises(AcrossASeam, match=r"boards \w+ and \w+"):
            shaping.try_join(job, a, b)


def test_more_hands_make_larger_sections_and_what_is_learned_stays_per_pair_of_hands(job):
    """Two set twice as fast: about twice the pieces but for stirring, spreading and cleaning."""
    alone = len(job.state.sections)
    opening.set_bench(job, job.state.bench.model_copy(update={"hands": 2}))
    together = len(job.state.sections)
    assert together < alone
    assert min(s.in_time for s in job.state.with_stage("drawn")) >= 0.9 - 1e-9


def test_a_section_less_sure_than_promised_is_refused_with_both_figures(job, monkeypatch):
    a, b = halves(job, job.state.with_stage("drawn")[0].number)
    monkeypatch.setattr(
        "bench.job.sizing.Sizer.in_time", lambda self, name, groups, pieces=None: np.full(len(groups), 0.5)
    )
    with pytest.raises(ShapedTooLarge, match="50 in 100; promised are 90"):
        shaping.try_join(job, a, b)


@pytest.mark.parametrize("stroke", [[(float("nan"), 1.0), (2.0, 3.0)], [(1e300, 1e300), (-1e300, 4.0)]])
def test_a_stroke_from_nowhere_is_refused_like_any_other(job, stroke):
    number = job.state.with_stage("drawn")[0].number
    with pytest.raises(Fault):
        shaping.try_split(job, number, stroke)


def test_a_dry_section_is_split_for_two_mixes_along_the_line_that_the_maker_draws(job):
    number = job.state.with_stage("drawn")[0].number
    dry.lay(job, number)
    pieces = job.section(number).piece_count
    x_mm = float(np.median(job.panel.centroid_mm[list(job.section(number).tesserae), 0])) + 0.01
    a, b = dry.split_along(job, number, [(x_mm, -10.0), (x_mm, 1000.0)])
    assert a == number
    left, right = (job.panel.centroid_mm[list(job.section(n).tesserae), 0] for n in (a, b))
    assert left.max() < x_mm < right.min() or right.max() < x_mm < left.min()
    assert job.section(a).piece_count + job.section(b).piece_count == pieces
    assert {job.section(n).stage for n in (a, b)} == {"dry"}
    with pytest.raises(StrokeDividesNothing):
        dry.split_along(job, a, [(-9.0, 0.0), (-9.0, 5.0)])

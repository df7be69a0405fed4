"""Back after weeks: one card says what was done, what lies dry, what to check; sections are smaller."""

import pytest

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.absence import away_days, away_mark
from bench.job.acts import dry, opening, record, shaping
from bench.job.acts.opening import open_panel
from bench.job.acts.returning import keep_after_away
from bench.job.acts.stock import open_bottle
from bench.job.advice import advise
from bench.job.away import away_lines
from bench.job.ground import borders_mm
from bench.job.planning import plan_ground
from tests.fakes.benches import beside, set_section, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

DAY_S = 86_400


@pytest.fixture
def job():
    """A panel begun; what is left is divided so that the next section is full, with room beside it."""
    with Store.in_memory() as store:
        job = open_panel(store, FakeClock(), grid_svg(44, 25), "grid.svg", bench=BenchSet(pace_per_min=5.0))
        for _ in range(5):
            set_section(job, advise(job).section, minutes=14)
            opening.divide_anew(job)
            job.clock.advance(DAY_S)
        yield job


def come_back(job) -> bool:
    work = opening.prepare_division(job)
    plan = plan_ground(work.sizer, **work.ground)
    return keep_after_away(job, plan, newest_act=job.state.act_ids[-1])


def tesserae(job) -> list[int]:
    return sorted(t for s in job.state.with_stage("drawn") for t in s.tesserae)


def test_after_less_than_two_weeks_nothing_is_said(job) -> None:
    job.clock.advance(12 * DAY_S)
    assert away_lines(job) == ()


def test_after_two_weeks_it_says_what_was_last_done_what_lies_dry_and_what_to_check(job) -> None:
    number = advise(job).section
    dry.lay(job, number)
    pieces = job.section(number).piece_count
    job.clock.advance(16 * DAY_S)
    lines = away_lines(job)
    assert lines[0] == f"16 days ago: Section {number} lies dry: {pieces} pieces."
    assert lines[1] == f"Section {number} lies dry for 16 days: {pieces} pieces."
    assert any("does the film still hold" in line for line in lines)
    assert any("date and lot on resin and hardener" in line for line in lines)
    assert not any("smaller" in line for line in lines)


def test_bottles_are_named_with_their_lot_and_their_date(job) -> None:
    today = job.clock.utc().date()
    for part, lot, months in (("resin", "R7", 24), ("hardener", "H2", 1)):
        open_bottle(
            job, product=job.product("white-paste").name, part=part, lot=lot, net_g=500, opened=today,
            bought=today, shelf_life_months=months,
        )  # fmt: skip
    job.clock.advance(40 * DAY_S)
    said = " ".join(away_lines(job))
    assert "The resin, lot R7, is good until" in said
    assert "The hardener, lot H2, is past its date." in said


@pytest.mark.parametrize("days", [20, 40, 200])
def test_the_first_section_is_smaller_and_the_card_stays_until_it_is_read(job, days) -> None:
    first = advise(job).section
    pieces, bare = job.section(first).piece_count, tesserae(job)
    job.clock.advance(days * DAY_S)
    mark = away_mark(job)
    assert come_back(job)
    assert advise(job).section == first
    eased = job.section(first)
    assert eased.piece_count < pieces
    assert eased.expected_s <= 0.9 * eased.capacity_s
    assert tesserae(job) == bare
    assert away_days(job) == pytest.approx(days + 1, abs=0.1)  # a division made on coming back is no work
    assert away_mark(job) == mark
    assert f"section {first} comes first and is a small one, {eased.piece_count}" in away_lines(job)[-1]
    assert all(s.in_time >= job.state.bench.sure - 1e-9 for s in job.state.with_stage("drawn"))


def test_a_small_first_section_costs_none_more_while_the_others_have_room(job) -> None:
    before = len(job.state.with_stage("drawn"))
    job.clock.advance(20 * DAY_S)
    assert come_back(job)
    assert len(job.state.with_stage("drawn")) == before


def test_a_first_section_shaped_by_hand_stays_as_it_was_shaped(job) -> None:
    first = advise(job).section
    other = next(n for n in borders_mm(job)[first] if job.section(n).stage == "drawn")
    piece = next(t for t in job.section(other).tesserae if t in beside(job, first))
    shaping.shape(job, shaping.try_move(job, [piece], first))
    shaped = job.section(first).tesserae
    job.clock.advance(16 * DAY_S)
    come_back(job)
    assert job.section(first).tesserae == shaped
    assert not any("small one" in line for line in away_lines(job))


def test_coming_back_is_an_act_of_its_own_and_can_be_taken_back(job) -> None:
    closed = len(job.state.mixes)
    sizes = {n: s.tesserae for n, s in job.state.sections.items()}
    job.clock.advance(40 * DAY_S)
    assert come_back(job)
    record.undo(job)
    assert {n: s.tesserae for n, s in job.state.sections.items()} == sizes
    assert len([m for m in job.state.mixes.values() if m.closed]) == closed


def test_last_done_is_the_work_of_hands_and_no_division(job) -> None:
    """A glue-up on screen ends with a division of what is bare, which nobody did."""
    number = advise(job).section
    set_section(job, number, minutes=14)
    opening.divide_anew(job)
    job.clock.advance(20 * DAY_S)
    assert away_lines(job)[0].startswith(f"20 days ago: Section {number}: ")


def test_to_take_back_the_smaller_sections_is_no_work_either(job) -> None:
    job.clock.advance(40 * DAY_S)
    mark, lines = away_mark(job), away_lines(job)
    assert come_back(job)
    record.undo(job)
    assert away_mark(job) == mark
    assert away_lines(job) == lines


def test_a_second_time_nothing_is_written(job) -> None:
    job.clock.advance(40 * DAY_S)
    come_back(job)
    last = job.store.last_seq(job.panel_id)
    assert not come_back(job)
    assert job.store.last_seq(job.panel_id) == last


def test_over_a_running_countdown_no_card_stands(job) -> None:
    start_mix(job, advise(job).section)
    job.clock.advance(15 * DAY_S)
    assert away_lines(job) == ()

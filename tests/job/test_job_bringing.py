"""A panel moves house: all of it comes along, once, and what both tablets wrote is kept."""

import hashlib
from datetime import timedelta

import pytest

from bench.book import Store
from bench.book.events import BenchSet, MixClosed
from bench.job.acts import cure, dry, glueup, opening, record, revising, stock
from bench.job.acts.bringing import open_the_bundle
from bench.job.acts.bundling import bundle_panel
from bench.job.drafts import begin_draft, begin_empty, draft_of, drafts
from bench.job.fold import fold
from bench.job.job import Job, cure_key
from bench.job.learning import Stated, learn_from_book
from bench.job.stock import bottles_elsewhere, stock_of
from bench.job.words import book_lines
from tests.fakes.benches import set_section, start_mix
from tests.fakes.bundles import members_of, worked_panel
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.long_books import book_of, days
from tests.fakes.scans import drawn_grid, scanned


@pytest.fixture
def here():
    with Store.in_memory() as store:
        yield store


@pytest.fixture
def there():
    with Store.in_memory() as store:
        yield store


@pytest.fixture
def carry(tmp_path):
    """Bundle a panel and open it in another book; return what came of it."""

    def call(job, store, **how):
        path = tmp_path / "panel.zip"
        with_drafts = how.pop("with_drafts", False)
        bundle_panel(job.store, job.clock, job.panel_id, path, with_drafts=with_drafts)
        return open_the_bundle(store, job.clock, path, **how)

    return call


def rich_panel(store):
    """Work a panel through what a book can hold: bottles, split, chipped, revised, undone."""
    clock = FakeClock()
    job = opening.open_panel(
        store, clock, grid_svg(10, 8), "grid.svg", bench=BenchSet(adhesive="clear-slow", pace_per_min=2.0)
    )
    name = job.product("clear-slow").name
    for part in ("resin", "hardener"):
        stock.open_bottle(job, name, part, net_g=300.0, lot="L7")
    first, second = sorted(job.state.sections)[:2]
    set_section(job, first, left=2, why="stringy")
    opening.divide_anew(job)
    clock.advance(30 * 3600)
    cure.confirm_cure(job, first, "hard")
    dry.lay(job, second)
    revising.revise(
        job, revising.try_revise(job, grid_svg(10, 8, pitch_mm=7.0, clear=lambda c, r: r > 6), "b.svg")
    )
    record.note(job, "a word")
    record.undo(job)
    return job


def next_drawn(job):
    """Return the section to go on with, the soft ones tried by hand and found firm."""
    for section in job.state.with_stage("set"):
        cure.confirm_cure(job, section.number, "firm")
    return min(s.number for s in job.state.with_stage("drawn"))


def test_a_panel_is_the_same_on_the_other_tablet(here, there, carry):
    job = rich_panel(here)
    brought = carry(job, there)
    assert brought.how == "new"
    assert brought.job.state == job.state == fold(there.events(brought.job.panel_id))
    assert [x.event for x in there.events(1)] == [x.event for x in here.events(1)]
    assert [x.text for x in book_lines(brought.job)][5:] == [
        f"{x.text}; a bottle of the other tablet" if x.text.startswith("Out of bottle") else x.text
        for x in book_lines(job)
    ][5:]
    assert brought.job.panel.ids == job.panel.ids
    assert brought.said == f"grid is here, with {len(here.events(1))} entries"


def test_every_file_that_its_entries_name_comes_along(here, there, carry, tmp_path):
    job = rich_panel(here)
    worked_panel(here, name="another")
    carry(job, there)
    names = [name for name in members_of(tmp_path / "panel.zip") if name.startswith("files/")]
    kinds = ["svg", "svg", "svg", *("toml" for _ in job.state.bench.products)]
    assert sorted(name.rpartition(".")[2] for name in names) == kinds
    for name in names:
        sha256 = name[6:70]
        assert there.blob(sha256) == here.blob(sha256)
        assert hashlib.sha256(there.blob(sha256)).hexdigest() == sha256
        assert there.media(sha256) == here.media(sha256)


def test_opened_twice_it_is_there_once(here, there, carry):
    job = rich_panel(here)
    carry(job, there)
    before = [
        there._rows(f"SELECT * FROM {name}") for name in ("panel", "event", "blob", "countdown", "draft")
    ]
    again = carry(job, there)
    assert (again.how, again.entries) == ("nothing", 0)
    assert again.said == "All of grid was here already"
    after = [
        there._rows(f"SELECT * FROM {name}") for name in ("panel", "event", "blob", "countdown", "draft")
    ]
    assert after == before


def test_what_was_done_on_the_other_tablet_comes_back(here, there, carry):
    job = worked_panel(here)
    away = carry(job, there).job
    away.clock.advance(3600)
    set_section(away, next_drawn(away))
    record.note(away, "set at the school")
    back = carry(away, here)
    assert (back.how, back.job.panel_id) == ("more", job.panel_id)
    assert back.job.state == away.state
    assert [p.panel_id for p in here.panels()] == [job.panel_id]
    assert {x.book for x in here.events(1)} == {"", there.elsewhere.book_id}
    assert back.said == f"{back.entries} entries more on Lemons, from the other tablet"
    older = carry(worked_there := Job(here, job.clock, 1), there)
    assert older.how == "nothing"
    assert worked_there.state == away.state


def test_where_both_went_on_both_are_kept(here, there, carry):
    job = worked_panel(here)
    away = carry(job, there).job
    record.note(job, "ours")
    record.note(away, "theirs")
    shared = len(here.events(1)) - 1
    brought = carry(away, here)
    assert brought.how == "parted"
    assert brought.said.startswith("Both tablets went on with it, and both are kept")
    assert [p.name for p in here.panels()] == ["Lemons", "Lemons (from the other tablet)"]
    assert brought.job.state.name == "Lemons (from the other tablet)"
    ours, theirs = here.events(1), here.events(brought.job.panel_id)
    assert [x.event for x in ours[:shared]] == [x.event for x in theirs[:shared]]
    assert (ours[-1].event.text, theirs[-1].event.text) == ("ours", "theirs")
    assert len(here.all_events()) == shared + 2
    record.note(brought.job, "on with theirs, here")
    record.note(away, "and there")
    again = carry(away, here)
    assert (again.how, again.name) == ("parted", "Lemons (from the other tablet, 2)")
    assert [x.event.text for x in here.events(again.job.panel_id)[-2:]] == ["theirs", "and there"]


def test_a_panel_that_parted_is_worked_undone_and_read_like_any_other(here, there, carry):
    job = worked_panel(here)
    away = carry(job, there).job
    record.note(job, "ours")
    record.note(away, "theirs")
    panel = carry(away, here).job
    number = min(s.number for s in panel.state.with_stage("drawn"))
    panel.clock.advance(3600)
    dry.lay(panel, number)
    opening.divide_anew(panel)
    record.undo(panel)
    record.undo(panel)
    assert record.undo(panel).event.text == "The blue one next"  # written before they parted
    assert panel.state == Job(here, job.clock, panel.panel_id).state
    assert "The blue one next" in [x.text for x in book_lines(job) if not x.taken_back]
    assert here.last_seq(panel.panel_id) == here.events(panel.panel_id)[-1].seq


def test_two_panels_of_one_drawing_are_two(here, there, carry):
    worked_panel(there, name="Mine")
    brought = carry(worked_panel(here, name="Yours"), there)
    assert [p.name for p in there.panels()] == ["Mine", "Yours"]
    assert brought.how == "new"


def test_nothing_is_learned_from_other_hands_until_they_are_said_to_be_the_same(here, there, carry):
    job = book_of(here, days(12))
    now = job.clock.utc()

    def known(store):
        return learn_from_book(store, Stated(5.0), now).hands

    unlearned = known(there)
    brought = carry(job, there)
    assert brought.ask_hands == (here.elsewhere.book_id,)
    assert repr(known(there)) == repr(unlearned)

    said = carry(job, there, same_hands=True)
    assert (said.how, said.ask_hands) == ("nothing", ())
    assert repr(known(there)) == repr(known(here)) != repr(unlearned)
    assert carry(job, there).ask_hands == ()


def test_the_bottles_of_the_other_workshop_come_along_and_are_not_ours(here, there, carry):
    job = rich_panel(here)
    ours = worked_panel(there, name="Ours")
    name = ours.product("white-paste").name
    stock.open_bottle(ours, name, "resin", net_g=120.0, lot="W1")
    before = stock_of(there).bottles
    carry(job, there)
    carry(job, there)
    assert stock_of(there).bottles == before
    theirs = bottles_elsewhere(there)
    used = {x.event.bottle for x in here.events(1) if x.event.kind == "bottle_taken"}
    assert len(theirs) == len(used)
    for bottle in theirs:
        assert bottle.lot == "L7"
        assert bottle.left_g == pytest.approx(stock_of(here).bottles[bottle.number].left_g)
    assert bottles_elsewhere(here) == []


def test_a_running_mix_shows_no_time_there(here, there, carry):
    """By another tablet's clocks nothing is sure but what had passed for certain when it was bundled."""
    job = worked_panel(here)
    running = start_mix(job, next_drawn(job))
    job.clock.advance(300)
    reading = carry(job, there).job.reading(running)
    assert reading.unsure
    assert reading.left_to_work_s == 0
    assert reading.surely_s == 300


def test_what_had_not_cured_for_certain_is_soft_there_until_it_is_known(here, there, carry):
    job = worked_panel(here)
    number = job.state.with_stage("set")[0].number
    away = carry(job, there).job
    away.clock.advance(30 * 3600)
    assert away.life(number) == "soft"
    assert away.cure_unsure(number)
    assert job.life(number) == "hard"
    assert carry(job, there).job.life(number) == "hard"


def test_a_bundle_cannot_claim_more_cure_than_has_passed(here, there, carry):
    job = worked_panel(here)
    number, mix = next((s.number, s.mix) for s in job.state.with_stage("set"))
    mark = here.countdown(1, cure_key(mix))
    from dataclasses import replace

    here.set_countdown(1, cure_key(mix), replace(mark, surely_s=1e8, spent_s=1e8))
    assert carry(job, there).job.life(number) == "soft"


def test_a_clock_that_ran_here_all_along_is_not_replaced(here, there, carry):
    job = worked_panel(here)
    away = carry(job, there).job
    record.note(away, "nothing new at the cup")
    mark = here.countdowns(1)
    job.clock.advance(600)
    carry(away, here)
    assert here.countdowns(1) == mark


def test_drafts_come_along_only_when_asked_and_once(here, there, carry):
    job = worked_panel(here)
    data = scanned(drawn_grid())
    begin_draft(here, job.clock, "scan.png", data)
    begin_empty(here, job.clock)
    assert carry(job, there).drafts == 0
    brought = carry(job, there, with_drafts=True)
    assert brought.drafts == 2
    assert brought.said == "All of Lemons was here already, and 2 drafts"
    assert carry(job, there, with_drafts=True).drafts == 0
    assert [d.name for d in drafts(there)] == [d.name for d in drafts(here)]
    one = next(d for d in drafts(there) if d.name == "scan.png")
    assert there.drafts.file(one.draft_id, "picture") == here.drafts.file(1, "picture")
    assert draft_of(there, one.draft_id) == draft_of(here, 1)


def test_the_same_pause_is_one_act_on_both_tablets(here, there, carry):
    """A glue-up begun here and closed there comes back closed, with its pause and its count."""
    job = worked_panel(here)
    mix = start_mix(job, next_drawn(job))
    job.clock.advance(120)
    glueup.pause(job, mix)
    away = carry(job, there).job
    away.clock.advance(60)
    glueup.resume(away, mix)
    glueup.close(away, mix)
    back = carry(away, here).job
    assert back.state.mixes[mix].closed is not None
    assert back.state.running_mixes == []
    closed = [x for x in here.events(1) if isinstance(x.event, MixClosed)]
    assert closed[-1].event.unsure  # it was closed by another tablet's clock
    assert closed[-1].at_utc - closed[0].at_utc > timedelta(0)

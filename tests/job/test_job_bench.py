"""Setting the bench anew: what follows, what stays, and what undo would take back."""

from pathlib import Path

import pytest

from bench.adhesive.faults import OutsideRange
from bench.adhesive.product_file import find_product
from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import dry, opening, record, shaping
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from bench.job.ground import borders_mm
from bench.job.words import book_lines
from bench.resources import resource
from tests.fakes.benches import beside
from tests.fakes.clock import FakeClock

WISHES = ("forms", "fewest")


def set_to(job, **changes):
    opening.set_bench(job, job.state.bench.model_copy(update=changes))


def test_a_warmer_room_allows_less_in_a_section(job):
    before_s = max(s.capacity_s for s in job.state.sections.values())
    set_to(job, temperature_C=30.0)
    assert max(s.capacity_s for s in job.state.sections.values()) < before_s


def test_hand_scale_hours_and_patches_that_nobody_sets_divide_nothing(job):
    before = dict(job.state.sections)
    set_to(job, hand="left", scale_g=0.01, cumulative=True, laying_hours_a_day=5.0, patch_cm2=90.0)
    assert job.state.sections == before
    assert book_lines(job)[0].text.startswith("Bench set")


def test_the_bench_is_set_where_nothing_is_bare(job):
    for section in job.state.with_stage("drawn"):
        dry.lay(job, section.number)
    set_to(job, sure=0.95)
    assert job.state.bench.sure == 0.95
    assert {s.stage for s in job.state.sections.values()} == {"dry"}


def test_clear_glass_follows_a_white_adhesive_and_no_other(two_adhesives):
    set_to(two_adhesives, adhesive="white-ready")
    assert {s.adhesive for s in two_adhesives.state.sections.values()} == {"white-ready"}
    set_to(two_adhesives, adhesive="clear-fast")
    assert {s.adhesive for s in two_adhesives.state.sections.values()} == {"clear-fast", "white-ready"}


@pytest.fixture
def own_file(tmp_path: Path) -> Path:
    path = tmp_path / "own.toml"
    path.write_text(resource("assets", "adhesives", "white-paste.toml").read_text())
    return path


def test_an_adhesive_in_use_stays_as_it_was_until_it_is_chosen_anew(job, own_file):
    set_to(job, adhesive=str(own_file))
    kept = job.product(str(own_file))
    slower = own_file.read_text().replace(f"minutes = {kept.working_time.minutes:g}", "minutes = 90")
    own_file.write_text(slower)
    assert find_product(str(own_file)).working_time.minutes == 90
    set_to(job, sure=0.95)
    assert job.product(str(own_file)) == kept
    set_to(job, adhesive="clear-fast")
    set_to(job, adhesive=str(own_file))
    assert job.product(str(own_file)).working_time.minutes == 90


def test_an_adhesive_whose_file_is_gone_does_not_bar_other_settings(job, own_file):
    set_to(job, adhesive=str(own_file))
    own_file.unlink()
    set_to(job, sure=0.95)
    assert job.state.bench.sure == 0.95
    assert "Bench set: own," in book_lines(job)[1].text


def test_what_lies_dry_keeps_its_adhesive_and_can_still_be_judged(job):
    number = advise(job).section
    dry.lay(job, number)
    before = dry.in_time(job, job.section(number))
    set_to(job, adhesive="clear-fast")
    assert job.section(number).adhesive == "white-paste"
    assert dry.in_time(job, job.section(number)) == pytest.approx(before)


def test_the_newest_act_is_the_one_that_undo_takes_back(job):
    assert record.newest_act(job) is None
    number = advise(job).section
    dry.lay(job, number)
    record.note(job, "Cobalt sheet is used up.")
    newest = record.newest_act(job)
    assert newest.event.text == "Cobalt sheet is used up."
    assert record.undo(job).event == newest.event
    assert record.newest_act(job).event.section == number


def test_the_newest_act_is_found_behind_hundreds_taken_back(job):
    dry.lay(job, advise(job).section)
    for k in range(200):
        record.note(job, f"note {k}")
        record.undo(job)
    assert record.newest_act(job).event.kind == "section_laid"


def test_a_room_the_adhesive_is_not_for_is_refused_though_nothing_is_bare(job):
    for section in job.state.with_stage("drawn"):
        dry.lay(job, section.number)
    before = len(job.state.act_ids)
    with pytest.raises(OutsideRange, match="-10 °C is outside"):
        set_to(job, temperature_C=-10.0)
    assert len(job.state.act_ids) == before
    set_to(job, temperature_C=18.0)
    assert job.state.bench.temperature_C == 18.0


def test_what_lies_dry_under_another_adhesive_than_the_bench_has_now_asks_for_its_own_room(job):
    for section in job.state.with_stage("drawn"):
        dry.lay(job, section.number)
    set_to(job, adhesive="white-ready")
    set_to(job, temperature_C=18.0)
    assert job.state.bench.temperature_C == 18.0
    with pytest.raises(OutsideRange, match="White paste"):
        set_to(job, temperature_C=-10.0)


def drawn_sets(job):
    return sorted(s.tesserae for s in job.state.with_stage("drawn"))


def test_another_wish_divides_afresh_what_is_still_drawn():
    demo = resource("assets", "demo", "lemons.svg").read_bytes()
    with Store.in_memory() as store:
        wished = {w: open_panel(store, FakeClock(), demo, "d.svg", bench=BenchSet(prefer=w)) for w in WISHES}
        assert drawn_sets(wished["forms"]) != drawn_sets(wished["fewest"])
        changed = wished["fewest"]
        opening.set_bench(changed, changed.state.bench.model_copy(update={"prefer": "forms"}))
        assert drawn_sets(changed) == drawn_sets(wished["forms"])
        assert sorted(changed.state.sections) == sorted(wished["forms"].state.sections)


def test_another_wish_leaves_what_is_dry_and_what_was_shaped_by_hand(job):
    dry.lay(job, 1)
    first = job.state.with_stage("drawn")[0].number
    other = next(n for n in borders_mm(job)[first] if job.section(n).stage == "drawn")
    piece = next(t for t in job.section(other).tesserae if t in beside(job, first))
    shaping.shape(job, shaping.try_move(job, [piece], first))
    shaped = {s.tesserae for s in job.state.with_stage("drawn") if s.by_hand}
    laid = job.section(1).tesserae
    set_to(job, prefer="fewest")
    assert shaped <= {s.tesserae for s in job.state.with_stage("drawn")}
    assert (job.section(1).stage, job.section(1).tesserae) == ("dry", laid)


def test_a_setting_that_leaves_all_within_what_is_allowed_moves_no_piece(job):
    before = drawn_sets(job)
    set_to(job, pace_per_min=job.state.bench.pace_per_min * 1.02)
    assert drawn_sets(job) == before

"""When the cautions are read in full, and when what is new and the four that always stand are enough."""

import pytest

from bench.adhesive.product_file import find_product
from bench.book.events import CautionsAcknowledged
from bench.job.acts import cup, dry
from bench.job.cup_faults import LabelNotRead
from bench.job.cup_sheet import reads_all
from bench.job.fold import fold
from bench.job.words import book_lines
from tests.fakes.benches import set_section

DAY_S = 24 * 3600.0


def at_the_cup(job, temperature_C=21.0, adhesive_C=None):
    """Lay the fullest drawn section that is not beside soft work and go to the cup for it."""
    for section in sorted(job.state.with_stage("drawn"), key=lambda s: -s.expected_s):
        dry.lay(job, section.number)
        try:
            return cup.open_mix(job, section.number, temperature_C, adhesive_C=adhesive_C)
        except cup.BesideSoftWork:
            dry.take_up(job, section.number)
    raise AssertionError("no section can be mixed for")


def in_full(job, mix) -> bool:
    return any(caution.title == "Afterwards" for caution in cup.sheet(job, mix).cautions)


@pytest.fixture
def read_once(job):
    """One section was mixed for and set today; its cautions were read in full."""
    set_section(job, job.state.with_stage("drawn")[0].number)
    return job


def test_the_first_mix_of_a_day_reads_them_all(job):
    assert in_full(job, at_the_cup(job))


def test_the_next_of_the_day_reads_less(read_once):
    assert not in_full(read_once, at_the_cup(read_once))


def test_unread_ones_do_not_count_as_read(job):
    mix = at_the_cup(job)
    cup.put_away(job, mix)
    assert in_full(job, at_the_cup(job))


@pytest.mark.parametrize(("temperature_C", "full"), [(22.0, False), (24.0, True), (17.0, True)])
def test_another_room_reads_them_all_again(read_once, temperature_C, full):
    assert in_full(read_once, at_the_cup(read_once, temperature_C)) == full


def test_another_day_reads_them_all_again(read_once):
    read_once.clock.advance(DAY_S)
    assert in_full(read_once, at_the_cup(read_once))


@pytest.mark.parametrize(("times", "full"), [(0.5, True), (0.8, False), (1.2, False), (2.0, True)])
def test_a_batch_much_larger_or_smaller_reads_them_all_again(read_once, times, full):
    mix = read_once.mix(at_the_cup(read_once))
    before_g = next(iter(read_once.state.mixes.values())).batch.total_g
    assert reads_all(read_once, mix, times * before_g) == full


@pytest.mark.parametrize(("adhesive_C", "full"), [(None, False), (22.0, False), (30.0, True), (15.0, True)])
def test_bottles_kept_warm_or_cold_read_them_all_again(read_once, adhesive_C, full):
    assert in_full(read_once, at_the_cup(read_once, adhesive_C=adhesive_C)) == full


def test_what_was_shown_is_kept_in_the_book_word_for_word(job):
    mix = at_the_cup(job)
    shown = cup.sheet(job, mix).cautions
    cup.acknowledge(job, mix)
    kept = [x.event for x in job.store.events(job.panel_id) if isinstance(x.event, CautionsAcknowledged)]
    assert kept[0].shown == tuple(f"{c.title}: {' '.join(c.lines)}" for c in shown)
    assert job.mix(mix).shown == kept[0].shown


@pytest.mark.parametrize(("burns", "lists"), [(True, True), (False, False)])
def test_a_hardener_that_lists_no_h314_is_looked_at_before_anything_is_read(job, burns, lists):
    """GHS Rev. 10: H314 Causes severe skin burns and eye damage."""
    job._products["white-paste"] = find_product("clear-fast")
    mix = at_the_cup(job)
    seq = job.store.last_seq(job.panel_id)
    with pytest.raises(LabelNotRead, match="H314"):
        cup.acknowledge(job, mix)
    assert job.store.last_seq(job.panel_id) == seq
    cup.acknowledge(job, mix, burns=burns)
    assert any("H314 Causes severe skin burns" in text for text in job.mix(mix).shown) == lists
    told = [line.text for line in book_lines(job) if "Cautions read" in line.text]
    assert ("lists H314" in told[0]) == lists
    assert fold(job.store.events(job.panel_id)) == job.state


def test_another_product_reads_them_all_again(read_once):
    mix = at_the_cup(read_once)
    section = read_once.section(read_once.mix(mix).section)
    section.adhesive = "clear-slow"
    read_once._products["clear-slow"] = find_product("clear-slow")
    assert in_full(read_once, mix)

"""When the cautions are read in full, and when what is new and the four that always stand are enough."""

import pytest

from bench.adhesive import find_product
from bench.job.acts import cup, dry
from tests.fakes.benches import set_section

DAY_S = 24 * 3600.0


def at_the_cup(job, temperature_C=21.0):
    """Lay the first drawn section that is not beside soft work and go to the cup for it."""
    for section in job.state.with_stage("drawn"):
        dry.lay(job, section.number)
        try:
            return cup.open_mix(job, section.number, temperature_C)
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


def test_a_larger_batch_reads_them_all_again(read_once, monkeypatch):
    mix = at_the_cup(read_once)
    assert not in_full(read_once, mix)
    monkeypatch.setattr(cup, "BATCH_GREW", 0.5)
    assert in_full(read_once, mix)


def test_another_product_reads_them_all_again(read_once):
    mix = at_the_cup(read_once)
    section = read_once.section(read_once.mix(mix).section)
    section.adhesive = "clear-slow"
    read_once._products["clear-slow"] = find_product("clear-slow")
    assert in_full(read_once, mix)

"""The workshop's bottles: what mixes take, what weighing corrects, and what is refused."""

import math
from datetime import timedelta

import pytest

from bench.book import WORKSHOP
from bench.book.events import BottleEmptied, BottleOpened, BottleWeighed
from bench.job import faults, stock_faults
from bench.job.acts import cup, dry, glueup, record, stock
from bench.job.acts.opening import open_panel
from bench.job.advice import advise
from bench.job.job import Job
from bench.job.stock import stock_of
from bench.job.stock_need import today_of
from tests.fakes.benches import PACE, set_section, start_mix
from tests.fakes.bottles import PASTE, left_g
from tests.fakes.drawings import grid_svg


def test_a_mix_takes_what_was_poured_out_of_the_bottles_in_use(bottles):
    number = advise(bottles).section
    dry.lay(bottles, number)
    mix = cup.open_mix(bottles, number, 21.0)
    cup.acknowledge(bottles, mix)
    hardener_g = cup.pour_resin(bottles, mix, 4.0)
    assert (left_g(bottles, 1), left_g(bottles, 2)) == (250.0, 125.0)
    cup.first_contact(bottles, mix)
    assert left_g(bottles, 1) == pytest.approx(246.0)
    assert left_g(bottles, 2) == pytest.approx(125.0 - hardener_g)
    assert {p: x.lot for p, x in bottles.mix(mix).taken.items()} == {"resin": "R7", "hardener": "A12"}


def test_without_a_word_of_pouring_it_is_the_batch_that_was_prescribed(bottles):
    mix = start_mix(bottles, advise(bottles).section)
    batch = bottles.mix(mix).batch
    assert left_g(bottles, 1) == pytest.approx(250.0 - batch.resin_g)
    assert left_g(bottles, 2) == pytest.approx(125.0 - batch.hardener_g)


@pytest.mark.parametrize(("poured_g", "left"), [(None, 250.0), (4.0, 246.0)])
def test_a_cup_put_away_costs_the_resin_that_was_poured_and_nothing_else(bottles, poured_g, left):
    number = advise(bottles).section
    dry.lay(bottles, number)
    mix = cup.open_mix(bottles, number, 21.0)
    cup.acknowledge(bottles, mix)
    if poured_g is not None:
        cup.pour_resin(bottles, mix, poured_g)
    cup.put_away(bottles, mix)
    assert (left_g(bottles, 1), left_g(bottles, 2)) == (left, 125.0)


def test_a_weighed_bottle_goes_before_what_was_reckoned(bottles):
    set_section(bottles, advise(bottles).section)
    stock.weigh_bottle(bottles, 1, 200.0)
    assert left_g(bottles, 1) == 200.0
    stock.empty_bottle(bottles, 2)
    assert left_g(bottles, 2) == 0.0
    assert stock_of(bottles.store).in_use(PASTE, "hardener") == []


def test_bottles_are_the_workshops_and_seen_from_every_panel(bottles, clock):
    other = open_panel(bottles.store, clock, grid_svg(12, 8), "other.svg", bench=PACE)
    set_section(other, advise(other).section)
    taken_g = other.mix(1).batch.resin_g
    assert left_g(bottles, 1) == pytest.approx(250.0 - taken_g)
    assert [row.panel_id for row in bottles.store.panels()] == [1, 2]
    with pytest.raises(faults.NoSuchPanel):
        Job(bottles.store, clock, WORKSHOP)


def test_undo_takes_back_the_newest_act_on_the_bottles_and_leaves_panels_alone(bottles):
    before = bottles.state.act_ids[:]
    stock.weigh_bottle(bottles, 1, 100.0)
    assert isinstance(stock.undo_stock(bottles), BottleWeighed)
    assert left_g(bottles, 1) == 250.0
    stock.empty_bottle(bottles, 1)
    assert isinstance(stock.undo_stock(bottles), BottleEmptied)
    assert isinstance(stock.undo_stock(bottles), BottleOpened)
    assert set(stock_of(bottles.store).bottles) == {1}
    assert stock.open_bottle(bottles, PASTE, "hardener", net_g=10.0) == 3  # a number is used once
    assert bottles.state.act_ids == before


def test_a_bottle_that_a_mix_came_out_of_is_not_taken_back(bottles):
    start_mix(bottles, advise(bottles).section)
    with pytest.raises(stock_faults.BottleInUse):
        stock.undo_stock(bottles)
    assert set(stock_of(bottles.store).bottles) == {1, 2}


def test_an_undone_glue_up_leaves_the_charge_and_an_undone_cup_takes_it_back(bottles):
    number = advise(bottles).section
    dry.lay(bottles, number)
    cup.open_mix(bottles, number, 21.0)
    record.undo(bottles)
    assert stock_of(bottles.store).draws == {}
    mix = start_mix(bottles, number)
    bottles.clock.advance(600)
    left = left_g(bottles, 1)
    glueup.close(bottles, mix)
    record.undo(bottles)
    assert left_g(bottles, 1) == left < 250.0


def test_the_bottle_opened_first_is_used_first_and_one_that_suffices_before_one_that_does_not(job):
    today = today_of(job)
    for net_g, days in ((1.0, 40), (60.0, 10), (80.0, 20)):
        stock.open_bottle(job, PASTE, "hardener", net_g=net_g, opened=today - timedelta(days=days))
    found = stock_of(job.store)
    assert found.bottle_for(PASTE, "hardener", 5.0, today).number == 3
    assert found.bottle_for(PASTE, "hardener", 0.5, today).number == 1
    assert found.bottle_for(PASTE, "hardener", 500.0, today).number == 3
    assert found.bottle_for(PASTE, "resin", 5.0, today) is None


def test_what_one_bottle_lacks_comes_out_of_the_next(job):
    stock.open_bottle(job, PASTE, "resin", net_g=2.0)
    stock.open_bottle(job, PASTE, "resin", net_g=1.8)
    start_mix(job, advise(job).section)
    poured_g = job.mix(1).batch.resin_g
    found = stock_of(job.store)
    assert found.left_g(PASTE, "resin") == pytest.approx(max(0.0, 3.8 - poured_g))
    assert sum(b.overdrawn_g for b in found.bottles.values()) == pytest.approx(max(0.0, poured_g - 3.8))


# -- bad input ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("net_g", [0.0, -5.0, 1e9, math.nan, math.inf])
def test_grams_that_no_bottle_holds_are_refused_and_nothing_is_written(job, net_g):
    with pytest.raises(stock_faults.BottleGrams, match="cannot be"):
        stock.open_bottle(job, PASTE, "resin", net_g=net_g)
    assert job.store.events(WORKSHOP) == []


@pytest.mark.parametrize("left", [-1.0, 1e9, math.nan, 262.6])
def test_a_bottle_cannot_weigh_less_than_nothing_or_more_than_was_in_it(bottles, left):
    with pytest.raises(stock_faults.BottleGrams):
        stock.weigh_bottle(bottles, 1, left)
    assert left_g(bottles, 1) == 250.0


def test_a_bottle_a_little_fuller_than_its_label_is_believed(bottles):
    stock.weigh_bottle(bottles, 1, 255.0)
    assert left_g(bottles, 1) == 255.0


@pytest.mark.parametrize("lot", ["A" * 500, "A12\x00", "A\u202e12"])
def test_a_lot_that_nobody_can_read_is_refused_in_one_line(job, lot):
    with pytest.raises(stock_faults.LotUnreadable) as caught:
        stock.open_bottle(job, PASTE, "resin", net_g=50.0, lot=lot)
    assert len(str(caught.value)) < 200
    assert job.store.events(WORKSHOP) == []


@pytest.mark.parametrize("what", ["opened", "bought"])
def test_a_day_that_has_not_come_is_refused(job, what):
    with pytest.raises(stock_faults.DayOutOfRange, match=what):
        stock.open_bottle(job, PASTE, "resin", net_g=50.0, **{what: today_of(job) + timedelta(days=1)})


def test_an_empty_bottle_is_neither_weighed_nor_emptied_again(bottles):
    stock.empty_bottle(bottles, 1)
    for act in (lambda: stock.weigh_bottle(bottles, 1, 5.0), lambda: stock.empty_bottle(bottles, 1)):
        with pytest.raises(stock_faults.NoSuchBottle, match="bottle 1 is empty"):
            act()


def test_with_nothing_done_there_is_nothing_to_undo(job):
    assert stock.newest_stock_act(job) is None
    with pytest.raises(faults.NothingToUndo):
        stock.undo_stock(job)

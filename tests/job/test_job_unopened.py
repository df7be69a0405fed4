"""Unopened bottles: they count for what is left, keep their date, and are opened by one word."""

import sqlite3
from datetime import date

import pytest

from bench.book import WORKSHOP
from bench.book.events import BottleBought, BottleUnsealed
from bench.book.faults import NotWritable
from bench.job import stock_faults
from bench.job.acts import cup, dry, pouring, stock
from bench.job.advice import advise, shorts
from bench.job.foretelling import left_of
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.stock import stock_of
from bench.job.stock_need import drawn_for, lasting, needs_of, today_of
from bench.job.stock_words import bottle_lines, left_words, short_words
from bench.job.words import words
from tests.fakes.benches import start_mix

PASTE = "White paste, typical"


def found(job):
    return stock_of(job.store)


def at_the_cup(job):
    number = advise(job).section
    dry.lay(job, number)
    return cup.open_mix(job, number, 21.0)


def test_an_unopened_bottle_counts_for_what_is_left_and_no_mix_comes_out_of_it(job):
    stock.open_bottle(job, PASTE, "resin", net_g=3.0)
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0, lot="R9")
    assert found(job).left_g(PASTE, "resin") == 253.0
    assert [b.number for b in found(job).in_use(PASTE, "resin")] == [1]
    assert found(job).bottle_for(PASTE, "resin", 50.0, today_of(job)).number == 1
    start_mix(job, advise(job).section)
    assert found(job).bottles[2].left_g == 250.0


def test_what_runs_out_is_warned_of_with_the_unopened_ones_counted(job):
    left = left_of(job)
    measures = sizer(job)
    needed_g = needs_of(measures, left)[PASTE, "hardener"]
    stock.open_bottle(job, PASTE, "hardener", net_g=needed_g / 3)
    order = [s.number for s in left]
    before = {x.part: x.until for x in lasting(found(job), measures, left, order)}
    stock.buy_bottle(job, PASTE, "hardener", net_g=needed_g / 3)
    after = {x.part: x.until for x in lasting(found(job), measures, left, order)}
    assert order.index(before["hardener"]) < order.index(after["hardener"])
    assert shorts(job) == {}
    stock.buy_bottle(job, PASTE, "hardener", net_g=needed_g)
    assert {x.part: x.until for x in lasting(found(job), measures, left, order)} == {"hardener": None}


def test_it_is_opened_by_one_act_and_in_use_from_that_day_on(job):
    stock.buy_bottle(job, PASTE, "hardener", net_g=90.0, lot="B3")
    stock.unseal_bottle(job, 1)
    bottle = found(job).bottles[1]
    assert (bottle.opened, bottle.left_g, bottle.is_sealed) == (today_of(job), 90.0, False)
    with pytest.raises(stock_faults.AlreadyOpen):
        stock.unseal_bottle(job, 1)
    assert isinstance(stock.undo_stock(job), BottleUnsealed)
    assert found(job).bottles[1].is_sealed
    assert isinstance(stock.undo_stock(job), BottleBought)
    assert found(job).bottles == {}


def test_at_the_cup_with_none_open_it_is_said_and_taking_one_opens_it(job):
    stock.buy_bottle(job, PASTE, "hardener", net_g=90.0, lot="B3")
    mix = at_the_cup(job)
    drawn = {d.part: d for d in cup.sheet(job, mix).drawn}
    assert [b.number for b in drawn["hardener"].others] == [1]
    assert short_words(drawn["hardener"].short).endswith("g of hardener, and none is open: open one.")
    assert drawn["resin"].short is None
    stock.take_from(job, mix, 1)
    assert found(job).bottles[1].opened == today_of(job)
    assert {d.part: d.short for d in cup.sheet(job, mix).drawn} == {"resin": None, "hardener": None}
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    assert found(job).bottles[1].left_g == pytest.approx(90.0 - job.mix(mix).batch.hardener_g)
    with pytest.raises(stock_faults.BottleInUse):
        stock.undo_stock(job)


class Uncommitted:
    """A connection to a disk that takes all that is written and then not the last word."""

    def __init__(self, connection):
        self._connection = connection

    def execute(self, statement, *values):
        if statement == "COMMIT":
            error = sqlite3.OperationalError("disk I/O error")
            error.sqlite_errorcode = sqlite3.SQLITE_IOERR_WRITE
            raise error
        return self._connection.execute(statement, *values)

    def __getattr__(self, name):
        return getattr(self._connection, name)


@pytest.mark.parametrize("sealed", [True, False])
def test_a_bottle_that_the_disk_did_not_keep_as_taken_is_not_shown_as_taken(job, sealed, monkeypatch):
    tell = stock.buy_bottle if sealed else stock.open_bottle
    tell(job, PASTE, "hardener", net_g=90.0, lot="B3")
    tell(job, PASTE, "hardener", net_g=80.0, lot="B4")
    mix = at_the_cup(job)
    kept = Job(job.store, job.clock, job.panel_id).state
    with monkeypatch.context() as disk:
        disk.setattr(job.store._together, "_connection", Uncommitted(job.store._connection))
        with pytest.raises(NotWritable):
            stock.take_from(job, mix, 2)
    assert job.state == kept
    assert found(job).bottles[2].is_sealed == sealed
    stock.take_from(job, mix, 2)
    assert job.mix(mix).taken["hardener"].bottle == 2


def test_an_open_bottle_that_lacks_offers_the_unopened_one_before_anything_is_poured(job):
    stock.open_bottle(job, PASTE, "resin", net_g=0.5, lot="R1")
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0, lot="R2")
    mix = at_the_cup(job)
    shown = next(d for d in cup.sheet(job, mix).drawn if d.part == "resin")
    assert short_words(shown.short).endswith("0.5 g are left in lot R1, the rest in other bottles.")
    assert [b.lot for b in shown.others] == ["R2"]


@pytest.mark.parametrize(
    ("days", "good_until"),
    [
        ({"bought": date(2026, 1, 10)}, date(2027, 1, 10)),
        ({"bought": date(2026, 1, 10), "made": date(2025, 8, 1)}, date(2026, 8, 1)),
        ({"made": date(2025, 8, 1), "best_before": date(2026, 6, 30)}, date(2026, 6, 30)),
        ({}, None),
    ],
)
def test_a_shelf_life_counts_from_the_making_else_from_the_purchase(job, days, good_until):
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0, shelf_life_months=12, **days)
    stock.open_bottle(job, PASTE, "resin", net_g=250.0, shelf_life_months=12, **days)
    assert [b.last_day for b in found(job).bottles.values()] == [good_until, good_until]


def test_one_that_went_past_its_date_unopened_is_not_offered(job):
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0, best_before=date(2025, 1, 31))
    mix = at_the_cup(job)
    drawn = drawn_for(job, job.mix(mix), PASTE, {"resin": 5.0})
    assert drawn[0].others == ()


def test_it_is_told_in_words(job):
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0, lot="R9", made=date(2026, 1, 1))
    bottle = found(job).bottles[1]
    assert left_words(bottle, today_of(job)) == "250 g, unopened"
    assert bottle_lines(bottle, today_of(job)) == ("250 g, unopened", "Made 1 Jan 2026")
    event = job.store.events(WORKSHOP)[0].event
    assert words(event) == f"Bottle 1 stands ready, unopened: {PASTE}, resin, lot R9, 250 g"
    stock.unseal_bottle(job, 1)
    assert words(job.store.events(WORKSHOP)[1].event) == "Bottle 1 opened"


def test_it_is_neither_weighed_nor_lost_when_it_is_put_out_of_use(job):
    stock.buy_bottle(job, PASTE, "resin", net_g=250.0)
    with pytest.raises(stock_faults.NotOpen, match="unopened"):
        stock.weigh_bottle(job, 1, 100.0)
    stock.empty_bottle(job, 1)
    assert found(job).left_g(PASTE, "resin") == 0.0


# -- what was really poured --------------------------------------------------------------------------------


@pytest.fixture
def running(job):
    stock.open_bottle(job, PASTE, "resin", net_g=250.0)
    stock.open_bottle(job, PASTE, "hardener", net_g=125.0)
    return job, start_mix(job, advise(job).section)


def test_bottles_give_what_was_weighed_and_what_was_added_late(running):
    job, mix = running
    pouring.keep_poured(job, mix, resin_g=6.0, hardener_g=3.6, resin_added_g=1.2)
    left = {b.part: b.left_g for b in found(job).bottles.values()}
    assert left == {"resin": pytest.approx(250.0 - 7.2), "hardener": pytest.approx(125.0 - 3.6)}
    for bottle in found(job).bottles.values():
        assert bottle.net_g + bottle.corrected_g - bottle.taken_g == pytest.approx(bottle.left_g)


def test_less_poured_than_reckoned_goes_back_first_to_what_was_overdrawn(job):
    stock.open_bottle(job, PASTE, "resin", net_g=2.0)
    mix = start_mix(job, advise(job).section)
    assert found(job).bottles[1].overdrawn_g == pytest.approx(job.mix(mix).batch.resin_g - 2.0)
    pouring.keep_poured(job, mix, resin_g=1.5, hardener_g=0.8)
    bottle = found(job).bottles[1]
    assert (bottle.left_g, bottle.overdrawn_g) == (pytest.approx(0.5), pytest.approx(0.0))

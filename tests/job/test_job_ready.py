"""An adhesive that is used as it comes: nothing is stirred."""

import pytest

from bench.adhesive.cure import cure_s
from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry, glueup, stock
from bench.job.acts.opening import open_panel
from bench.job.glue_sheet import glue_sheet
from bench.job.stock import stock_of
from tests.fakes.benches import start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg


def first_step(adhesive: str):
    with Store.in_memory() as store:
        bench = BenchSet(pace_per_min=5.0, adhesive=adhesive)
        job = open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg", bench=bench)
        return glue_sheet(job, start_mix(job, 1))


def test_two_parts_are_stirred_first():
    sheet = first_step("white-paste")
    assert sheet.step == "stir"
    assert sheet.advice.startswith("Stir")


def test_a_ready_adhesive_is_spread_at_once():
    sheet = first_step("white-ready")
    assert sheet.step == "spread"
    assert sheet.advice.startswith("Spread")


def test_a_ready_adhesive_goes_through_every_stage_in_grams_and_open_time():
    """Cautions, first contact, glue-up, cure and the bottle: no hardener, no heat, no ratio anywhere."""
    with Store.in_memory() as store:
        bench = BenchSet(pace_per_min=5.0, adhesive="white-ready")
        job = open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg", bench=bench)
        product = job.product("white-ready")
        stock.open_bottle(job, product.name, "adhesive", net_g=310.0)
        dry.lay(job, 1)
        mix = cup.open_mix(job, 1, 21.0)
        shown = cup.sheet(job, mix)
        assert (shown.batch.hardener_g, shown.batch.scale_ok, shown.asks_after_hardener) == (0.0, True, False)
        assert shown.working_time_s == product.working_time.minutes * 60
        assert cup.heat(job, mix) is None
        cup.acknowledge(job, mix)
        assert not any("hardener" in text.lower() for text in job.mix(mix).shown)
        cup.first_contact(job, mix)
        assert stock_of(store).bottles[1].left_g == pytest.approx(310.0 - shown.batch.total_g)
        job.clock.advance(600)
        glueup.close(job, mix)
        assert job.life(1) == "soft"
        job.clock.advance(cure_s(product, "firm", 21.0))
        assert job.life(1) == "firm"
        job.clock.advance(cure_s(product, "grout", 21.0))
        assert job.life(1) == "hard"


def test_where_the_film_closes_first_strips_are_advised_while_it_is_spread():
    with Store.in_memory() as store:
        bench = BenchSet(pace_per_min=5.0)
        job = open_panel(store, FakeClock(), grid_svg(8, 6), "grid.svg", bench=bench)
        product = job.product("white-paste")
        timed = product.working_time.model_copy(update={"film_open_minutes": 8.0})
        mix = start_mix(job, 1)
        glueup.begin_step(job, mix, "spread")
        assert "strips" not in glue_sheet(job, mix).advice
        job._products["white-paste"] = product.model_copy(update={"working_time": timed})
        assert "palm-sized strips" in glue_sheet(job, mix).advice

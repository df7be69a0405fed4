"""An adhesive that is used as it comes: nothing is stirred."""

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts.opening import open_panel
from bench.job.glue_sheet import glue_sheet
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

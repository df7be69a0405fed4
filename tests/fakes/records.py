"""A panel with a few sections set, a lot told and a note written, of which papers can be made."""

from bench.book import Store
from bench.book.events import BenchSet
from bench.job import costs, hanging
from bench.job.acts import glueup, record, stock
from bench.job.acts.opening import open_panel
from bench.job.finishing import set_backer_kg_per_m2
from bench.job.job import Job
from tests.fakes.benches import set_section, start_mix
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import BLUE, YELLOW, grid_svg

NAME = "Zitronen, Łódź № 3"


def begun_panel(store: Store, **bench) -> Job:
    """Return a panel of 24 × 12 pieces of two colours, three sections set, the last too late."""
    svg = grid_svg(24, 12, colour=lambda c, r: YELLOW if c % 5 == 2 else BLUE)
    set_up = BenchSet(pace_per_min=5.0, temperature_C=20.0, **bench)
    job = open_panel(store, FakeClock(), svg, "grid.svg", bench=set_up, name=NAME)
    for part in ("resin", "hardener"):
        stock.open_bottle(job, "White paste, typical", part, lot=f"{part[0].upper()}7", net_g=400.0)
    for number, minutes in ((1, 15.0), (2, 18.0)):
        set_section(job, number, minutes=minutes)
        job.clock.advance(86_400)
    late = start_mix(job, 3)
    job.clock.advance(20 * 60)
    glueup.stringy(job, late)
    job.clock.advance(6 * 60)
    glueup.close(job, late)
    job.clock.advance(86_400)
    record.note(job, "The cloth wants a darker blue.")
    return job


def priced_panel(store: Store) -> Job:
    """Return the same with its board, hours and prices, sold."""
    job = begun_panel(store)
    set_backer_kg_per_m2(job, 12.0)
    hanging.set_board_mm(job, 12.5)
    costs.set_hours(job, "laying", 22.5)
    costs.set_price(job, "glass", 88.5)
    costs.set_sold(job, 4711.0)
    return job

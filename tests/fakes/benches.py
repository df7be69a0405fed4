"""The app played on a small panel, on a book in memory and a clock that the test moves."""

import time
from contextlib import contextmanager

import numpy as np

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry, glueup
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

PACE = BenchSet(pace_per_min=5.0)


@contextmanager
def at_the_bench(stage, data: bytes | None = None, *, bench: BenchSet = PACE):
    """Play the app on a drawing, a grid of 24 × 12 if none is given; yield the desk.

    `desk.job.clock` is a FakeClock.
    """
    from bench.app import bench_app

    svg = grid_svg(24, 12) if data is None else data
    with Store.in_memory() as store, stage.play(
        bench_app(open_panel(store, FakeClock(), svg, "grid.svg", bench=bench))
    ) as app:
        yield app.desk
        settle(stage, app.desk)


def settle(stage, desk) -> None:
    """Let frames go by until the ground has been divided anew, if it is being divided."""
    until = time.monotonic() + 20
    while desk.dividing and time.monotonic() < until:
        time.sleep(0.01)
        stage.frame()


def start_mix(job: Job, number: int) -> int:
    """Lay a section as drawn and let resin meet hardener."""
    if job.section(number).stage == "drawn":
        dry.lay(job, number)
    mix = cup.open_mix(job, number, job.state.bench.temperature_C)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    return mix


def set_section(job: Job, number: int, *, minutes: float = 15.0, **how) -> int:
    """Lay a section, mix for it and set it; return the mix."""
    mix = start_mix(job, number)
    job.clock.advance(60 * minutes)
    glueup.close(job, mix, **how)
    return mix


def changed(desk) -> None:
    """Tell the screens that the book was written past them."""
    desk.version += 1


def beside(job: Job, number: int) -> set[int]:
    """Return the tesserae that share a joint with one of a section: its own, and those around it."""
    own, pair = list(job.section(number).tesserae), job.panel.joints.pair
    return set(pair[np.isin(pair, own).any(axis=1)].ravel().tolist())

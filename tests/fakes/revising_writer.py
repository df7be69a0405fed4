"""A process that dies at every instant of accepting a revised drawing, and tells what the book then holds.

`python -m tests.fakes.revising_writer FOLDER` lets one forked child after the other stop before or after a
statement, each on a copy of one book, and prints a line of JSON on what was found each time.
"""

import os
import sqlite3
import sys
from pathlib import Path

from bench.book.events import BenchSet
from bench.book.store import Store
from bench.job.acts import dry, revising
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import YELLOW, grid_svg
from tests.fakes.stopping import stop_at_every_instant


def begin(folder: Path) -> None:
    """Make a book with a panel of which one section is dry."""
    with Store.open(folder) as store:
        job = open_panel(store, FakeClock(), grid_svg(10, 5), "grid.svg", bench=BenchSet(pace_per_min=2.0))
        dry.lay(job, 1)


def accept(folder: Path, told: int, factory: type[sqlite3.Connection]) -> None:
    """Lay a revised drawing over the panel and accept it; write to the file `told` when that is done."""
    with Store.open(folder, factory=factory) as store:
        job = Job(store, FakeClock(), 1)
        data = grid_svg(10, 5, colour=lambda c, r: YELLOW)
        revising.revise(job, revising.try_revise(job, data, "second.svg"))
        os.write(told, b"accepted")


def found(folder: Path) -> dict:
    """Open the book again and tell whether its panel is the old one or the revised one, whole."""
    with Store.open(folder) as store:
        job = Job(store, FakeClock(), 1)
        members = [t for s in job.state.sections.values() for t in s.tesserae]
        return {
            "revised": job.state.drawing_name == "second.svg",
            "whole": sorted(members) == list(range(job.panel.tessera_count)) and 1 in job.state.sections,
            "yellow": int((job.panel.colour[:, 0] == 232).sum()),
            "dry": len(job.section(1).tesserae),
        }


if __name__ == "__main__":
    stop_at_every_instant(Path(sys.argv[1]), begin, accept, found)

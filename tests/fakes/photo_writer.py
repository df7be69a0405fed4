"""A process that dies at every instant of keeping a photographed lay, and tells what the book then holds.

`python -m tests.fakes.photo_writer FOLDER` prints a line of JSON on what was found each time.
"""

import os
import sqlite3
import sys
from pathlib import Path

from bench.book.events import BenchSet
from bench.book.store import Store
from bench.fault import Fault
from bench.job.acts.opening import open_panel
from bench.job.job import Job
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.photographed import photograph
from tests.fakes.stopping import stop_at_every_instant

PHOTO = bytes(range(256)) * 800  # longer than a page of the book


def begin(folder: Path) -> None:
    """Make a book with a panel of which nothing is laid."""
    with Store.open(folder) as store:
        open_panel(store, FakeClock(), grid_svg(10, 5), "grid.svg", bench=BenchSet(pace_per_min=2.0))


def accept(folder: Path, told: int, factory: type[sqlite3.Connection]) -> None:
    """Photograph a section; write to the file `told` when that is done."""
    with Store.open(folder, factory=factory) as store:
        photograph(Job(store, FakeClock(), 1), 1, 9, data=PHOTO)
        os.write(told, b"accepted")


def found(folder: Path) -> dict:
    """Open the book again and tell whether the section is counted, and whether its photo is there."""
    with Store.open(folder) as store:
        section = Job(store, FakeClock(), 1).section(1)
        try:
            kept = section.photo is not None and store.blob(section.photo.photo) == PHOTO
        except Fault:
            kept = False
        return {"dry": section.stage == "dry", "said": section.photo is not None, "kept": kept}


if __name__ == "__main__":
    stop_at_every_instant(Path(sys.argv[1]), begin, accept, found)

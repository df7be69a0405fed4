"""A day of panel work on a fast clock: `python -m tests.campaigns.soak --hours 24`.

A maker works one book by chance (`walk`), and between acts what is shown is asked for as the screens ask.
Each hour of the clock the blocks that Python holds (after a collection), the resident memory, which numpy and
SQLite are part of, and the open files are read. The state of a panel grows with its book, so a new panel is
begun each hour and the readings are made just after that; the first quarter warms the caches. Linux only.
"""

from __future__ import annotations

import argparse
import gc
import os
import random
import sys
import tempfile
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

from bench.book import Store
from bench.fault import Fault
from bench.job.advice import advise
from bench.job.finish_advice import finish_next
from bench.job.glue_sheet import glue_sheet
from bench.job.stock import stock_of
from bench.job.words import book_lines
from tests.campaigns.walk import Walk
from tests.fakes.clock import FakeClock

HOUR_S, ACT_S = 3600.0, 60.0
MOST_GROWTH = 0.05


@dataclass
class Figures:
    """What a soak has seen: after each hour the blocks Python holds, the resident bytes, the files open."""

    acts: int = 0
    refused: int = 0
    held: list[int] = field(default_factory=list)
    resident: list[int] = field(default_factory=list)
    files: list[int] = field(default_factory=list)

    def growth(self, of: list[int]) -> float:
        """Return by how much the last quarter's median stands over that of the quarter after the first."""
        quarter = max(1, len(of) // 4)
        return median(of[-quarter:]) / median(of[quarter : 2 * quarter]) - 1.0

    def lines(self) -> list[str]:
        return [
            f"hours: {len(self.held)}, acts: {self.acts}, of them refused: {self.refused}",
            f"blocks held by Python: {self.held[0]:,} to {self.held[-1]:,}, "
            f"{self.growth(self.held):+.1%} after the first quarter",
            f"resident: {self.resident[0] / 1e6:.0f} to {self.resident[-1] / 1e6:.0f} MB, "
            f"{self.growth(self.resident):+.1%}",
            f"files open: {self.files[0]} to {self.files[-1]}, at most {max(self.files)}",
        ]


def open_files() -> int:
    return len(os.listdir("/proc/self/fd"))


def resident_bytes() -> int:
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE")


def look(going: Walk) -> None:
    """Ask for all that the screens would show."""
    job = going.job
    with suppress(Fault):
        advise(job)
        finish_next(job)
    book_lines(job)
    stock_of(going.store)
    for mix in job.state.running_mixes:
        glue_sheet(job, mix.number)


def soak(folder: Path, hours: int, seed: int, *, acts_an_hour: int = round(HOUR_S / ACT_S)) -> Figures:
    """Work for so many hours of the clock and return what was seen."""
    figures, clock = Figures(), FakeClock()
    with Store.open(folder, clock=clock) as store:
        going = Walk(store, clock, random.Random(seed), photo_bytes=1000, onward=0.3)
        for _ in range(hours):
            for _ in range(acts_an_hour):
                try:
                    going.step()
                except Fault:
                    figures.refused += 1
                look(going)
                clock.advance(HOUR_S / acts_an_hour)
            figures.acts += acts_an_hour
            with suppress(Fault):  # a book of mixes that all went stringy early promises no piece any more
                going.next_panel()
            _read(figures)
    return figures


def _read(figures: Figures) -> None:
    gc.collect()
    figures.held.append(sys.getallocatedblocks())
    figures.resident.append(resident_bytes())
    figures.files.append(open_files())


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--hours", type=int, default=24)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--acts-an-hour", type=int, default=round(HOUR_S / ACT_S))
    args = parser.parse_args()
    before = open_files()
    with tempfile.TemporaryDirectory() as folder:
        figures = soak(Path(folder), args.hours, args.seed, acts_an_hour=args.acts_an_hour)
    left = open_files() - before
    print("\n".join([*figures.lines(), f"files left open at the end: {left}"]))
    grown = max(figures.growth(figures.held), figures.growth(figures.resident))
    raise SystemExit(grown > MOST_GROWTH or left > 0)


if __name__ == "__main__":
    main()

"""A day of panel work on a fast clock: `python -m tests.campaigns.soak --hours 24`, or with `--screens`.

A maker works one book by chance (`walk`), an act a minute, and between acts what is shown is asked for as the
screens ask; with `--screens` the app itself shows it, in a window that nobody sees. Each hour the job is read
anew, what the book has learned is looked at, and the backup of the day is made where it is due.
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
from collections.abc import Callable
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

from bench.book import Store, back_up
from bench.fault import Fault
from bench.job.advice import advise, section_sheet
from bench.job.away import away_lines
from bench.job.calendar import calendar
from bench.job.finish_advice import finish_next
from bench.job.finish_days import when_lines
from bench.job.foretelling import forecast_left
from bench.job.glue_sheet import glue_sheet
from bench.job.job import Job
from bench.job.learned_graphs import learned_graphs
from bench.job.stock import stock_of
from bench.job.trend_words import trends_of
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
    wrong: list[str] = field(default_factory=list)
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
        advice = advise(job)
        if advice.section is not None:
            section_sheet(job, advice.section)
        finish_next(job)
        forecast_left(job)
    away_lines(job)
    book_lines(job)
    stock_of(going.store)
    for mix in job.state.running_mixes:
        glue_sheet(job, mix.number)


def look_back(going: Walk) -> list[str]:
    """Ask for what is looked at now and then, and read the job anew; return what is not as it was."""
    job = going.job
    with suppress(Fault):
        calendar(job)
        learned_graphs(job)
        trends_of(job)
        when_lines(job)
    back_up(going.store, going.clock)
    again = Job(going.store, going.clock, job.panel_id)
    return [] if again.state == job.state else [f"panel {job.panel_id}, read anew, is another"]


def soak(
    folder: Path,
    hours: int,
    seed: int,
    *,
    acts_an_hour: int = round(HOUR_S / ACT_S),
    on_screens: bool = False,
    told: Callable[[str], None] = lambda _: None,
) -> Figures:
    """Work for so many hours of the clock and return what was seen."""
    figures, clock = Figures(), FakeClock()
    with ExitStack() as ends:
        store = ends.enter_context(Store.open(folder, clock=clock))
        going = Walk(store, clock, random.Random(seed), photo_bytes=1000, onward=0.3)
        show = look
        if on_screens:
            from tests.campaigns.soak_screens import screens

            show = ends.enter_context(screens(going))
        for _ in range(hours):
            for _ in range(acts_an_hour):
                try:
                    going.step()
                except Fault:
                    figures.refused += 1
                show(going)
                clock.advance(HOUR_S / acts_an_hour)
            figures.acts += acts_an_hour
            figures.wrong += look_back(going)
            with suppress(Fault):  # a book of mixes that all went stringy early promises no piece any more
                going.next_panel()
            show(going)
            _read(figures)
            told(f"{len(figures.held)} h: {figures.held[-1]:,} blocks, {figures.resident[-1] / 1e6:.0f} MB")
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
    parser.add_argument("--screens", action="store_true")
    args = parser.parse_args()
    before = open_files()
    with tempfile.TemporaryDirectory() as folder:
        figures = soak(
            Path(folder),
            args.hours,
            args.seed,
            acts_an_hour=args.acts_an_hour,
            on_screens=args.screens,
            told=lambda line: print(line, file=sys.stderr, flush=True),
        )
    # a window keeps its devices, and a file for each typeface in each size, until the process ends
    left = figures.files[-1] - figures.files[args.hours // 4] if args.screens else open_files() - before
    print("\n".join([*figures.lines(), *figures.wrong, f"files left open at the end: {left}"]))
    grown = max(figures.growth(figures.held), figures.growth(figures.resident))
    raise SystemExit(grown > MOST_GROWTH or left > 0 or bool(figures.wrong))


if __name__ == "__main__":
    main()

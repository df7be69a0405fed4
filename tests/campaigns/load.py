"""How open, plan, work and look up grow with what there is: `python -m tests.campaigns.load`.

Three ladders, each rung about three times the one before: tesserae of one panel, entries of one book, panels
of one book. A line is one thing that a person waits for, with the processor's seconds at each size (those of
others on the machine left out; of what only looks, the least of three) and the exponent of its growth, the
slope of log seconds over log size.
`--largest 0.1` is a tenth of the longest rungs.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from bench.book import Store
from bench.book.events import BenchSet, Event, NoteWritten
from bench.job.acts import cup, dry, glueup, opening, record
from bench.job.advice import advise, section_sheet
from bench.job.finding import holding
from bench.job.job import Job
from bench.job.learning import learn_from_book, stated_by
from bench.job.remembered import mixed_on
from bench.job.stock import stock_of
from bench.job.words import book_lines
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.long_books import book_of, days

TESSERAE, ENTRIES, PANELS = 100_000, 50_000, 200
RUNGS = (0.03, 0.1, 0.3, 1.0)
AIM = 1.2
EVENTS_A_GLUE_UP = 6
LEAST_S = 0.005  # what takes less is noise
LOOKS = 3
BENCH = BenchSet(pace_per_min=4.0)
MURAL = BenchSet(pace_per_min=7.5)  # at which the largest panel has about a thousand sections
Row = tuple[str, list[float], float | None]  # what, seconds by size, exponent


class Times(dict[str, float]):
    """How long each thing took [s], and how much of what else there is was counted beside it."""

    def __init__(self) -> None:
        super().__init__()
        self.counted: dict[str, int] = {}


def timed(times: Times, what: str, act: Callable[[], Any]) -> Any:
    """Do one thing and keep how long it took. [s]"""
    begun = time.process_time()
    result = act()
    times[what] = time.process_time() - begun
    return result


def looked(times: Times, what: str, look: Callable[[], Any]) -> Any:
    """Look several times at what does not change, and keep the least time: others waited on the machine."""
    begun = Times()
    results = [timed(begun, str(number), look) for number in range(LOOKS)]
    times[what] = min(begun.values())
    return results[-1]


def of_tesserae(folder: Path, count: int) -> Times:
    """A panel of about so many tesserae: opened, divided, worked once and looked at."""
    columns = round(count**0.5)
    svg, times, clock = grid_svg(columns, columns), Times(), FakeClock()
    with Store.open(folder / f"tesserae-{count}", clock=clock) as store:

        def fresh() -> Job:
            return opening.open_panel(store, clock, svg, "grid.svg", bench=MURAL)

        job = timed(times, "read the drawing, plan", fresh)
        times.counted["sections"] = len(job.state.sections)
        job = timed(times, "open again", lambda: Job(store, clock, job.panel_id))
        looked(times, "open it once more", lambda: Job(store, clock, job.panel_id))
        advice = looked(times, "say what is next", lambda: advise(job))
        looked(times, "look at a section", lambda: section_sheet(job, advice.section))
        timed(times, "lay, mix, close", lambda: glue_up(job, clock, advice.section))
        timed(times, "plan anew after it", lambda: opening.divide_anew(job))
        timed(times, "undo that", lambda: record.undo(job))
        looked(times, "tell the book", lambda: book_lines(job))
    return times


def glue_up(job: Job, clock: FakeClock, number: int) -> None:
    """Work one section from dry to set."""
    dry.lay(job, number)
    mix = cup.open_mix(job, number, 21.0)
    cup.acknowledge(job, mix)
    cup.first_contact(job, mix)
    clock.advance(900)
    glueup.count(job, mix, 3)
    glueup.close(job, mix)


def of_entries(folder: Path, count: int) -> Times:
    """One panel with so many entries: glue-ups of a simulated maker, again and again."""
    times = Times()
    with Store.open(folder / f"entries-{count}") as store:
        made = book_of(store, days(max(1, count // EVENTS_A_GLUE_UP)))
        clock = made.clock
        job = looked(times, "open again", lambda: Job(store, clock, made.panel_id, made.panel))
        looked(times, "say what is next", lambda: advise(job))
        known = stated_by(job.state.bench)
        looked(times, "learn", lambda: learn_from_book(store, known, clock.utc()))
        looked(times, "remember the mixes", lambda: mixed_on(job))
        timed(times, "write a note", lambda: record.note(job, "Cobalt from sheet 4."))
        timed(times, "undo it", lambda: record.undo(job))
        timed(times, "plan anew", lambda: opening.divide_anew(job))
        looked(times, "tell the book", lambda: book_lines(job))
        lines = looked(times, "find words in it", lambda: holding(book_lines(job), ["set", "stringy"]))
        times.counted["entries found"] = len(lines)
    return times


def of_panels(folder: Path, count: int) -> Times:
    """A book of so many panels, all of one drawing, each with some notes."""
    times, clock, svg = Times(), FakeClock(), grid_svg(12, 8)
    with Store.open(folder / f"panels-{count}") as store:
        for _ in range(count):
            job = opening.open_panel(store, clock, svg, "grid.svg", bench=BENCH)
            notes: Sequence[Event] = [NoteWritten(text=f"Note {k}.") for k in range(20)]
            store.append(job.panel_id, notes, at_utc=clock.utc())
        looked(times, "list the panels", store.panels)
        job = looked(times, "open the last again", lambda: Job(store, clock, store.panels()[-1].panel_id))
        looked(times, "say what is next", lambda: advise(job))
        looked(times, "fold the bottles", lambda: stock_of(store))
        timed(times, "one panel more", lambda: opening.open_panel(store, clock, svg, "more.svg", bench=BENCH))
        timed(times, "lay, mix, close", lambda: glue_up(job, clock, advise(job).section))
        looked(times, "tell the book", lambda: book_lines(job))
    return times


def exponent(sizes: Sequence[int], seconds: Sequence[float]) -> float | None:
    """Return the slope of log seconds over log size where it took long enough to tell, else None."""
    kept = [(size, s) for size, s in zip(sizes, seconds, strict=True) if s >= LEAST_S]
    if len(kept) < 2:
        return None
    size, s = np.log(np.array(kept)).T
    return float(np.polyfit(size, s, 1)[0])


def rows(sizes: Sequence[int], measured: Mapping[int, Times]) -> Iterator[Row]:
    """Give each thing with its seconds by size and the exponent of its growth."""
    for what in measured[sizes[0]]:
        seconds = [measured[size][what] for size in sizes]
        yield what, seconds, exponent(sizes, seconds)


LADDERS: Mapping[str, tuple[Callable[[Path, int], Times], int]] = {
    "tesserae": (of_tesserae, TESSERAE),
    "entries": (of_entries, ENTRIES),
    "panels": (of_panels, PANELS),
}


def climb(folder: Path, name: str, sizes: Sequence[int]) -> tuple[list[Row], dict[str, list[int]]]:
    """Measure one ladder at these sizes; return its rows, and what was counted beside them by size."""
    measure, _ = LADDERS[name]
    measured = {size: measure(folder, size) for size in sizes}
    beside = measured[sizes[0]].counted
    counted = {what: [measured[size].counted[what] for size in sizes] for what in beside}
    return list(rows(sizes, measured)), counted


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--largest", type=float, default=1.0)
    parser.add_argument("--what", default=",".join(LADDERS))
    args = parser.parse_args()
    steep = 0
    for name in args.what.split(","):
        sizes = sorted({max(4, round(LADDERS[name][1] * args.largest * rung)) for rung in RUNGS})
        with tempfile.TemporaryDirectory() as folder:
            print(f"{name}: {', '.join(f'{size:,}' for size in sizes)}", flush=True)
            climbed, counted = climb(Path(folder), name, sizes)
            for what, counts in counted.items():
                print(f"  {what}: {', '.join(f'{count:,}' for count in counts)}", flush=True)
            for what, seconds, grows in climbed:
                told = "too short to tell" if grows is None else f"n^{grows:.2f}"
                steep += grows is not None and grows > AIM
                print(f"  {what}: {', '.join(f'{s:.3f}' for s in seconds)} s; {told}", flush=True)
    print(f"steeper than n^{AIM}: {steep}")
    raise SystemExit(bool(steep))


if __name__ == "__main__":
    main()

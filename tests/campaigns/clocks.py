"""Do to the clock all that is done to clocks, at every stage of a glue-up.

`python -m tests.campaigns.clocks --deep 2`. The matrix: stages of a panel × what happens to the clock, one
such thing or two, with reopening the book between or not. The truth is what passed on a clock that nobody
can set. Never may more working time be shown than is left, nor more cure than there was; and where it is
not known, that must be said.
"""

from __future__ import annotations

import argparse
import itertools
import time
from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass, field, replace
from datetime import timedelta
from functools import cache

from bench.book import Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry, glueup
from bench.job.acts.opening import open_panel
from bench.job.advice import advise, section_sheet
from bench.job.glue_sheet import glue_sheet
from bench.job.job import Job
from bench.job.words import book_lines
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg

HOUR_S, DAY_S = 3600.0, 24 * 3600.0
NEAR_S = 1e-6
STAGES = ("before contact", "running", "paused", "stringy", "cure")


def _set_by(seconds: float) -> Callable[[FakeClock], None]:
    return lambda clock: clock.set_wall(clock.utc() + timedelta(seconds=seconds))


def _counter_lost(clock: FakeClock) -> None:
    clock.without_boot_clock()


def _counter_backwards(clock: FakeClock) -> None:
    """A boot clock that starts anew under the same boot id: a fault of the machine, as in a copied one.

    It is seen while the clock stands below the last mark, and held by the next.
    """
    clock.count_from(3.0)


# what happens: how, and whether the countdown can still be known afterwards
HAPPENINGS: dict[str, tuple[Callable[[FakeClock], None], bool]] = {
    "nothing": (lambda clock: None, True),
    "set forward 10 min": (_set_by(600), True),
    "set back 10 min": (_set_by(-600), True),
    "set forward a year": (_set_by(365 * DAY_S), True),
    "set back ten years": (_set_by(-3650 * DAY_S), True),
    "daylight saving begins": (_set_by(HOUR_S), True),
    "daylight saving ends": (_set_by(-HOUR_S), True),
    "another time zone": (lambda clock: clock.travel(9), True),
    "sleep of an hour": (lambda clock: clock.sleep(HOUR_S), True),
    "restart": (lambda clock: clock.reboot(30), False),
    "restart after a day off": (lambda clock: clock.reboot(DAY_S), False),
    "restart, then set back an hour": (lambda clock: (clock.reboot(30), _set_by(-HOUR_S)(clock)), False),
    "restart, then set forward an hour": (lambda clock: (clock.reboot(30), _set_by(HOUR_S)(clock)), False),
    "restart to a clock of 1970": (lambda c: (c.reboot(30), _set_by(-56 * 365 * DAY_S)(c)), False),
    "boot clock gone": (_counter_lost, False),
    "boot clock gone, set back an hour": (lambda c: (_counter_lost(c), _set_by(-HOUR_S)(c)), False),
    "boot id gone": (lambda clock: clock.without_boot_id(), False),
    "boot clock runs anew": (_counter_backwards, False),
}


@dataclass
class Figures:
    """What a campaign has seen."""

    cases: int = 0
    looks: int = 0
    unsure: int = 0
    wrong: list[str] = field(default_factory=list)

    def lines(self) -> list[str]:
        return [
            f"{self.cases} cases, {self.looks} looks at a screen's figures, {self.unsure} of them unsure; "
            f"wrong: {len(self.wrong)}",
            *self.wrong[:20],
        ]


@dataclass
class Bench:
    """A panel brought to a stage, and the true time of what happens on it."""

    job: Job
    clock: FakeClock
    section: int
    mix: int = 0
    contact_s: float | None = None  # on the true clock
    closed_s: float | None = None

    @property
    def total_s(self) -> float:
        return self.job.mix(self.mix).working_time_s or 0.0

    def contact(self) -> None:
        cup.first_contact(self.job, self.mix)
        self.contact_s = self.clock.passed_s

    def reopen(self) -> None:
        self.job = Job(self.job.store, self.clock, self.job.panel_id, self.job.panel)


def brought_to(stage: str, store: Store, clock: FakeClock) -> Bench:
    """Return a bench at a stage, reached on a clock that behaves."""
    job = open_panel(store, clock, grid_svg(8, 4), "grid.svg", bench=BenchSet(pace_per_min=2.0))
    number = min(job.state.sections)
    dry.lay(job, number)
    bench = Bench(job, clock, number, cup.open_mix(job, number, 21.0))
    cup.acknowledge(job, bench.mix)
    if stage == "before contact":
        return bench
    bench.contact()
    clock.advance(300)
    job.remark()
    clock.advance(7)
    if stage == "paused":
        glueup.pause(job, bench.mix)
    elif stage == "stringy":
        glueup.stringy(job, bench.mix)
    elif stage == "cure":
        clock.advance(400)
        glueup.close(job, bench.mix)
        bench.closed_s = clock.passed_s
    clock.advance(60)
    return bench


@cache
def _template(stage: str) -> Bench:
    return brought_to(stage, Store.in_memory(), FakeClock())


def _copy_of(stage: str, store: Store) -> Bench:
    """Return a bench at a stage in a book of its own; dividing the panel each time would take long."""
    kept = _template(stage)
    kept.job.store._connection.backup(store._connection)
    clock = copy(kept.clock)
    job = Job(store, clock, kept.job.panel_id, kept.job.panel)
    return replace(kept, job=job, clock=clock)


def case(stage: str, happenings: Sequence[str], *, reopens: bool, marks: bool, figures: Figures) -> None:
    """Let these things happen at a stage, and look after each, and in the hours after them."""
    with Store.in_memory() as store:
        bench = _copy_of(stage, store)
        clock, known = bench.clock, True
        figures.cases += 1
        where = f"{stage}, {' then '.join(happenings)}{', reopened' if reopens else ''}"
        for name in happenings:
            happens, keeps = HAPPENINGS[name]
            happens(clock)
            known = known and keeps
            if reopens:
                bench.reopen()
            if marks or happens is _counter_backwards:
                bench.job.remark()
            _look(bench, known or bench.contact_s is None, where, figures)
            clock.advance(90)
        if stage == "before contact":  # begun on a clock that was disturbed: known again from here on
            bench.contact()
            known = clock.boot_s() is not None and clock.boot_id() is not None
        for seconds in (60, 400, 1200, 4 * HOUR_S, 30 * HOUR_S):
            clock.advance(seconds)
            if marks:
                bench.job.remark()
            _look(bench, known, where, figures)


def _look(bench: Bench, known: bool, where: str, figures: Figures) -> None:
    figures.looks += 1
    job = bench.job
    assert advise(job).headline
    assert len(book_lines(job)) == len(job.store.events(job.panel_id))
    if bench.closed_s is not None:
        _look_at_cure(bench, known, where, figures)
    elif bench.contact_s is not None:
        _look_at_working_time(bench, known, where, figures)


def _look_at_working_time(bench: Bench, known: bool, where: str, figures: Figures) -> None:
    job, spent_s = bench.job, bench.clock.passed_s - (bench.contact_s or 0.0)
    left_s = max(0.0, bench.total_s - spent_s)
    sheet = glue_sheet(job, bench.mix)
    figures.unsure += sheet.unsure
    if sheet.left_s > left_s + NEAR_S:
        figures.wrong.append(f"{where}: {sheet.left_s:.0f} s shown, {left_s:.0f} s are left")
    if known and (sheet.unsure or abs(sheet.left_s - left_s) > NEAR_S):
        figures.wrong.append(f"{where}: known, and shown are {sheet.left_s:.0f} s of {left_s:.0f}")
    if not known:
        said = "The clock changed" in sheet.advice and "cannot be trusted" in advise(job).why
        if not (sheet.unsure and sheet.left_s == 0 and said):
            figures.wrong.append(f"{where}: not known, and that is not said")


def _look_at_cure(bench: Bench, known: bool, where: str, figures: Figures) -> None:
    job, cured_s = bench.job, bench.clock.passed_s - (bench.closed_s or 0.0)
    closed = job.mix(bench.mix).closed
    assert closed is not None
    true = "hard" if cured_s >= closed.grout_s else "firm" if cured_s >= closed.firm_s else "soft"
    order = ("soft", "firm", "hard")
    shown = job.life(bench.section)
    unsure = section_sheet(job, bench.section).cure_unsure
    figures.unsure += unsure
    if order.index(shown) > order.index(true):
        figures.wrong.append(f"{where}: shown {shown}, it is {true}")
    if known and (shown != true or unsure):
        figures.wrong.append(f"{where}: known, and shown {shown}, it is {true}")
    if not known and not unsure:
        figures.wrong.append(f"{where}: the cure is not known, and that is not said")


def campaign(
    stages: Sequence[str] = STAGES, happenings: Sequence[str] = tuple(HAPPENINGS), deep: int = 2
) -> Figures:
    """Go through the matrix: every stage with every sequence of up to `deep` things that happen."""
    figures = Figures()
    for count in range(1, deep + 1):
        for stage, names in itertools.product(stages, itertools.product(happenings, repeat=count)):
            for reopens, marks in ((False, False), (True, False), (True, True)):
                case(stage, names, reopens=reopens, marks=marks, figures=figures)
    return figures


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--deep", type=int, default=2, help="how many things happen one after the other")
    args = parser.parse_args()
    begun = time.perf_counter()
    figures = campaign(deep=args.deep)
    print("\n".join([*figures.lines(), f"took {time.perf_counter() - begun:.0f} s"]))
    raise SystemExit(bool(figures.wrong))


if __name__ == "__main__":
    main()

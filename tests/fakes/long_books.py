"""Books of many glue-ups, written as entries: a simulated maker on a panel of the store."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import numpy as np

from bench.book import Store
from bench.book.events import BatchPrescribed, BenchSet, ContactMade, MixClosed, MixOpened, ResinPoured
from bench.job.acts.opening import open_panel
from bench.job.bedding import bed_area_mm2
from bench.job.job import Job
from bench.job.state import Section
from bench.pace.routine import Routine
from tests.fakes.clock import FakeClock
from tests.fakes.drawings import grid_svg
from tests.fakes.makers import Maker, a_maker, set_section

LABEL_S = 1500.0
FIRST = datetime(2026, 1, 5, 9, tzinfo=UTC)


@dataclass(frozen=True)
class Day:
    """How a glue-up differs from the usual. adhesive: None for the panel's own."""

    started_utc: datetime
    temperature_C: float = 21.0
    adhesive: str | None = None


def days(count: int, *, a_day: int = 3, pause_after: int | None = None, pause_days: int = 30) -> list[Day]:
    """Return the starts of so many glue-ups, with a pause after one of them where asked for."""
    gone = [pause_days if pause_after is not None and k >= pause_after else 0 for k in range(count)]
    starts = [FIRST + timedelta(days=k // a_day + gone[k], hours=2 * (k % a_day)) for k in range(count)]
    return [Day(start, 18.0 + k % 9) for k, start in enumerate(starts)]


def book_of(
    store: Store, made: Sequence[Day], *, seed: int = 1, always_in_time: bool = False, name: str = "Lemons"
) -> Job:
    """Open a panel and write these glue-ups of a simulated maker into its book.

    always_in_time: no mix goes stringy. Sections are set again and again, which no maker does: what is
    learned does not look at that.
    """
    clock = FakeClock(max((day.started_utc for day in made), default=FIRST) + timedelta(hours=12))
    bench = BenchSet(pace_per_min=5.0)
    job = open_panel(store, clock, grid_svg(24, 12), "grid.svg", bench=bench, name=name)
    rng = np.random.default_rng(seed)
    maker = a_maker(rng)
    numbers, bed = sorted(job.state.sections), bed_area_mm2(job.panel)
    with store.together():
        for k, day in enumerate(made):
            section = job.state.sections[numbers[k % len(numbers)]]
            area_mm2 = float(bed[list(section.tesserae)].sum())
            events = _glue_up(maker, rng, k, day, section, area_mm2, always_in_time)
            for part, some in (("mix", events[:-1]), ("close", events[-1:])):
                store.append(job.panel_id, some, at_utc=day.started_utc, act_id=f"{name}-{k}-{part}")
    return Job(store, clock, job.panel_id, job.panel)


def _glue_up(
    maker: Maker,
    rng: np.random.Generator,
    k: int,
    day: Day,
    section: Section,
    area_mm2: float,
    always_in_time: bool,
) -> list:
    made, in_time = set_section(maker, rng, k, 60.0 * maker.proportion, Routine())
    in_time = in_time or always_in_time
    mix, grams = k + 1, 0.13 * area_mm2 / 100 * (1 + 0.05 * rng.standard_normal()) + 1.5
    finished_s = made.finished_after_s or made.seconds + 200.0
    return [
        MixOpened(mix=mix, section=section.number, temperature_C=day.temperature_C),
        BatchPrescribed(
            mix=mix,
            resin_g=grams / 1.5,
            hardener_g=grams / 3,
            total_g=grams,
            worst_ratio_error=0.02,
            scale_ok=True,
            working_time_s=LABEL_S,
            in_time=0.92,
        ),
        *([ResinPoured(mix=mix, resin_g=grams / 1.5, hardener_target_g=grams / 3)] if k % 2 else []),
        ContactMade(mix=mix, working_time_s=LABEL_S),
        MixClosed(
            mix=mix,
            section=section.number,
            contact_utc=day.started_utc,
            placed=made.pieces,
            small=made.small,
            medium=made.medium,
            large=made.large,
            setting_s=made.seconds,
            finished_after_s=finished_s,
            stringy_after_s=None if in_time else min(made.stringy_after_s or finished_s, finished_s),
            why_left=None if in_time else "stringy",
            temperature_C=day.temperature_C,
            label_s=LABEL_S * 1.06 ** (21 - day.temperature_C),
            adhesive=day.adhesive or section.adhesive,
            firm_s=4 * 3600.0,
            grout_s=24 * 3600.0,
            in_time=in_time,
        ),
    ]

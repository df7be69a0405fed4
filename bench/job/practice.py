"""Practise a glue-up: the real job on a book in memory, on a fast clock, with a made-up hand.

No file is opened for writing, so nothing is left behind and nothing is learned from it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

from bench.book import Clock, Store
from bench.book.events import BenchSet
from bench.job.acts import cup, dry, glueup, opening
from bench.job.advice import advise
from bench.job.bedding import bed_area_mm2
from bench.job.glue_sheet import glue_sheet
from bench.job.job import Job
from bench.job.key_words import pieces_or_patches
from bench.job.sizing import ROUTINE
from bench.job.state import Mix, Section
from bench.speech import say

FACTORS = (10.0, 20.0)
TOLD_PARTS = 12  # counts that a made-up hand tells of a section


class FastClock:
    """Run a given clock faster, from the moment it was made."""

    def __init__(self, clock: Clock, factor: float = FACTORS[0]) -> None:
        self._clock, self.factor = clock, factor
        self._utc, self._start_s = clock.utc(), self._real_s()

    def _real_s(self) -> float:
        boot_s = self._clock.boot_s()
        return self._clock.utc().timestamp() if boot_s is None else boot_s

    def _fast_s(self) -> float:
        return (self._real_s() - self._start_s) * self.factor

    def utc(self) -> datetime:
        return self._utc + timedelta(seconds=self._fast_s())

    def boot_s(self) -> float | None:
        return self._start_s + self._fast_s()

    def boot_id(self) -> str | None:
        return "practice"


@dataclass(frozen=True)
class MadeUpHand:
    """A hand for practice: medium tesserae a minute, and how much a glue-up strays (sd of its log)."""

    pace_per_min: float = 5.0
    spread: float = 0.12

    def seconds_to_set(self, section: Section, mix: Mix, rng: np.random.Generator) -> float:
        """Return how long it takes to set a section this time, piece by piece or by the patch. [s]

        By the patch it keeps the time that the section is expected to take, since its pace is one of pieces.
        """
        by_piece_s = section.piece_count / self.pace_per_min * 60.0
        expected_s = by_piece_s if mix.patches is None else section.expected_s
        return float(expected_s * np.exp(rng.normal(0.0, self.spread)))


class PlayingHand:
    """Set the pieces of running mixes as a made-up hand would, as the clock goes on; it tells each twelfth.

    A newcomer sees what the time left, the chart and the advice do while pieces go down. It rests while the
    hands rest, stops where the adhesive went stringy, and never takes back what the maker counted.
    """

    def __init__(self, seed: int = 0, hand: MadeUpHand | None = None) -> None:
        self._rng, self._hand = np.random.default_rng(seed), hand or MadeUpHand()
        self._setting_s: dict[int, float] = {}

    def follow(self, job: Job) -> bool:
        """Tell what is down by now; return whether anything was told."""
        told = False
        for mix in job.state.running_mixes:
            whole, _ = glueup.to_set(job, mix)
            placed = self._placed(job, mix, whole)
            if placed >= min(mix.placed + max(1, whole // TOLD_PARTS), whole) and placed > mix.placed:
                glueup.count(job, mix.number, placed)
                told = True
        return told

    def _placed(self, job: Job, mix: Mix, whole: int) -> int:
        if mix.is_paused or mix.stringy_s is not None:
            return 0
        section = job.section(mix.section)
        if mix.number not in self._setting_s:
            self._setting_s[mix.number] = self._hand.seconds_to_set(section, mix, self._rng)
        spent_s = job.reading(mix.number).spent_s
        bed_mm2 = float(bed_area_mm2(job.panel)[list(section.tesserae)].sum())
        start_s = mix.steps_s.get("set", ROUTINE.stir_s + ROUTINE.spread_s(bed_mm2))
        set_s = spent_s - start_s - mix.paused_s(spent_s)
        return min(whole, max(0, int(whole * set_s / self._setting_s[mix.number])))


def practice_job(data: bytes, name: str, clock: Clock, *, bench: BenchSet | None = None) -> Job:
    """Open a drawing in a book that lives in memory only."""
    return opening.open_panel(Store.in_memory(), clock, data, name, bench=bench)


def practice_of(job: Job, *, factor: float = FACTORS[0]) -> Job:
    """Open the drawing of a real job for practice, worked the same way, on a clock that runs faster."""
    state = job.state
    return opening.open_panel(
        Store.in_memory(),
        FastClock(job.clock, factor),
        job.store.blob(state.drawing_sha256),
        state.drawing_name,
        bench=state.bench.model_copy(update={"products": {}}),
        name=state.name,
        width_mm=state.width_mm,
        height_mm=state.height_mm,
        panel=job.panel,
    )


@dataclass(frozen=True)
class Moment:
    """One moment of a practised glue-up, worth a look: which screen, what happened, and what it is about."""

    screen: str
    title: str
    section: int | None = None
    mix: int | None = None


def play(
    job: Job, advance: Callable[[float], None], rng: np.random.Generator, hand: MadeUpHand | None = None
) -> Iterator[Moment]:
    """Play one whole glue-up of the section that is next; yield after each act.

    advance: let so many seconds pass on the job's clock. Ends when the section is set, the pace is
    learned and the ground divided anew.
    """
    hand = hand or MadeUpHand()
    number = advise(job).section
    if number is None:
        return
    yield Moment("panel", say("Section {section} is next", section=number))
    advance(90 * 60.0)
    dry.lay(job, number)
    pieces = pieces_or_patches(job.section(number).piece_count, "pieces")
    yield Moment(
        "dry", say("Section {section} lies dry: {pieces}", section=number, pieces=pieces), number
    )
    yield Moment("cup", say("How warm is the room? It decides the working time"), number)
    mix = cup.open_mix(job, number, job.state.bench.temperature_C)
    yield Moment("cup", say("Cautions before gloves go on"), number, mix)
    cup.acknowledge(job, mix, burns=False)
    yield Moment("cup", say("Resin and hardener by mass"), number, mix)
    cup.first_contact(job, mix)
    yield from _glue_up(job, mix, advance, rng, hand)
    opening.divide_anew(job)
    yield Moment("panel", say("The next section, by the pace just learned"))


def _glue_up(
    job: Job, mix: int, advance: Callable[[float], None], rng: np.random.Generator, hand: MadeUpHand
) -> Iterator[Moment]:
    section = job.section(job.mix(mix).section)
    bed_mm2 = float(bed_area_mm2(job.panel)[list(section.tesserae)].sum())
    yield Moment("glueup", say("First contact: the clock runs"), section.number, mix)
    advance(ROUTINE.stir_s)
    glueup.begin_step(job, mix, "spread")
    advance(ROUTINE.spread_s(bed_mm2))
    glueup.begin_step(job, mix, "set")
    whole, _ = glueup.to_set(job, job.mix(mix))
    setting_s = hand.seconds_to_set(section, job.mix(mix), rng)
    for quarter in (1, 2, 3):
        advance(setting_s / 4)
        if job.reading(mix).left_s <= 0:
            break
        glueup.count(job, mix, whole * quarter // 4)
        said = say("{quarter} of 4 down: {advice}", quarter=quarter, advice=glue_sheet(job, mix).advice)
        yield Moment("glueup", said, section.number, mix)
    advance(setting_s / 4)
    glueup.begin_step(job, mix, "clean")
    advance(ROUTINE.clean_s(bed_mm2))
    yield Moment("glueup", say("All placed, the edge is clean"), section.number, mix)
    glueup.close(job, mix)
    yield Moment("panel", say("Section {section} is set", section=section.number), section.number, mix)

"""A maker who works panels by chance, every act on a real book."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import timedelta

from bench.book import Clock, Store
from bench.book.events import BenchSet
from bench.job.acts import (
    cup,
    cure,
    dry,
    glueup,
    opening,
    pouring,
    record,
    revising,
    shaping,
    stock,
    weigh_cup,
)
from bench.job.drafts import Draft
from bench.job.job import Job
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.photographed import photograph

COLUMNS, ROWS = 10, 5
BENCH = BenchSet(pace_per_min=2.0)
COUNTER = "walk"  # a setting and a draft that count up
WHY = ("stringy", "did not fit", "dropped", "called away")


def photo_of(number: int, size: int) -> bytes:
    """Return bytes that stand for a photo; the same number gives the same."""
    return random.Random(number).randbytes(size + number % 977)


class Walk:
    """Go on with the newest panel of a book. `step` does one act; a Fault is a fair answer to it.

    photo_bytes: how long photos are, by default longer than many pages of the book.
    """

    def __init__(
        self, store: Store, clock: Clock, rng: random.Random, *, photo_bytes: int = 30_000
    ) -> None:
        self.store, self.clock, self.rng, self._photo_bytes = store, clock, rng, photo_bytes
        self._divides = False  # after a glue-up, as part of the act that closed it
        panels = store.panels()
        self.job = Job(store, clock, panels[-1].panel_id) if panels else self._open()

    def _open(self) -> Job:
        svg = grid_svg(COLUMNS, ROWS, colour=lambda c, r: YELLOW if c > 4 else BLUE)
        return opening.open_panel(self.store, self.clock, svg, "grid.svg", bench=BENCH)

    def step(self) -> str:
        """Do one act that fits where the panel is, and return what it is called."""
        name, act = self.rng.choice(self._fitting())
        act()
        return name

    def _fitting(self) -> list[tuple[str, Callable[[], object]]]:
        if self._divides:
            return [self._any("divide")]
        running, at_cup = self.job.state.running_mixes, self.job.state.mix_at_cup
        if running:
            ways = 3 * self._at_the_glue(running[0].number) + 4 * [self._any("remark")] + [self._any("undo")]
        elif at_cup is not None:
            ways = 3 * self._at_the_cup(at_cup.number) + [self._any("remark")]
        else:
            ways = 2 * self._between()
        return [*ways, *map(self._any, ("note", "setting", "draft", "bottle", "weigh_bottle"))]

    def _any(self, name: str) -> tuple[str, Callable[[], object]]:
        return name, getattr(self, f"_{name}")

    def _at_the_glue(self, mix: int) -> list[tuple[str, Callable[[], object]]]:
        job, rng = self.job, self.rng
        told = job.mix(mix)
        steps = [s for s in glueup.STEPS if s not in told.steps_s]
        pieces = job.section(told.section).piece_count
        return [
            ("step", lambda: glueup.begin_step(job, mix, steps[0] if steps else "clean")),
            ("count", lambda: glueup.count(job, mix, rng.randint(0, pieces))),
            ("rest", lambda: (glueup.resume if told.is_paused else glueup.pause)(job, mix)),
            ("stringy", lambda: glueup.stringy(job, mix, ago_s=30.0)),
            ("earlier", lambda: cup.correct_contact(job, mix, earlier_by_s=float(rng.randint(1, 40)))),
            ("weigh", lambda: self._weigh(mix)),
            ("close", lambda: self._close(mix)),
        ]

    def _weigh(self, mix: int) -> None:
        resin_g = pouring.resin_in_cup_g(self.job.mix(mix))
        target_g = self.job.mix(mix).hardener_target_g or self.job.mix(mix).batch.hardener_g
        pouring.keep_poured(self.job, mix, resin_g=round(resin_g, 1), hardener_g=round(target_g, 1))

    def _close(self, mix: int) -> None:
        if self.job.reading(mix).spent_s < 300.0:  # a glue-up of no time would teach that none is needed
            cup.correct_contact(self.job, mix, earlier_by_s=600.0)
            return
        left = self.rng.choice([0, 0, 0, 2])
        glueup.close(self.job, mix, left=left, why=self.rng.choice(WHY) if left else None)
        self._divides = True

    def _divide(self) -> None:
        self._divides = False
        opening.divide_anew(self.job)

    def _at_the_cup(self, mix: int) -> list[tuple[str, Callable[[], object]]]:
        job, rng = self.job, self.rng
        if not job.mix(mix).acknowledged:
            return [("read", lambda: cup.acknowledge(job, mix))]
        late_s = float(rng.choice([0, 600, 780, 840]))  # as if a glue-up of common length had gone by
        return [
            ("pour", lambda: cup.pour_resin(job, mix, round(job.mix(mix).batch.resin_g + 0.1, 1))),
            *4 * [("contact", lambda: cup.first_contact(job, mix, back_dated_s=late_s))],
            ("put_away", lambda: cup.put_away(job, mix)),
        ]

    def _between(self) -> list[tuple[str, Callable[[], object]]]:
        job, rng, state = self.job, self.rng, self.job.state
        ways: list[tuple[str, Callable[[], object]]] = []
        for section in state.with_stage("drawn")[:2]:
            n, pieces = section.number, section.piece_count
            data = photo_of(rng.randint(0, 10**6), self._photo_bytes)
            ways += [("lay", lambda n=n: dry.lay(job, n)), ("shape", lambda n=n: self._shape(n))]
            ways += [("photo", lambda n=n, p=pieces, d=data: photograph(job, n, p, data=d))]
        for section in state.with_stage("dry"):
            n = section.number
            ways += 3 * [("mix", lambda n=n: cup.open_mix(job, n, 21.0))]
            ways += [("take_up", lambda n=n: dry.take_up(job, n)), ("split", lambda n=n: dry.split(job, n))]
        for section in state.with_stage("set")[-2:]:
            n = section.number
            if section.confirmed is None:  # nothing is set beside soft work
                ways += 9 * [("firm", lambda n=n: cure.confirm_cure(job, n, "firm"))]
        return [*ways, *map(self._any, ("next_panel", "afterwards", "undo", "revise", "chip_out"))]

    def _shape(self, number: int) -> None:
        x_mm = self.rng.uniform(0.2, 0.8) * self.job.panel.width_mm
        shaping.shape(self.job, shaping.try_split(self.job, number, [(x_mm, -9.0), (x_mm + 3.0, 9e3)]))

    def _afterwards(self) -> None:
        mix = weigh_cup.cup_to_weigh(self.job)
        if mix is not None and self.rng.random() < 0.5:
            weigh_cup.weigh_cup(self.job, mix.number, gross_g=4.3, tare_g=4.0, cup="scraped")
        elif mix is not None:
            glueup.cup_went(self.job, mix.number, after_s=1500.0)

    def _chip_out(self) -> None:
        done = self.job.state.with_stage("set")
        if done and self.rng.random() < 0.3:
            cure.chip_out(self.job, done[-1].number)

    def _revise(self) -> None:
        columns = self.rng.randint(0, COLUMNS)
        svg = grid_svg(COLUMNS, ROWS, colour=lambda c, r: YELLOW if c >= columns else BLUE)
        tried = revising.try_revise(self.job, svg, "second.svg")
        revising.revise(self.job, tried)

    def _next_panel(self) -> None:
        self.job = self._open()

    def _undo(self) -> None:
        record.undo(self.job)

    def _note(self) -> None:
        record.note(self.job, f"Cobalt from sheet {self.rng.randint(1, 99)}.")

    def _remark(self) -> None:
        self.job.remark()

    def _setting(self) -> None:
        self.store.set_setting(COUNTER, str(int(self.store.setting(COUNTER) or 0) + 1))

    def _draft(self) -> None:
        """Write a draft on, its words and its picture in one; their numbers must always be the same."""
        rows, drafts = self.store.drafts.all(), self.store.drafts
        number = 1 + int(rows[0].name) if rows else 1
        body = Draft(name=str(number)).model_dump_json()
        with self.store.together():
            if rows:
                drafts.drop(rows[0].draft_id)
            draft_id = drafts.add(str(number), body, self.clock.utc())
            drafts.put_file(draft_id, "picture", photo_of(number, self._photo_bytes))

    def _bottle(self) -> None:
        name = self.job.product(self.job.state.bench.adhesive).name
        part = self.rng.choice(["resin", "hardener"])
        past = self.clock.utc().date() + timedelta(days=400)
        stock.open_bottle(self.job, name, part, net_g=40.0, best_before=past)

    def _weigh_bottle(self) -> None:
        """Tell of one bottle or another; now and then take the last word of that back."""
        number = self.rng.randint(1, 6)
        way = self.rng.random()
        if way < 0.4:
            stock.weigh_bottle(self.job, number, 12.5)
        elif way < 0.6:
            stock.empty_bottle(self.job, number)
        else:
            stock.undo_stock(self.job)

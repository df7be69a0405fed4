"""A maker who works panels by chance, every act on a real book."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable

import numpy as np

from bench.book import Clock, Store
from bench.book.events import BenchSet
from bench.job.acts import (
    cup,
    cure,
    dry,
    edge,
    glueup,
    lasting,
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
from tests.campaigns.walk_bottles import go_on_with_bottle, tell_of_bottle
from tests.campaigns.walk_finish import finish_on, finishing_ways
from tests.campaigns.walk_photos import attach_on, measure_on
from tests.fakes.drawings import BLUE, YELLOW, grid_svg
from tests.fakes.photographed import CORNERS, photograph

COLUMNS, ROWS = 10, 5
SMALL = 3, 2  # a panel that is soon set all over, and then grouted
PITCH_MM = 7.0
BENCH = BenchSet(pace_per_min=2.0)
COUNTER = "walk"  # a setting and a draft that count up
WHY = ("stringy", "did not fit", "dropped", "called away")


def photo_of(number: int, size: int) -> bytes:
    """Return bytes that stand for a photo; the same number gives the same."""
    return random.Random(number).randbytes(size + number % 977)


class Walk:
    """Go on with the newest panel of a book. `step` does one act; a Fault is a fair answer to it.

    photo_bytes: how long photos are, by default longer than many pages of the book. onward: the share of
    acts that bring the panel on; of the others, those then come first that were done least.
    """

    def __init__(
        self,
        store: Store,
        clock: Clock,
        rng: random.Random,
        *,
        photo_bytes: int = 30_000,
        onward: float = 0.0,
    ) -> None:
        self.store, self.clock, self.rng, self._photo_bytes = store, clock, rng, photo_bytes
        self._onward = onward
        self._done: Counter[str] = Counter()
        self._divides = False  # after a glue-up, as part of the act that closed it
        panels = store.panels()
        self.job = Job(store, clock, panels[-1].panel_id) if panels else self._open()

    def _open(self) -> Job:
        columns, rows = SMALL if self.rng.random() < 0.6 else (COLUMNS, ROWS)
        svg = grid_svg(columns, rows, colour=lambda c, r: YELLOW if 2 * c >= columns else BLUE)
        return opening.open_panel(self.store, self.clock, svg, "grid.svg", bench=BENCH)

    def step(self) -> str:
        """Do one act that fits where the panel is, and return what it is called."""
        name, act = self._leading_on() if self.rng.random() < self._onward else self._by_chance()
        self._done[name] += 1
        act()
        return name

    def _by_chance(self) -> tuple[str, Callable[[], object]]:
        ways = self._fitting()
        if not self._onward:
            return self.rng.choice(ways)
        return self.rng.choices(ways, [(1 + self._done[name]) ** -1.5 for name, _ in ways])[0]

    def pause_s(self) -> float:
        """Return how long a maker waits before the next act: now and then a day, while no mix runs. [s]"""
        idle = not self.job.state.running_mixes and self.rng.random() < 0.08
        return 26 * 3600.0 if idle else 20.0

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
            *2 * [("stringy", lambda: self._stringy(mix))],
            ("earlier", lambda: cup.correct_contact(job, mix, earlier_by_s=float(rng.randint(1, 40)))),
            ("weigh", lambda: self._weigh(mix)),
            ("close", lambda: self._close(mix)),
        ]

    def _weigh(self, mix: int) -> None:
        """Tell of a cup as it was to be, or of more of both, which may be worked for less long."""
        told, more = self.job.mix(mix), self.rng.choice([1.0, 1.0, 1.6])
        resin_g = more * pouring.resin_in_cup_g(told)
        target_g = more * (told.hardener_target_g or told.batch.hardener_g)
        pouring.keep_poured(self.job, mix, resin_g=round(resin_g, 1), hardener_g=round(target_g, 1))

    def _stringy(self, mix: int) -> None:
        """Say that it went stringy: in time, or so late that the adhesive is seen to outlast its label.

        That it began earlier is an act of its own: a step is one act, so that what was refused wrote none.
        """
        late_s = 1.5 * self.job.glue_mark(mix).total_s - self.job.reading(mix).spent_s
        if late_s > 0 and self.rng.random() < 0.9:
            cup.correct_contact(self.job, mix, earlier_by_s=late_s)
            return
        glueup.stringy(self.job, mix)

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
            ("take_from", lambda: stock.take_from(job, mix, rng.randint(1, 6), knowing=True)),
        ]

    def _leading_on(self) -> tuple[str, Callable[[], object]]:
        job, state = self.job, self.job.state
        if self._divides:
            return self._any("divide")
        if state.running_mixes:
            return "close", lambda: self._close(state.running_mixes[0].number)
        if state.mix_at_cup is not None:
            mix = state.mix_at_cup
            act = cup.first_contact if mix.acknowledged else cup.acknowledge
            return act.__name__, lambda: act(job, mix.number)
        soft = [s.number for s in state.with_stage("set") if s.confirmed is None]
        lain, drawn = state.with_stage("dry"), state.with_stage("drawn")
        if soft:
            return "firm", lambda: cure.confirm_cure(job, soft[0], "firm")
        if lain:
            return "mix", lambda: cup.open_mix(job, lain[0].number, 21.0)
        if drawn:
            return "lay", lambda: dry.lay(job, drawn[0].number)
        if state.finish.hung is not None:
            return self._any("next_panel")
        return "finish", lambda: finish_on(job, self.rng)

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
            ways += [("time", lambda n=n: dry.time_laying(job, n, rng.uniform(0.2, 5.0)))]
        for section in state.with_stage("set")[-2:]:
            n = section.number
            if section.confirmed is None:  # nothing is set beside soft work
                ways += 9 * [("firm", lambda n=n: cure.confirm_cure(job, n, "firm"))]
        names = ["afterwards", "afterwards", "undo", "revise", "chip_out", "transfer", "edge", "last"]
        names += ["attach", "tile"]
        names += 9 * ["next_panel"] if state.finish.hung else ["next_panel"] * (rng.random() < 0.5)
        return [*ways, *finishing_ways(job, rng), *map(self._any, names)]

    def _shape(self, number: int) -> None:
        x_mm = self.rng.uniform(0.2, 0.8) * self.job.panel.width_mm
        shaping.shape(self.job, shaping.try_split(self.job, number, [(x_mm, -9.0), (x_mm + 3.0, 9e3)]))

    def _afterwards(self) -> None:
        mix = weigh_cup.cup_to_weigh(self.job)
        if mix is not None and self.rng.random() < 0.5:
            weigh_cup.weigh_cup(self.job, mix.number, gross_g=4.3, tare_g=4.0, cup="scraped")
        elif mix is not None:
            glueup.cup_went(self.job, mix.number, after_s=3000.0)

    def _transfer(self) -> None:
        """Set by the patch for a while, or piece by piece again."""
        bench = self.job.state.bench
        by = "single" if bench.by_patch else self.rng.choice(["patch", "face-down", "single"])
        opening.set_bench(self.job, bench.model_copy(update={"transfer": by, "patch_cm2": 4.0}))

    def _edge(self) -> None:
        task, far_mm = edge.task_for(self.job, 10.0), self.rng.uniform(2.0, 30.0)
        photo = photo_of(self.rng.randint(0, 10**6), self._photo_bytes)
        line = np.array([[1.0, 1.0], [far_mm, 2.0]])
        edge.trace(self.job, photo, corner_px=CORNERS, frame=task.frame, lines_mm=[line], found=False)

    def _last(self) -> None:
        adhesive = self.job.state.bench.adhesive
        allowed = lasting.lasting(self.job, adhesive).allowed
        (lasting.hold_to_label if allowed else lasting.allow_longer)(self.job, adhesive)

    def _attach(self) -> None:
        attach_on(self.job, self.rng)

    def _tile(self) -> None:
        measure_on(self.job, self.rng)

    def _chip_out(self) -> None:
        done = self.job.state.with_stage("set")
        if done and self.rng.random() < 0.3:
            cure.chip_out(self.job, done[-1].number)

    def _revise(self) -> None:
        panel = self.job.panel
        columns, rows = (round(mm / PITCH_MM) for mm in (panel.width_mm, panel.height_mm))
        yellow = self.rng.randint(0, columns)
        svg = grid_svg(columns, rows, colour=lambda c, r: YELLOW if c >= yellow else BLUE)
        tried = revising.try_revise(self.job, svg, "second.svg")
        revising.revise(self.job, tried)

    def next_panel(self) -> None:
        """Begin another panel, and leave the one before as it is."""
        self.job, self._divides = self._open(), False

    def _next_panel(self) -> None:
        self.next_panel()

    def _undo(self) -> None:
        record.undo(self.job)

    def _note(self) -> None:
        """Write a word, on the newest entry or on none."""
        about = self.rng.choice([None, self.store.last_seq(self.job.panel_id)])
        record.note(self.job, f"Cobalt from sheet {self.rng.randint(1, 99)}.", about=about)

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
        tell_of_bottle(self.job, self.rng)

    def _weigh_bottle(self) -> None:
        go_on_with_bottle(self.job, self.rng)

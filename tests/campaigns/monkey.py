"""Let a monkey loose on every screen: `python -m tests.campaigns.monkey --touches 20000 --seed 1`.

The app is played on a real book in a folder of its own, on a clock that the monkey moves. It touches what can
be touched, places where nothing is, keys, and strokes; it turns the tablet, waits, and goes round the bench.
Nothing may raise, and every so often and at the end the book is read anew: what it folds to is what the app
shows, and every tessera lies in exactly one section. While a mix runs the app goes on whatever fails, so what
it lets pass is looked for where it passes. The same seed plays the same.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bench.fault import Fault
from bench.screens import hidden_window, offscreen

hidden_window.prepare()

from kivy.base import ExceptionHandler, ExceptionManager  # noqa: E402

from bench.book import Store  # noqa: E402
from bench.book.events import BenchSet  # noqa: E402
from bench.job.acts.opening import open_panel  # noqa: E402
from bench.job.job import Job  # noqa: E402
from tests.fakes.clock import FakeClock  # noqa: E402
from tests.fakes.drawings import grid_svg  # noqa: E402
from tests.gallery.views import SIZES, a_home  # noqa: E402

BENCH = BenchSet(pace_per_min=5.0)
KEYS = ("tab", "enter", "escape", "spacebar", "backspace", "f1", *"0123456789.,cdpsvx", "left", "up")
PLACES = (
    *("panel", "dry", "cup", "glueup", "finish", "grouting", "book", "open"),
    *("setup", "label", "workshop", "rounds", "stock", "tablet", "card", "first"),
    *("photograph", "edge", "seeing", "tile", "trace"),
)
WORK = {  # what leads from bare ground to a section that is set
    *("next", "as_drawn", "to_the_cup", "use_room", "read_it", "go_on", "rung_1", "rung_2", "first_contact"),
    *("step_set", "count_quarter", "done", "all_placed", "some_left", "left_counted", "why_1", "undo"),
}
LOOK_EVERY = 500  # touches
DRAWN_EVERY = 10
WAITS_S = (1.0, 30.0, 240.0, 3600.0, 20 * 3600.0, 30 * 86_400.0)
WAIT_ODDS = (30, 20, 10, 4, 3, 1)


@dataclass
class Seen:
    """What came of it. wrong: what must not be, in words."""

    touches: int = 0
    screens: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


class Monkey:
    """Touch the app that plays; `rng` decides all."""

    def __init__(self, stage: Any, desk: Any, rng: random.Random) -> None:
        self.stage, self.desk, self.rng = stage, desk, rng

    def touch(self) -> str:
        """Do one thing, and return what it was."""
        ways = (self._target, self._work, self._anywhere, self._stroke, self._key, self._wait)
        ways += (self._turn, self._go)
        way = self.rng.choices(ways, weights=(45, 25, 5, 5, 12, 6, 1, 2))[0]
        return f"{self.desk.screen}: {way()}"

    def _targets(self) -> list[Any]:
        from bench.screens.parts.press import Pressable

        return [w for w in self.stage.widgets() if isinstance(w, Pressable)]

    def _target(self) -> str:
        return self._tap_one(self._targets())

    def _work(self) -> str:
        """Go on with the work where the screen has something for it, else anything."""
        found = self._targets()
        return self._tap_one([w for w in found if w.test_name in WORK and not w.disabled] or found)

    def _tap_one(self, found: list[Any]) -> str:
        if not found:
            return self._anywhere()
        target = self.rng.choice(found)
        self.stage.touch(*target.to_window(*target.center)).up()
        self.stage.run(0.35)
        return f"tap {target.test_name or type(target).__name__}"

    def _place(self) -> tuple[float, float]:
        width, height = self.stage.window.size
        return self.rng.uniform(0, width - 1), self.rng.uniform(0, height - 1)

    def _anywhere(self) -> str:
        at = self._place()
        self.stage.touch(*at).up()
        self.stage.run(0.2)
        return f"tap at {at[0]:.0f}, {at[1]:.0f}"

    def _stroke(self) -> str:
        self.stage.drag(self._place(), self._place(), steps=4)
        return "stroke"

    def _key(self) -> str:
        key = self.rng.choice(KEYS)
        self.stage.press(key)
        return f"key {key}"

    def _wait(self) -> str:
        wait_s = self.rng.choices(WAITS_S, weights=WAIT_ODDS)[0]
        if not self.desk.practice:  # the clock of practice runs by itself
            self.desk.job.clock.advance(wait_s)
        self.stage.run(1.0)
        return f"wait {wait_s:g} s"

    def _turn(self) -> str:
        size = self.rng.choice(list(SIZES))
        self.stage.resize(*map(int, size.split("x")), density=SIZES[size])
        return f"turn to {size}"

    def _go(self) -> str:
        place = self.rng.choice(PLACES)
        self.desk.go(place)
        self.stage.frame(2)
        return f"go to {place}"


class Passing(ExceptionHandler):
    """See every error that a callback of Kivy's clock ends in, before the app shows it and goes on.

    A Fault is meant to be shown. What fails may fail at every frame: it counts once.
    """

    def __init__(self, seen: Seen, trail: list[str]) -> None:
        super().__init__()
        self._seen, self._trail, self._known = seen, trail, set[str]()
        self.newest: BaseException | None = None

    def handle_exception(self, inst: BaseException) -> int:
        told = "".join(traceback.format_exception(inst))
        if isinstance(inst, Exception) and not isinstance(inst, Fault) and told not in self._known:
            self._known.add(told)
            self._seen.wrong.append(f"{told}after {' > '.join(self._trail[-12:])}")
        self.newest = inst
        return int(ExceptionManager.RAISE)  # leaves what becomes of it to the app


@contextmanager
def watched(passing: Passing) -> Iterator[None]:
    """Let errors be seen on their way."""
    ExceptionManager.add_handler(passing)
    try:
        yield
    finally:
        ExceptionManager.remove_handler(passing)


@contextmanager
def unseen(stage: Any) -> Iterator[None]:
    """Let frames go by without drawing them, which takes most of their time."""

    def leave_it(*_: object) -> bool:
        return True

    stage.window.bind(on_draw=leave_it, on_flip=leave_it)
    try:
        yield
    finally:
        stage.window.unbind(on_draw=leave_it, on_flip=leave_it)


def wrong_with_book(job: Job) -> list[str]:
    """Read the book anew and return in which way it is not what it should be."""
    wrong = []
    if Job(job.store, job.clock, job.panel_id).state != job.state:
        wrong.append("what the book folds to is not what is shown")
    held = Counter(t for s in job.state.sections.values() for t in s.tesserae)
    twice = [t for t, count in held.items() if count > 1]
    missing = set(range(job.panel.tessera_count)) - set(held)
    if twice or missing:
        wrong.append(f"in two sections: {twice[:5]}; in none: {sorted(missing)[:5]}")
    return wrong


def rest(stage: Any, desk: Any) -> None:
    """Wait for what is worked out aside."""
    until = time.monotonic() + 60
    while desk.dividing and time.monotonic() < until:
        time.sleep(0.005)
        stage.frame()


def let_loose(stage: Any, home: Path, *, touches: int, seed: int, told: Any = None) -> Seen:
    """Play so many touches on a fresh book, and look at the book now and then."""
    from bench.app import bench_app
    from bench.screens.theme import theme

    seen, rng = Seen(), random.Random(seed)
    trail: list[str] = []
    passing = Passing(seen, trail)
    with Store.open(home / "monkey") as store:
        job = open_panel(store, FakeClock(), grid_svg(12, 8), "grid.svg", bench=BENCH)
        with watched(passing), stage.play(bench_app(job)) as app:
            desk = app.desk
            monkey = Monkey(stage, desk, rng)
            try:
                for k in range(touches):
                    with unseen(stage):
                        trail.append(monkey.touch())
                        rest(stage, desk)
                    if k % DRAWN_EVERY == 0:
                        stage.frame()
                    seen.touches, seen.screens[desk.screen] = k + 1, seen.screens[desk.screen] + 1
                    if (k + 1) % LOOK_EVERY == 0 or k + 1 == touches:
                        seen.wrong += wrong_with_book(desk.job)
                        if told is not None:
                            acts = len(desk.job.state.act_ids)
                            told(f"{k + 1} touches, {acts} acts, {len(seen.wrong)} wrong")
            except Exception as fallen:  # whatever falls is what is looked for
                if told is None:
                    raise AssertionError(" > ".join(trail[-12:])) from fallen
                if fallen is not passing.newest:
                    seen.wrong.append(f"{traceback.format_exc()}after {' > '.join(trail[-12:])}")
    theme.look, theme.text_scale, theme.left_handed, theme.still = "light", 1.0, False, False
    return seen


def main(argv: list[str]) -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.campaigns.monkey")
    parser.add_argument("--touches", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args(argv)
    stage = offscreen.Stage()
    with tempfile.TemporaryDirectory() as folder, a_home(Path(folder)) as home:
        seen = let_loose(
            stage, home, touches=asked.touches, seed=asked.seed, told=lambda line: print(line, flush=True)
        )
    print(f"{seen.touches} touches, seed {asked.seed}: {len(seen.wrong)} wrong; {dict(seen.screens)}")
    print("\n".join(seen.wrong))
    return 1 if seen.wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

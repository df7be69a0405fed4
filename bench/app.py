"""The app: opens the book, puts the screens on the window, and lets the clock tick."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bench.book import Clock as BenchClock
from bench.book import Device, Store, SystemClock, data_folder, open_book
from bench.fault import Fault
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.settings import FIRST_RUN, LAST_PANEL, OF_DRAWING, OWED
from bench.resources import resource
from bench.speech import say

if TYPE_CHECKING:
    from bench.job.practice import PlayingHand

AFTER_FIRST_FRAME_S = 0.3


def run_app(drawing: Path | None = None) -> int:
    """Open the app on a drawing, else on the last panel, else on the demo. Faults go to the caller.

    What is to be told of how the book was opened is told on screen and on the standard error.
    """
    gc.disable()  # what a start makes stays: to look through it for refuse costs a tenth of the start
    opened = open_book(data_folder(), SystemClock())
    for fault in opened.told:
        print(f"potwatch: {fault}", file=sys.stderr)
    with opened.store as store:
        first = not store.panels()
        job = job_to_open(store, SystemClock(), drawing)
        if not store.read_only:
            if first:
                store.set_setting(FIRST_RUN, OWED if drawing is None else OF_DRAWING)
            store.set_setting(LAST_PANEL, str(job.panel_id))
        bench_app(job, device=Device(data_folder()), told=opened.told).run()
    return 0


def run_practice(data: bytes, name: str, *, factor: float, seed: int) -> int:
    """Practise on screen: the same screens on a book in memory and a fast clock."""
    from bench.job.practice import FastClock, PlayingHand, practice_job

    job = practice_job(data, name, FastClock(SystemClock(), factor))
    bench_app(job, practice=True, hand=PlayingHand(seed)).run()
    return 0


def job_to_open(store: Store, clock: BenchClock, drawing: Path | None) -> Job:
    """Return the panel to work on.

    A drawing that the book has, revised ones too, goes back to its newest panel, so that opening it again
    after a fall of the app finds the countdown; another becomes a new panel, unless a mix runs on the last
    one: WrongOrder.
    """
    panels = store.panels()
    last = next((p for p in panels if str(p.panel_id) == store.setting(LAST_PANEL)), None)
    if drawing is None and last is not None:
        return Job(store, clock, last.panel_id)
    from bench.job.acts.opening import open_panel  # reading a drawing costs a start on the last panel nothing

    if drawing is not None:
        import hashlib

        from bench.drawing.load import load_drawing
        from bench.job.drawings import panels_of_drawing

        data, panel = load_drawing(drawing)
        sha256 = hashlib.sha256(data).hexdigest()
        same = panels_of_drawing(store, sha256)
        found = last if last in same else (same[-1] if same else None)
        if last is not None and found != last and Job(store, clock, last.panel_id).state.running_mixes:
            what = say("a mix runs on {panel}", panel=last.name)
            raise WrongOrder(what, say("open it without a drawing, close its glue-up"))
        if found is not None:
            if not store.read_only:
                store.put_blob(data, "image/svg+xml")  # whole again, should it have been lost
            return Job(store, clock, found.panel_id)
        return open_panel(store, clock, data, drawing.name, panel=panel)
    demo = resource("assets", "demo", "lemons.svg")
    return open_panel(store, clock, demo.read_bytes(), demo.name, name=say("Bowl of lemons"))


def bench_app(
    job: Job,
    *,
    practice: bool = False,
    device: Device | None = None,
    hand: PlayingHand | None = None,
    told: Sequence[Fault] = (),
) -> Any:
    """Return the Kivy app for a job. Kivy is imported here and no earlier. told: what comes first."""
    os.environ.setdefault("KIVY_NO_ARGS", "1")
    return _app_class()(job, practice=practice, device=device, hand=hand, news=list(told))


@cache
def _app_class() -> Any:
    """Define the app, once: Kivy keeps every class it has seen, and all that a class closes over."""
    from bench.screens.base_looks import use_base_looks

    use_base_looks()
    from kivy.app import App
    from kivy.base import ExceptionManager
    from kivy.clock import Clock

    from bench.screens.desk import TICK_S, Desk
    from bench.screens.goes_on import GoesOn
    from bench.screens.load import load, load_first
    from bench.screens.sweeping import Sweeper

    class BenchApp(App):
        """Potwatch on the window."""

        title = "Potwatch"

        def __init__(self, job: Job, *, practice: bool, **kept: Any) -> None:
            super().__init__(icon=str(resource("assets", "icons", "potwatch.png")))
            self._job, self._practice, self._kept = job, practice, kept
            self._sweeper = Sweeper()

        def build(self) -> Any:
            load_first()
            Clock.schedule_once(self._settle, AFTER_FIRST_FRAME_S)
            from bench.screens.house import House

            self.desk = Desk(self._job, practice=self._practice, **self._kept)
            self.desk.open_where_it_was()
            Clock.schedule_interval(self.desk.tick, TICK_S)
            self._goes_on = GoesOn(self.desk)
            ExceptionManager.add_handler(self._goes_on)
            return House(desk=self.desk)

        def open_settings(self, *_: object) -> bool:
            """Kivy would open a panel of its own on F1, over whatever is shown; a pedal may send that key."""
            return False

        def _settle(self, _dt: float) -> None:
            load()
            if not gc.isenabled():  # what a start made stays; what was there before may go
                gc.freeze()
            self._sweeper.begin()

        def on_pause(self) -> bool:
            self.desk.remark()
            return True

        def on_resume(self) -> None:
            self.desk.version += 1

        def on_stop(self) -> None:
            self.desk.remark()
            self._sweeper.end()
            ExceptionManager.remove_handler(self._goes_on)
            from bench.screens import flash

            flash.end()

    return BenchApp

"""Long work beside the screens: on a thread of its own, with how far it is, and a way to end it."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from kivy.clock import Clock
from kivy.event import EventDispatcher
from kivy.properties import NumericProperty, StringProperty

from bench.fault import Fault

Progress = Callable[[float], bool]  # told the share that is done; False: nobody waits any more


class Aside(EventDispatcher):
    """Do one thing at a time. busy: what, "" for nothing; share: how much of it is done, 0 to 1.

    What begins takes the place of what ran before, whose result is dropped.
    """

    busy = StringProperty("")
    share = NumericProperty(0.0)

    def __init__(self, **kwargs: Any) -> None:
        self._run = 0
        super().__init__(**kwargs)

    def begin(
        self,
        words: str,
        work: Callable[[Progress], Any],
        use: Callable[[Any], object],
        told: Callable[[Fault], object],
    ) -> None:
        """Work on a thread; hand its result to `use`, or its fault to `told`, between two frames.

        work: given a function to tell the share that is done, which answers whether to go on.
        """
        self.drop()
        run, self.busy = self._run, words

        def progress(share: float) -> bool:
            Clock.schedule_once(lambda _dt: self._follow(run, share))
            return run == self._run

        def do() -> None:
            try:
                result = work(progress)
            except Fault as fault:
                answer, given = told, fault
            except BaseException:
                Clock.schedule_once(lambda _dt: self._end(run))
                raise
            else:
                answer, given = use, result
            Clock.schedule_once(lambda _dt: self._end(run) and answer(given))

        threading.Thread(target=do, name="aside", daemon=True).start()

    def drop(self) -> None:
        """Have done with what runs, if anything does."""
        self._run += 1
        self.busy, self.share = "", 0.0

    def _follow(self, run: int, share: float) -> None:
        if run == self._run and self.busy:
            self.share = min(max(share, self.share), 1.0)

    def _end(self, run: int) -> bool:
        """Say that it is done, and whether anyone still waits for it."""
        if run != self._run:
            return False
        self.drop()
        return True

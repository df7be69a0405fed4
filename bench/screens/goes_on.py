"""The app goes on: an error in one act must not take the countdown off the screen."""

from __future__ import annotations

import traceback
from typing import Any

from kivy.base import ExceptionHandler, ExceptionManager
from kivy.logger import Logger

from bench.fault import Fault
from bench.speech import say


class WentWrong(Fault):
    """Tell that Potwatch itself made a mistake while a mix runs."""

    def __init__(self, error: Exception) -> None:
        kind = type(error).__name__
        super().__init__(
            say("something went wrong in Potwatch ({error}); the countdown goes on", error=kind),
            todo=say("go on, and start Potwatch again when the section is set"),
        )


class GoesOn(ExceptionHandler):
    """Show a fault that no screen caught as a card, and any other error too while a mix runs.

    Without a running mix such an error ends the app, as it must to be seen. Its traceback is logged, each
    once: what fails may fail at every frame.
    """

    def __init__(self, desk: Any) -> None:
        super().__init__()
        self._desk = desk
        self._logged: set[str] = set()

    def handle_exception(self, inst: BaseException) -> int:
        if not isinstance(inst, Exception):
            return int(ExceptionManager.RAISE)
        if not isinstance(inst, Fault) and not self._desk.job.state.running_mixes:
            return int(ExceptionManager.RAISE)
        told = "".join(traceback.format_exception(inst))
        if told not in self._logged:
            self._logged.add(told)
            Logger.error("Potwatch: %s", told)
        self._desk.tell(inst if isinstance(inst, Fault) else WentWrong(inst))
        return int(ExceptionManager.PASS)

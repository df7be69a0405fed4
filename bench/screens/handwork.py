"""Shape a drawn section by hand, beside the panel's picture: try, see what it comes to, keep it or not."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from bench.fault import Fault
from bench.job.acts import shaping
from bench.job.acts.shaping import Shaped
from bench.job.ground import section_numbers
from bench.job.job import Job
from bench.screens.parts.acts import SideAct
from bench.screens.widgets import Rows
from bench.speech import say, unbroken


def how_to(way: str) -> str:
    """Say what a finger does to shape a section this way; "" for before one is chosen."""
    words = {
        "": say("Join it with a neighbour, split it, or stroke pieces into it."),
        "join": say("Tap the section to join it with."),
        "split": say("Draw a line right across it."),
        "move": say("Stroke over pieces beside it; they come over."),
    }
    return words[way]


class WayAct(SideAct):
    """One way of shaping; the one that is on is inverted."""

    way = StringProperty("")
    current = StringProperty("")


class HandPart(Rows):
    """The side's part: ways to shape, what the change comes to, and the act that keeps it.

    `touched` are the pieces stroked so far; a change that breaks a rule is said here and cannot be kept.
    """

    head = StringProperty("")
    says = StringProperty("")
    way = OptionProperty("", options=("", "join", "split", "move"))
    can_keep = BooleanProperty(False)
    __events__ = ("on_way_turned", "on_tried", "on_keep", "on_close")

    def __init__(self, **kwargs: Any) -> None:
        self.number = 0
        self.job: Job | None = None
        self.pending: Shaped | None = None
        self._touched: dict[int, None] = {}
        super().__init__(**kwargs)

    def begin(self, job: Job, number: int) -> None:
        """Start on a section, with nothing tried."""
        self.job, self.number = job, number
        self.head = say("{section} by hand", section=unbroken(say("Section {section}", section=number)))
        self.turn("")

    def turn(self, way: str) -> None:
        """Choose a way; what was tried before is dropped."""
        self.way = way
        self._touched.clear()
        self._drop()
        self.says = how_to(way)
        self.dispatch("on_way_turned")

    def tapped(self, number: int) -> None:
        """Take a tap on a section: the one to join with."""
        if self.way == "join" and number:
            self._try(lambda job: shaping.try_join(job, self.number, number))

    def stroked(self, points_mm: list[tuple[float, float]], tesserae: list[int]) -> None:
        """Take a stroke: where to split, or the pieces to bring over, added to those stroked before."""
        if self.way == "split":
            self._try(lambda job: shaping.try_split(job, self.number, points_mm))
        elif self.way == "move":
            self._touched.update(dict.fromkeys(tesserae))
            self._try(lambda job: shaping.try_move(job, list(self._touched), self.number))

    def numbers(self) -> np.ndarray:
        """Return each tessera's section with the change that is being tried."""
        assert self.job is not None
        numbers = section_numbers(self.job)
        for promise in self.pending.promises if self.pending else ():
            numbers[list(promise.tesserae)] = promise.number
        return numbers

    def _try(self, change: Callable[[Job], Shaped]) -> None:
        assert self.job is not None
        self._drop()
        try:
            self.pending = change(self.job)
        except Fault as fault:
            self.says = fault.sentence
        else:
            self.says = _told(self.pending)
        self.can_keep = self.pending is not None
        self.dispatch("on_tried")

    def _drop(self) -> None:
        self.pending, self.can_keep = None, False

    def on_way_turned(self) -> None:
        """Bound by the screen."""

    def on_tried(self) -> None:
        """Bound by the screen."""

    def on_keep(self) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""


def _told(shaped: Shaped) -> str:
    """Say in figures what a change comes to, a line a section."""
    return "\n".join(
        say(
            "{section}: {count} pieces, {expected:.0f} of {capacity:.0f} min, sure of {in_time} in 100",
            section=p.number,
            count=len(p.tesserae),
            expected=p.expected_s / 60,
            capacity=p.capacity_s / 60,
            in_time=min(99, round(100 * p.in_time)),
        )
        for p in shaped.promises
    )

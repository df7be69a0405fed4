"""Shape a drawn section by hand, beside the panel's picture: try, see what it comes to, keep it or not."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from bench.fault import Fault
from bench.job.acts import shaping
from bench.job.acts.shaping import Shaped
from bench.job.faults import WrongOrder
from bench.job.ground import section_numbers
from bench.job.job import Job
from bench.job.planning import Bounds
from bench.screens.parts.acts import SideAct
from bench.screens.widgets import Rows
from bench.sections.faults import StrokeDividesNothing
from bench.speech import say, say_n

Point = tuple[float, float]
Under = Callable[[list[Point]], list[int]]  # the tesserae under points, in mm


def how_to(way: str) -> str:
    """Say what a finger does to shape a section this way; "" for before one is chosen."""
    words = {
        "": say("Join it with a neighbour, split it, or stroke pieces into it."),
        "join": say("Tap the section to join it with."),
        "split": say("Draw a line right across it."),
        "move": say("Stroke over or tap pieces beside it; they come over."),
    }
    return words[way]


class WayAct(SideAct):
    """One way of shaping; the one that is on is inverted."""

    way = StringProperty("")
    current = StringProperty("")


class HandPart(Rows):
    """The side's part: ways to shape, what the change comes to, and the act that keeps it.

    Its head are the section's own figures, as it is now. What a stroke comes to follows the finger while it
    draws; a change that breaks a rule is said here and cannot be kept.
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
        self._bounds: Bounds | None = None
        self._touched: dict[int, None] = {}
        self._passed: dict[int, None] = {}  # pieces under the stroke that is being drawn
        self._followed = 0  # its points looked at so far
        self._said = ""  # what stands here while no finger draws
        super().__init__(**kwargs)

    def begin(self, job: Job, number: int) -> None:
        """Start on a section, with nothing tried."""
        self.job, self.number, self._bounds = job, number, None
        self.head = self._own()
        self.turn("")

    def turn(self, way: str) -> None:
        """Choose a way; what was tried before is dropped."""
        self.way = way
        self._touched.clear()
        self.pending, self.can_keep = None, False
        self._say(how_to(way))
        self.dispatch("on_way_turned")

    def tapped(self, number: int, tessera: int) -> None:
        """Take a tap: the section to join with, or a piece to bring over."""
        if self.way == "join" and number:
            self._try(lambda job, bounds: shaping.try_join(job, self.number, number, bounds))
        elif self.way == "move":
            self._bring([tessera])

    def stroked(self, points_mm: list[Point], under: Under) -> None:
        """Take a stroke: where to split, or the pieces to bring over, added to those stroked before."""
        if self.way == "move":
            self._bring(under(points_mm))
        elif self.way == "split":
            self._try(lambda job, bounds: shaping.try_split(job, self.number, points_mm, bounds))

    def stroking(self, points_mm: list[Point], under: Under) -> None:
        """Say what the stroke under the finger would come to by now; without points it was taken back."""
        if len(points_mm) < self._followed:
            self._followed = 0
            self._passed.clear()
        if not points_mm:
            self.says = self._said
            return
        try:
            shaped = self._so_far(points_mm, under)
        except (StrokeDividesNothing, WrongOrder):  # not yet: the finger is under way
            self.says = how_to(self.way)
        except Fault as fault:
            self.says = fault.sentence
        else:
            self.says = _told(shaped)

    def _so_far(self, points_mm: list[Point], under: Under) -> Shaped:
        """Try what is stroked so far; only what is new of it is looked up."""
        if self.way == "split":
            return shaping.try_split(self._job, self.number, points_mm, self._measures())
        self._passed.update(dict.fromkeys(under(points_mm[max(0, self._followed - 1) :])))
        self._followed = len(points_mm)
        return shaping.try_move(self._job, [*self._touched, *self._passed], self.number, self._measures())

    def _bring(self, tesserae: list[int]) -> None:
        self._touched.update(dict.fromkeys(tesserae))
        self._try(lambda job, bounds: shaping.try_move(job, list(self._touched), self.number, bounds))

    @property
    def shaped_number(self) -> int:
        """The number that the section has with the change that is being tried."""
        gone = self.pending is not None and self.number in self.pending.gone
        return self.pending.promises[0].number if self.pending and gone else self.number

    def numbers(self) -> np.ndarray:
        """Return each tessera's section with the change that is being tried."""
        numbers = section_numbers(self._job)
        for promise in self.pending.promises if self.pending else ():
            numbers[list(promise.tesserae)] = promise.number
        return numbers

    def _try(self, change: Callable[[Job, Bounds], Shaped]) -> None:
        self.pending, self._followed = None, 0
        self._passed.clear()
        try:
            self.pending = change(self._job, self._measures())
        except Fault as fault:
            self._say(fault.sentence)
        else:
            self._say(_told(self.pending))
        self.can_keep = self.pending is not None
        self.dispatch("on_tried")

    @property
    def _job(self) -> Job:
        assert self.job is not None
        return self.job

    def _measures(self) -> Bounds:
        """Return what all tries are measured with until the book moves on."""
        if self._bounds is None:
            self._bounds = shaping.bounds_now(self._job)
        return self._bounds

    def _own(self) -> str:
        """Say the section's own figures, as it is now."""
        section = self._job.section(self.number)
        return say_n(
            "{section}: {count} piece, {expected:.0f} of {capacity:.0f} min",
            "{section}: {count} pieces, {expected:.0f} of {capacity:.0f} min",
            len(section.tesserae),
            section=section.number,
            expected=section.expected_s / 60,
            capacity=section.capacity_s / 60,
        )

    def _say(self, words: str) -> None:
        self.says = self._said = words

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

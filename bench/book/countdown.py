"""Count an adhesive's time so that it survives a kill, sleep, a restart and a changed clock.

A mark notes how much time was spent and both clocks at that instant. Reading it later adds what the
clocks say has passed since; the same boot is counted by the boot clock alone, so setting the wall clock
does nothing. After a restart only the wall clock is left, which anybody may have set: the reading is
then unsure, and stays so. An unsure reading is taken the safe way both times: no time is left to work,
and only what passed for certain has cured. Frame times are never added up, and pausing the hands does
not stop the adhesive.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from datetime import datetime

from bench.book.clock import Clock
from bench.fault import Fault
from bench.speech import say

MARK_EVERY_S = 15.0


class ContactInFuture(Fault):
    """First contact was given a time that has not come yet."""

    def __init__(self, since_s: float) -> None:
        self.since_s = since_s
        super().__init__(
            say("first contact cannot lie {seconds:g} s in the future", seconds=-since_s),
            where=say("first contact"),
            todo=say("give the time since resin met hardener, 0 or more"),
        )


class NoSuchTime(Fault):
    """A length of time is no finite number of seconds, or is below zero."""

    def __init__(self, value_s: float, where: str) -> None:
        self.value_s = value_s
        super().__init__(
            say("{seconds:g} s is no length of time", seconds=value_s),
            where=where,
            todo=say("give 0 s or more"),
        )


@dataclass(frozen=True, slots=True)
class Mark:
    """Where a countdown stood at one instant.

    total_s: the time it counts down from. [s]
    spent_s: the time spent at that instant; at least this much once unsure. [s]
    wall_utc, boot_s, boot_id: the clocks at that instant; None where the machine has no such clock.
    running: False once the countdown was stopped for good.
    unsure: True once any stretch had to be counted by a wall clock that could have been set.
    surely_s: the time that passed for certain up to that instant, whoever set the clock. [s]
    """

    total_s: float
    spent_s: float
    wall_utc: datetime
    boot_s: float | None
    boot_id: str | None
    running: bool = True
    unsure: bool = False
    surely_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Reading:
    """What a countdown says now. left_s is never below zero; spent_s goes on past the total. [s]

    surely_s: the time that passed for certain: all of it, unless unsure. [s]
    cured: the whole time has passed for certain, whatever became of the clock.
    """

    spent_s: float
    left_s: float
    unsure: bool
    surely_s: float = field(default=0.0, compare=False)
    cured: bool = field(default=False, compare=False)

    @property
    def left_to_work_s(self) -> float:
        """Return the time a person may count on; 0 when unsure. [s]"""
        return 0.0 if self.unsure else self.left_s


def start(total_s: float, clock: Clock, since_s: float = 0.0) -> Mark:
    """Return the mark of a countdown that began `since_s` ago. [s]

    Raises ContactInFuture where `since_s` is below zero, NoSuchTime where a time is no finite number.
    """
    if not math.isfinite(total_s) or total_s < 0:
        raise NoSuchTime(total_s, say("countdown"))
    if since_s < 0:
        raise ContactInFuture(since_s)
    if not math.isfinite(since_s):
        raise NoSuchTime(since_s, say("first contact"))
    since_s = float(since_s)
    return Mark(
        float(total_s), since_s, clock.utc(), clock.boot_s(), clock.boot_id(), surely_s=since_s
    )


def read(mark: Mark, clock: Clock) -> Reading:
    """Return what is spent and left now; a stopped countdown stands where it was stopped."""
    spent_s, surely_s, unsure = mark.spent_s, mark.surely_s, mark.unsure
    if mark.running:
        passed_s, certain_s, by_wall = _passed(mark, clock)
        spent_s, surely_s, unsure = spent_s + passed_s, surely_s + certain_s, unsure or by_wall
    left_s = max(0.0, mark.total_s - spent_s)
    return Reading(spent_s, left_s, unsure, surely_s, cured=surely_s >= mark.total_s)


def mark(old: Mark, clock: Clock) -> Mark:
    """Return the countdown noted anew at this instant, so that little hangs on the wall clock later."""
    if not old.running:
        return old
    wall_utc, boot_s, boot_id = clock.utc(), clock.boot_s(), clock.boot_id()
    now = read(old, _Instant(wall_utc, boot_s, boot_id))
    return replace(
        old,
        spent_s=now.spent_s,
        wall_utc=wall_utc,
        boot_s=boot_s,
        boot_id=boot_id,
        unsure=now.unsure,
        surely_s=now.surely_s,
    )


def begun_earlier(old: Mark, clock: Clock, by_s: float) -> Mark:
    """Return the countdown as if it had begun so much earlier; what was unsure stays so. [s]

    Raises ContactInFuture for a time below zero, which would give back time that is lost.
    """
    if by_s < 0:
        raise ContactInFuture(by_s)
    now = mark(old, clock)
    return replace(now, spent_s=now.spent_s + by_s, surely_s=now.surely_s + by_s)


def stop(old: Mark, clock: Clock) -> Mark:
    """Return the countdown stopped for good at this instant."""
    return replace(mark(old, clock), running=False)


@dataclass(frozen=True, slots=True)
class _Instant:
    """A clock that stands still, so that a mark and its reading are of the same instant."""

    wall_utc: datetime
    boot: float | None
    boot_text: str | None

    def utc(self) -> datetime:
        return self.wall_utc

    def boot_s(self) -> float | None:
        return self.boot

    def boot_id(self) -> str | None:
        return self.boot_text


def _passed(mark: Mark, clock: Clock) -> tuple[float, float, bool]:
    """Return the time since the mark, what of it is certain, and whether the wall clock had to tell. [s]"""
    boot_s, boot_id = clock.boot_s(), clock.boot_id()
    ids_known = mark.boot_id is not None and boot_id is not None
    counted_s = None if boot_s is None or mark.boot_s is None else boot_s - mark.boot_s
    if ids_known and boot_id == mark.boot_id and counted_s is not None and counted_s >= 0:
        return counted_s, counted_s, False
    surely_s = 0.0
    if boot_s is not None and ((ids_known and boot_id != mark.boot_id) or (counted_s or 0.0) < 0):
        surely_s = boot_s  # started again since: at least the time the machine has been up
    elif counted_s is not None:
        surely_s = counted_s  # perhaps the same boot: at least what its clock counted
    return max((clock.utc() - mark.wall_utc).total_seconds(), surely_s, 0.0), surely_s, True

"""What is kept while time passes: the marks of running countdowns, and the backup of the day."""

from __future__ import annotations

from datetime import date
from typing import Any

from bench.book import MARK_EVERY_S, back_up
from bench.fault import Fault


class Keeping:
    """Keep the book of a desk from tick to tick; where it is only read, follow the other program instead."""

    def __init__(self, desk: Any) -> None:
        self._desk = desk
        self._marked_s = 0.0
        self._backed_up: date | None = None

    def tick(self) -> None:
        """Follow the other program; or each quarter of a minute note every running countdown down, and see
        whether the backup of the day is made.
        """
        desk = self._desk
        if desk.job.store.read_only:
            self._follow()
        elif desk.now_s - self._marked_s >= MARK_EVERY_S:
            self.remark()
            self._back_up()

    def _follow(self) -> None:
        try:
            if self._desk.job.follow():
                self._desk.version += 1
        except Fault as fault:
            self._desk.tell(fault)

    def remark(self) -> None:
        """Note every running countdown down."""
        desk = self._desk
        self._marked_s = desk.now_s
        if desk.job.store.read_only:
            return
        try:
            desk.job.remark()
        except Fault as fault:
            desk.tell(fault)

    def _back_up(self) -> None:
        """Try it once a day, and not while somebody has pieces in a bed."""
        desk = self._desk
        today = desk.job.clock.utc().astimezone().date()
        if self._backed_up != today and not desk.job.state.running_mixes:
            self._backed_up = today
            desk.news = [*desk.news, *back_up(desk.job.store, desk.job.clock)]

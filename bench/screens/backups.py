"""Backups: the copies of the book, what each holds, and the way back to one."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from bench.book import Copy, held_in
from bench.job.acts.backups import copies_of
from bench.job.backup_words import copy_lines, held_words, moment_words
from bench.job.job import Job
from bench.screens.parts.listing import Offer
from bench.screens.parts.plates import Rows
from bench.screens.stack import stack
from bench.speech import say


class BackupsPart(Rows):
    """A list of copies; a tap opens one, and only there it can be put back. Nothing is ever lost by that."""

    head = StringProperty("")
    lines = StringProperty("")
    can_put_back = BooleanProperty(False)
    __events__ = ("on_put_back", "on_close")

    def on_kv_post(self, _base: Any) -> None:
        self._parts = {name: self.ids[name].__self__ for name in ("listed", "copy", "put", "leave", "none")}
        self._chosen: Copy | None = None

    def show(self, job: Job) -> None:
        """List the copies of a job's book."""
        self._job, self._chosen = job, None
        found = copies_of(job)
        self._parts["listed"].offer([self._offer(copy) for copy in found])
        self._lay("listed" if found else "none")

    def _offer(self, copy: Copy) -> Offer:
        moment = moment_words(copy.at_utc)
        text = moment if copy.is_backup else say("{moment}, set aside", moment=moment)
        return Offer(text, held_words(held_in(copy)), f"copy_{copy.number}", lambda: self._open(copy))

    def _open(self, copy: Copy) -> None:
        self._chosen, held = copy, held_in(copy)
        self.head, self.lines = moment_words(copy.at_utc), "\n".join(copy_lines(copy, held))
        self.can_put_back = held.fault is None
        self._lay("copy")

    def _lay(self, name: str) -> None:
        acts = {"copy": ["put"] if self.can_put_back else []}.get(name, [])
        stack(self, [self._parts[part] for part in (name, *acts, "leave")])

    def put_back(self) -> None:
        """Put the copy that is open in the place of the book."""
        if self._chosen is not None:
            self.dispatch("on_put_back", self._chosen)

    def leave(self) -> None:
        """Go back to the list, or from the list to the entries."""
        if self._chosen is not None:
            self.show(self._job)
        else:
            self.dispatch("on_close")

    def on_put_back(self, copy: Copy) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""

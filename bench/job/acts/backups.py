"""Put a copy of the book in its place; the present one is kept, and can be put back the same way."""

from __future__ import annotations

from datetime import datetime

from bench.book import Copy, copies, held_in
from bench.fault import Fault
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.speech import moment, say


class NoSuchCopy(Fault):
    def __init__(self, number: int, known: tuple[int, ...]) -> None:
        self.number, self.known = number, known
        listed = ", ".join(map(str, known)) or say("none yet")
        super().__init__(
            say("there is no copy {number} of the book", number=number),
            todo=say("choose one of these: {listed}", listed=listed),
        )


class CopyWithoutPanel(Fault):
    def __init__(self, number: int) -> None:
        self.number = number
        super().__init__(
            say("copy {number} of the book holds no panel", number=number), todo=say("choose another copy")
        )


class PutBack(Fault):
    """A copy was put in the place of the book; told with the copy that undoes it."""

    def __init__(self, at: datetime, aside: int) -> None:
        self.at, self.aside = at, aside
        super().__init__(
            say("the book is as it was on {moment}", moment=moment(at)),
            todo=say(
                "to undo this, put copy {number} back: it is the book as it was until now; countdowns that "
                "ran in it are not trusted any more",
                number=aside,
            ),
        )


def copies_of(job: Job) -> list[Copy]:
    """Return the copies of the job's book, the newest first; a book in memory has none."""
    return [] if job.store.folder is None else copies(job.store.folder)


def put_back(job: Job, copy: Copy) -> tuple[Job, PutBack]:
    """Put a copy in the place of the book; return the job on the same panel, else on the newest, and what
    to tell. Refused while a mix runs: the copy knows nothing of its first contact.
    """
    if job.state.running_mixes:
        raise WrongOrder(say("a mix runs on this panel"), say("close its glue-up, then put the copy back"))
    held = held_in(copy)
    if held.fault is not None:
        raise held.fault
    if not held.panels:
        raise CopyWithoutPanel(copy.number)
    aside = job.store.restore(copy, job.clock.utc())
    known = [panel.panel_id for panel in job.store.panels()]
    panel_id = job.panel_id if job.panel_id in known else known[-1]
    return Job(job.store, job.clock, panel_id), PutBack(copy.at_utc.astimezone(), aside.number)

"""Stop at every single write: `python -m tests.campaigns.writes --acts 60`.

A wrapper round the connection halts before and after each statement and each commit of a maker's walk, in
two ways. *Snapshot*: the files beside the book are copied as they are at that instant, which is what a
killed process leaves, since the system keeps what was written; each copy is then opened and compared with
what had been told. *Raise*: the statement raises instead, as a full memory would; the same process must
then hold what the book holds, and go on.
"""

from __future__ import annotations

import argparse
import random
import shutil
import sqlite3
import tempfile
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bench.book import Store, SystemClock
from bench.fault import Fault
from bench.job.fold import fold
from tests.campaigns.telling import Told, announced, check, state_digest, stepped, true_now
from tests.campaigns.walk import Walk


class WatchedConnection(sqlite3.Connection):
    """Call `at_instant` before and after each statement."""

    at_instant: Callable[[str, str], None] | None = None

    def execute(self, statement: str, *values: Any) -> sqlite3.Cursor:
        watch = type(self).at_instant
        if watch is not None:
            watch("before", statement)
        cursor = super().execute(statement, *values)
        if watch is not None:
            watch("after", statement)
        return cursor


class MemoryIsFull(BaseException):
    """Stands for whatever may end a statement and is no error of SQLite."""


@dataclass
class Figures:
    """What a campaign has seen."""

    instants: int = 0
    commits: int = 0
    acts: int = 0
    kept_untold: int = 0
    wrong: list[str] = field(default_factory=list)

    def lines(self, how: str) -> list[str]:
        return [
            f"{how}: {self.acts} acts, {self.instants} instants, {self.commits} of them round a commit; "
            f"{self.kept_untold} acts kept though nobody was told yet; wrong: {len(self.wrong)}",
            *sorted(set(self.wrong)),
        ]


def snapshots(folder: Path, acts: int, seed: int) -> Figures:
    """Copy the book at every instant of a walk, and check each copy against what had been told by then."""
    figures, told, book = Figures(), Told(), folder / "book"

    def look(when: str, statement: str) -> None:
        writes = not statement.lstrip().upper().startswith(("SELECT", "PRAGMA"))
        if not writes:
            return
        WatchedConnection.at_instant = None
        there = folder / "there"
        shutil.rmtree(there, ignore_errors=True)
        there.mkdir()
        for path in book.glob("potwatch.sqlite3*"):
            if not path.name.endswith("-shm"):  # the log's index: made anew by whoever opens the book first
                shutil.copy(path, there)
        found, _ = check(there, [], told)
        figures.instants += 1
        figures.commits += statement == "COMMIT"
        figures.kept_untold += found.kept_untold
        figures.wrong += [f"{when} {statement[:40]}: {what}" for what in found.wrong]
        WatchedConnection.at_instant = look

    with Store.open(book, factory=WatchedConnection) as store:
        WatchedConnection.at_instant = look
        try:
            _work(store, told, acts, seed)
        finally:
            WatchedConnection.at_instant = None
    figures.acts = len({act_id for act_id, _, _ in told.acts})
    return figures


def _work(store: Store, told: Told, acts: int, seed: int) -> None:
    import json

    def tell(said: dict[str, Any]) -> None:
        told.hear(json.dumps(said))

    with announced(store, tell):
        going = Walk(store, SystemClock(), random.Random(seed))
        tell(true_now(going))
        for _ in range(acts):
            tell({"stepped": stepped(going), **true_now(going)})


def raises(folder: Path, acts: int, seed: int) -> Figures:
    """Let every act fail at its first instant, then at its second, until it goes through; then the next."""
    figures = Figures()
    with Store.open(folder / "book", factory=WatchedConnection) as store:
        going = Walk(store, SystemClock(), random.Random(seed))
        for number in range(acts):
            for stop_at in range(10_000):
                if _tried(going, seed * 1000 + number, stop_at, figures):
                    break
        figures.acts = acts
    with Store.open(folder / "book") as store:
        fold(store.events(going.job.panel_id))
    return figures


def _tried(going: Walk, seed: int, stop_at: int, figures: Figures) -> bool:
    """Try an act that is to fail at one instant; return whether it came through before that."""
    going.rng = random.Random(seed)
    instants = 0

    def stop(when: str, statement: str) -> None:
        nonlocal instants
        if statement.lstrip().upper().startswith(("SELECT", "PRAGMA", "ROLLBACK")):
            return
        if instants == stop_at:
            figures.commits += statement == "COMMIT"
            WatchedConnection.at_instant = None
            raise MemoryIsFull
        instants += 1

    WatchedConnection.at_instant = stop
    try:
        with suppress(Fault):
            going.step()
        return True
    except MemoryIsFull:
        figures.instants += 1
        job = going.job
        if state_digest(fold(job.store.events(job.panel_id))) != state_digest(job.state):
            figures.wrong.append("the job holds something else than the book")
            job.refold()
        return False
    finally:
        WatchedConnection.at_instant = None


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--acts", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    begun, wrong = time.perf_counter(), 0
    for how, campaign in (("snapshot", snapshots), ("raise", raises)):
        with tempfile.TemporaryDirectory() as folder:
            figures = campaign(Path(folder), args.acts, args.seed)
        print("\n".join(figures.lines(how)))
        wrong += len(figures.wrong)
    print(f"took {time.perf_counter() - begun:.0f} s, seed {args.seed}")
    raise SystemExit(bool(wrong))


if __name__ == "__main__":
    main()

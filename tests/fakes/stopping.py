"""A connection that stops the whole process dead before or after a chosen statement."""

import json
import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from itertools import count
from pathlib import Path

ROOT = Path(__file__).parents[2]


def found_at_every_instant(writer: str, folder: Path) -> list[dict]:
    """Run a module that calls `stop_at_every_instant` in a process of its own; return what it found."""
    command = [sys.executable, "-m", writer, str(folder)]
    told = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=True).stdout
    return [json.loads(line) for line in told.splitlines()]


class StoppingConnection(sqlite3.Connection):
    """Count the instants before and after each statement; at number `stop_at` the process is no more.

    `os._exit` runs no clean-up: nothing is rolled back, closed or flushed, as with a kill.
    """

    stop_at = -1
    instants = 0

    def execute(self, *args):
        self._instant()
        cursor = super().execute(*args)
        self._instant()
        return cursor

    @classmethod
    def _instant(cls) -> None:
        if cls.instants == cls.stop_at:
            os._exit(9)
        cls.instants += 1


def stop_at_every_instant(
    folder: Path,
    begin: Callable[[Path], None],
    act: Callable[[Path, int, type[sqlite3.Connection]], None],
    found: Callable[[Path], dict],
) -> None:
    """Stop an act at its first instant, then at the second on another copy of the book, until none is left.

    begin: makes the book that is copied. act: writes `accepted` to the file given once it is done. found:
    what the book then holds, printed as a line of JSON each time.
    """
    begin(folder / "begun")
    for stop_at in count():
        here = Path(shutil.copytree(folder / "begun", folder / str(stop_at)))
        told, tell = os.pipe()
        child = os.fork()
        if child == 0:
            StoppingConnection.stop_at = stop_at
            act(here, tell, StoppingConnection)
            os._exit(0)
        os.close(tell)
        with os.fdopen(told) as lines:
            accepted = lines.read() == "accepted"
        stopped = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
        print(json.dumps({"accepted": accepted, "stopped": stopped, **found(here)}), flush=True)
        if not stopped:
            return

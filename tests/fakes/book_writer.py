"""A process that writes acts into a book and tells of each once it was acknowledged, until it is killed.

`python -m tests.fakes.book_writer FOLDER` writes without end and prints the number of each act.
`python -m tests.fakes.book_writer FOLDER every-instant` instead lets one forked child after the other
stop at each instant before and after a statement, and prints a line of JSON on what was found each time.
"""

import json
import os
import sqlite3
import sys
from itertools import count
from pathlib import Path

from bench.book.store import Store
from tests.fakes.books import MIX, act_of_three, acts_in, add_panel, mark_of, write_act
from tests.fakes.stopping import StoppingConnection

ACTS = 3


def write(folder: Path, told: int, acts: int | None = None, factory=sqlite3.Connection) -> None:
    """Go on with the book of a folder, and write a line to the file `told` for each act that is kept."""
    with Store.open(folder, factory=factory) as store:
        panels = store.panels()
        panel_id = panels[0].panel_id if panels else add_panel(store)
        begun = len(acts_in(store))
        for number in count(begun) if acts is None else range(begun, acts):
            write_act(store, panel_id, number)
            os.write(told, f"{number}\n".encode())


def found(folder: Path) -> dict:
    """Open a book again and tell what it holds: acts, whether each is whole, and the countdown."""
    with Store.open(folder) as store:
        acts = acts_in(store)
        marks = [store.countdown(panel.panel_id, MIX) for panel in store.panels()]
        expected_mark = [mark_of(len(acts) - 1) if acts else None for _ in marks]
        return {
            "acts": len(acts),
            "whole": acts == [act_of_three(number) for number in range(len(acts))],
            "mark stands": marks == expected_mark,
        }


def stop_at_every_instant(folder: Path) -> None:
    """Stop at the first instant of a fresh book, then at the second of another, until none is left."""
    for stop_at in count():
        here = folder / str(stop_at)
        told, tell = os.pipe()
        child = os.fork()
        if child == 0:
            StoppingConnection.stop_at = stop_at
            write(here, tell, ACTS, StoppingConnection)
            os._exit(0)
        os.close(tell)
        with os.fdopen(told) as lines:
            acknowledged = len(lines.readlines())
        stopped = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
        print(json.dumps({"acknowledged": acknowledged, "stopped": stopped, **found(here)}), flush=True)
        if not stopped:
            return


if __name__ == "__main__":
    if sys.argv[2:] == ["every-instant"]:
        stop_at_every_instant(Path(sys.argv[1]))
    else:
        write(Path(sys.argv[1]), sys.stdout.fileno())

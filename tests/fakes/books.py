"""Small books for tests: a panel of lemons, acts of three entries, and files looked at from outside."""

import hashlib
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bench.book import countdown, open_book
from bench.book.events import NoteWritten, PiecesCounted, StepBegun
from bench.book.files import BOOK_NAME
from bench.book.store import Store
from bench.book.told import Mended
from tests.fakes.clock import FakeClock

AT_UTC = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
DRAWING = b"<svg xmlns='http://www.w3.org/2000/svg'/>"
MIX = "1"


def add_panel(store: Store, name: str = "Lemons") -> int:
    """Add a panel whose drawing is kept, whole or not at all."""
    with store.together():
        return store.add_panel(name, store.put_blob(DRAWING, "image/svg+xml"), AT_UTC)


def act_of_three(number: int) -> list:
    """Return the entries of one act; what they hold tells which act it is."""
    return [
        PiecesCounted(mix=1, placed=number, at_s=float(number)),
        StepBegun(mix=1, step="set", at_s=float(number)),
        NoteWritten(text=f"act {number}"),
    ]


def mark_of(number: int) -> countdown.Mark:
    """Return the countdown's mark that goes with an act: one second spent for each act before it."""
    return countdown.start(1500.0, FakeClock(), since_s=float(number))


def write_act(store: Store, panel_id: int, number: int) -> None:
    """Append one act of three with its mark."""
    events = act_of_three(number)
    store.append(panel_id, events, at_utc=AT_UTC, act_id=f"act-{number}", marks=[(MIX, mark_of(number))])


def acts_in(store: Store) -> list[list]:
    """Return the events of each act, in the order of the book."""
    acts: dict[str, list] = {}
    for envelope in store.all_events():
        acts.setdefault(envelope.act_id, []).append(envelope.event)
    return list(acts.values())


def make_book(folder: Path, acts: int = 3) -> Path:
    """Write a closed book with one panel into a folder and return its file."""
    with Store.open(folder) as store:
        panel_id = add_panel(store)
        for number in range(acts):
            write_act(store, panel_id, number)
    return folder / BOOK_NAME


def from_outside(path: Path, *statements: str) -> list:
    """Run statements on a book as another program would, and return the rows of the last."""
    with closing(sqlite3.connect(path)) as connection, connection:
        rows = []
        for statement in statements:
            rows = connection.execute(statement).fetchall()
        return rows


def content_of(folder: Path) -> dict[str, str]:
    """Return the hash of each file in a folder but the lock, which holds nothing."""
    return {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.iterdir())
        if path.is_file() and path.name != "potwatch.lock"
    }


def mended(folder, clock):
    """Open a book that must be mended; return its store and what is told."""
    found = open_book(folder, clock)
    assert isinstance(found.told[0], Mended)
    return found.store, found.told[0]

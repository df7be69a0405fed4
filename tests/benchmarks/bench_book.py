"""Measure the book with 5,000 events: `python -m tests.benchmarks.bench_book`.

Peers in the same run: the same rows fetched by sqlite3 and parsed by the standard library's json, entry
by entry (reading), and the same rows written by bare sqlite3 with the same syncs (writing).
"""

import json
import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path
from statistics import median

from bench.book.events import PiecesCounted, Promise, SectionsDrawn
from bench.book.files import BOOK_NAME
from bench.book.store import Store
from tests.fakes.books import AT_UTC, act_of_three, add_panel, mark_of

ACTS = 1250
REPEATS = 7


def timed(work) -> float:
    """Return the median time of several runs. [s]"""
    times = []
    for _ in range(REPEATS):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return median(times)


def fill(folder: Path) -> None:
    """Write 1,250 acts of four events; every hundredth draws 60 sections of 2,000 tesserae anew."""
    promises = tuple(
        Promise(
            number=n + 1,
            adhesive="white-paste",
            tesserae=tuple(range(n * 33, n * 33 + 33)),
            expected_s=400.0,
            capacity_s=500.0,
            in_time=0.93,
        )
        for n in range(60)
    )
    with Store.open(folder) as store:
        panel_id = add_panel(store)
        for number in range(ACTS):
            last = SectionsDrawn(promises=promises, why="the pace was learned anew")
            if number % 100:
                last = PiecesCounted(mix=1, placed=number, at_s=1.0)
            events = [*act_of_three(number), last]
            store.append(panel_id, events, at_utc=AT_UTC, marks=[("1", mark_of(number))])


def read_with_json(path: Path) -> list:
    """Fetch and parse the rows with the standard library alone."""
    with closing(sqlite3.connect(path)) as connection:
        rows = connection.execute("SELECT seq, panel_id, act_id, at_utc, body FROM event ORDER BY seq")
        return [json.loads(row[4]) for row in rows]


def write_bare(folder: Path, rows: list) -> None:
    """Write the rows in as many transactions, four at a time, with nothing around."""
    with closing(sqlite3.connect(folder / "bare.sqlite3", isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("CREATE TABLE event (seq INTEGER PRIMARY KEY, panel_id, act_id, at_utc, body)")
        for first in range(0, len(rows), 4):
            connection.execute("BEGIN IMMEDIATE")
            for row in rows[first : first + 4]:
                connection.execute("INSERT INTO event VALUES (NULL, ?, ?, ?, ?)", row)
            connection.execute("COMMIT")


def main() -> None:
    """Print what reading and writing cost, and the ratios to the peers."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        begun = time.perf_counter()
        fill(folder)
        write_s = time.perf_counter() - begun
        with Store.open(folder, read_only=True) as store:
            count = len(store.events(1))
            read_s = timed(lambda: store.events(1))
        json_s = timed(lambda: read_with_json(folder / BOOK_NAME))
        with closing(sqlite3.connect(folder / BOOK_NAME)) as connection:
            rows = connection.execute(
                "SELECT panel_id, act_id, at_utc, body FROM event ORDER BY seq"
            ).fetchall()
        begun = time.perf_counter()
        write_bare(folder, rows)
        bare_s = time.perf_counter() - begun
    print(f"read {count} events: {1000 * read_s:.1f} ms, {read_s / json_s:.2f} x sqlite3 and json alone")
    print(f"write {ACTS} acts: {1000 * write_s / ACTS:.2f} ms an act, {write_s / bare_s:.2f} x bare sqlite3")


if __name__ == "__main__":
    main()

"""Write the samples of a book as its present version keeps it: `python -m tests.tools.write_book_sample`.

Run it once, when a version is first released, and never again for that version: the samples stand for the
books that people have. `--again` writes those of a version anew that nobody has a book of yet.
"""

import argparse
import json
import random
import sqlite3
import tempfile
from contextlib import closing, suppress
from pathlib import Path

from bench.book import Store
from bench.book.files import BOOK_NAME
from bench.book.schema import BOOK_ID, KNOWN_VERSION
from bench.fault import Fault
from tests.campaigns.walk import Walk
from tests.fakes.books import make_book
from tests.fakes.clock import FakeClock
from tests.fakes.event_shapes import event_shapes

SAMPLES = Path(__file__).parents[1] / "book" / "samples"
MOST_ACTS, AT_ONCE = 700, 10


def dump(book: Path, sample: Path) -> None:
    """Write a book as its own statements."""
    with closing(sqlite3.connect(book)) as connection:
        lines = [
            f"PRAGMA application_id = {BOOK_ID};",
            f"PRAGMA user_version = {KNOWN_VERSION};",
            *connection.iterdump(),
        ]
    sample.write_text("\n".join(lines) + "\n", encoding="utf-8")


def worked_book(folder: Path) -> Path:
    """Work panels by chance until one book holds an entry of every kind, and return it."""
    kinds = {name.split(",")[0] for name in event_shapes() if ", version " in name}
    for seed in range(40):
        clock = FakeClock()
        with Store.open(folder / str(seed), clock=clock) as store:
            going = Walk(store, clock, random.Random(seed), photo_bytes=10, onward=0.25)
            for act in range(MOST_ACTS):
                with suppress(Fault):
                    going.step()
                clock.advance(going.pause_s())
                if act % AT_ONCE:
                    continue
                if {entry.event.kind for entry in store.all_events()} >= kinds:
                    return folder / str(seed) / BOOK_NAME
    raise SystemExit("no walk writes every kind of entry: teach tests/campaigns/walk.py the new ones")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--again", action="store_true")
    again = parser.parse_args().again
    shapes = SAMPLES / f"events-version-{KNOWN_VERSION}.json"
    if shapes.exists() and not again:
        raise SystemExit(f"version {KNOWN_VERSION} has its samples; give bench/book/schema.py a new number")
    with tempfile.TemporaryDirectory() as folder:
        dump(make_book(Path(folder)), SAMPLES / f"book-version-{KNOWN_VERSION}.sql")
    with tempfile.TemporaryDirectory() as folder:
        dump(worked_book(Path(folder)), SAMPLES / f"worked-version-{KNOWN_VERSION}.sql")
    shapes.write_text(json.dumps(event_shapes(), indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

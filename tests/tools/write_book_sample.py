"""Write the sample of a book as its present version keeps it: `python -m tests.tools.write_book_sample`.

Run it once, when a version is first released, and never again for that version: the sample stands for
the books that people have.
"""

import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from bench.book.schema import BOOK_ID, KNOWN_VERSION
from tests.fakes.books import make_book

SAMPLES = Path(__file__).parents[1] / "book" / "samples"


def main() -> None:
    """Write tests/book/samples/book-version-N.sql, the book's own statements as text."""
    with tempfile.TemporaryDirectory() as folder, closing(sqlite3.connect(make_book(Path(folder)))) as book:
        lines = [
            f"PRAGMA application_id = {BOOK_ID};",
            f"PRAGMA user_version = {KNOWN_VERSION};",
            *book.iterdump(),
        ]
    (SAMPLES / f"book-version-{KNOWN_VERSION}.sql").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

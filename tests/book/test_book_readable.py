"""What of a damaged book can be read: every row once, whatever SQLite answers."""

from __future__ import annotations

import sqlite3
from itertools import islice

from bench.book.readable import MOST_MISSES, rows_of


class Answers:
    """A damaged table as SQLite tells of it: what it answers when asked for the row after a rowid.

    after: rowid asked after -> rowid of the answer; what is missing there raises, as a missing page does.
    """

    def __init__(self, after: dict[int, int | None]) -> None:
        self.after, self.asked = after, 0

    def execute(self, _statement: str, asked: tuple[int]) -> Answers:
        self.asked += 1
        self.at = asked[0]
        return self

    def fetchone(self) -> tuple[int, str] | None:
        if self.at not in self.after:
            raise sqlite3.DatabaseError("database disk image is malformed")
        found = self.after[self.at]
        return None if found is None else (found, f"row {found}")


def test_a_table_that_leads_back_to_its_beginning_is_read_once() -> None:
    """So does a file whose end was cut off, where a page that is gone is taken to be an earlier one."""
    leading_back = Answers({-1: 1, 1: 4, 4: 5, 5: 1, **dict.fromkeys(range(6, 6 + 2 * MOST_MISSES), 4)})
    assert [row[0] for row in islice(rows_of(leading_back, "blob", "data"), 50)] == [1, 4, 5]
    assert leading_back.asked <= MOST_MISSES + 4


def test_rows_after_an_unreadable_page_are_found() -> None:
    gap = Answers({-1: 1, 1: 2, **dict.fromkeys(range(7, 11), 11), 11: None})
    assert [row[0] for row in rows_of(gap, "event", "body")] == [1, 2, 11]


def test_a_row_that_is_given_twice_is_read_once() -> None:
    assert [row[0] for row in rows_of(Answers({-1: 3, 3: 3, 4: 9, 9: None}), "event", "body")] == [3, 9]

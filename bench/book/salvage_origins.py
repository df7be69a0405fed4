"""Salvage where entries came from: the books that they were brought from, and where panels parted.

A row whose seal does not hold is not believed. Where one of its numbers has changed the seal finds it again;
else the backup's stays where there is one.
"""

from __future__ import annotations

import sqlite3
from itertools import product
from typing import Any

from bench.book.readable import sealed_rows
from bench.book.seals import seal_of
from bench.book.worded import put_row

UNKNOWN_BOOK = "unknown"  # no book has this id: nothing is learned from its entries unless the maker says so


def take_origins(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> int:
    """Take over from which book entries were brought; return of how many only that they were is known."""
    entries = {row[0] for row in mended.execute("SELECT seq FROM event")}
    had = {row[0] for row in mended.execute("SELECT seq FROM brought")}
    lost = 0
    for (seq, book), whole, seal, _ in sealed_rows(damaged, "brought"):
        sealed = seq if whole else next((x for x in entries if seal_of(x, book) == seal), None)
        at = seq if sealed is None else sealed
        if at in entries and at not in had:
            put_row(mended, "brought", at, UNKNOWN_BOOK if sealed is None else book)
            lost += sealed is None
    return lost


def take_partings(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> int:
    """Take over where panels parted from others, as far as both are there.

    Return of how many that is not known, so that their first entries are not theirs any more.
    """
    panels = [row[0] for row in mended.execute("SELECT panel_id FROM panel")]
    had = {row[0] for row in mended.execute("SELECT panel_id FROM parted")}
    lost = 0
    for said, whole, seal, _ in sealed_rows(damaged, "parted"):
        row = _row(said) if whole else _row_sealed(said[0], said[1:], seal, panels, mended)
        if said[0] not in panels or said[0] in had:
            continue
        if row is not None and row[1] in panels:
            put_row(mended, "parted", *row)
        else:
            lost += 1
    return lost


def _row(said: list[Any]) -> tuple[int, int, int] | None:
    numbers = [str(x) for x in said]
    return (int(said[0]), int(said[1]), int(said[2])) if all(x.isdecimal() for x in numbers) else None


def _row_sealed(
    panel_id: int, said: list[Any], seal: int | None, panels: list[int], mended: sqlite3.Connection
) -> tuple[int, int, int] | None:
    """Find the row that a seal is of, one of its two numbers having changed: there are only so many."""
    from_panel, after_seq = said
    newest = int(mended.execute("SELECT coalesce(max(seq), 0) FROM event").fetchone()[0])
    others = [*product(panels, [after_seq]), *product([from_panel], range(1, newest + 1))]
    return next((_row([panel_id, *x]) for x in others if seal_of(panel_id, *x) == seal), None)

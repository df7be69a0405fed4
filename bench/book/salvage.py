"""Read what can still be read of a damaged book, row by row, and put it on top of its last good backup.

Entries are taken up to the first that cannot be read: what is true of a panel is a fold over them, and a
fold with a hole would be none. An act that the hole may have cut is left out whole.
"""

from __future__ import annotations

import sqlite3
from contextlib import suppress
from dataclasses import dataclass, field

from bench.book.events import Envelope
from bench.book.faults import Damaged
from bench.book.readable import UNREADABLE, has_seals, rows_of
from bench.book.rows import MARKS_SQL, EventRow, envelopes_of, mark_of_row, put_mark
from bench.book.salvage_drafts import take_drafts
from bench.book.salvage_files import lost_files, take_files
from bench.book.salvage_origins import take_origins, take_partings
from bench.book.salvage_words import (
    WordsLost,
    have_panel_of,
    take_panels,
    take_settings,
)
from bench.book.together import Together

_WITH_SEALS = "SELECT seq, panel_id, act_id, at_utc, body, seal, '', NULL FROM event WHERE seq = ?"
_WITHOUT_SEALS = "SELECT seq, panel_id, act_id, at_utc, body, NULL, '', NULL FROM event WHERE seq = ?"
_INSERT_EVENT = (
    "INSERT INTO event (seq, panel_id, act_id, at_utc, body, seal) VALUES (?, ?, ?, ?, ?, ?)"
)


@dataclass(frozen=True)
class Salvaged:
    """What became of a damaged book.

    kept: entries that are in the mended one, of which `newer` came out of the damaged file and the others
    out of a backup. lost: entries that were there once and are not any more, None where nobody can tell.
    files_lost: files that were kept and are whole in neither. last_utc: when the last kept entry was
    written, '' without any. words_lost: names, settings and drafts that fell back.
    """

    kept: int = 0
    newer: int = 0
    lost: int | None = 0
    files_lost: int = 0
    last_utc: str = ""
    words_lost: WordsLost = field(default_factory=WordsLost)


def goes_on_from(damaged: sqlite3.Connection, backup: sqlite3.Connection) -> bool:
    """Tell whether a backup is of an earlier day of this book, as far as that can be read."""
    last = backup.execute("SELECT seq, act_id FROM event ORDER BY seq DESC LIMIT 1").fetchone()
    if last is None:
        return True
    try:
        same = damaged.execute("SELECT act_id FROM event WHERE seq = ?", (last[0],)).fetchone()
    except UNREADABLE:
        return True
    return same is None or same[0] == last[1]


def salvage(damaged: sqlite3.Connection | None, mended: sqlite3.Connection, where: str) -> Salvaged:
    """Put what can be read of a damaged book into one that holds its backup, or nothing yet.

    damaged: None where nothing of it can be opened. All is written in one transaction.
    """
    with Together(mended, where)():
        mended.execute("DELETE FROM countdown")  # an older one might show more time than is left
        before = _newest(mended)
        lost: int | None = None
        files_lost, words_lost = 0, WordsLost()
        if damaged is not None:
            kinds_lost = take_files(damaged, mended)
            take_panels(damaged, mended, where)
            lost, names_lost = _events(damaged, mended, where, before)
            origins_lost, beginnings_lost = take_origins(damaged, mended), take_partings(damaged, mended)
            files_lost = lost_files(mended)
            _marks(damaged, mended)
            settings_lost = take_settings(damaged, mended)
            drafts_lost, drafts_gone = take_drafts(damaged, mended)
            words_lost = WordsLost(
                names_lost,
                settings_lost,
                drafts_lost,
                drafts_gone,
                kinds=kinds_lost,
                origins=origins_lost,
                beginnings=beginnings_lost,
            )
    count, last_utc = mended.execute("SELECT count(*), coalesce(max(at_utc), '') FROM event").fetchone()
    newer = mended.execute("SELECT count(*) FROM event WHERE seq > ?", (before,)).fetchone()[0]
    return Salvaged(int(count), int(newer), lost, files_lost, str(last_utc), words_lost)


def _newest(connection: sqlite3.Connection) -> int:
    return int(connection.execute("SELECT coalesce(max(seq), 0) FROM event").fetchone()[0])


def _events(
    damaged: sqlite3.Connection, mended: sqlite3.Connection, where: str, after_seq: int
) -> tuple[int | None, int]:
    """Take over the entries after one, to the first that cannot be read.

    Return how many are not, and how many panels have lost their names.
    """
    at, most, names_lost = after_seq, _most_known(damaged), 0
    statement = _WITH_SEALS if has_seals(damaged, "event") else _WITHOUT_SEALS
    while (found := _event(damaged, at + 1, statement, where)) is not None:
        row, entry = found
        names_lost += have_panel_of(damaged, mended, entry)
        at = entry.seq
        mended.execute(_INSERT_EVENT, row[:6])
    if most is not None and most <= at:
        return 0, names_lost
    cut = _drop_cut_act(mended, after_seq)
    return (None if most is None else most - at + cut), names_lost


def _event(
    damaged: sqlite3.Connection, seq: int, statement: str, where: str
) -> tuple[EventRow, Envelope] | None:
    with suppress(*UNREADABLE, Damaged):
        row: EventRow | None = damaged.execute(statement, (seq,)).fetchone()
        if row is not None:
            return row, envelopes_of([row], where)[0]
    return None


def _most_known(damaged: sqlite3.Connection) -> int | None:
    """Return the number of the newest entry the book ever had; None where neither place can tell."""
    found: list[int] = []
    for statement in ("SELECT seq FROM sqlite_sequence WHERE name = 'event'", "SELECT max(seq) FROM event"):
        with suppress(*UNREADABLE):
            row = damaged.execute(statement).fetchone()
            if row is not None and isinstance(row[0], int):
                found.append(row[0])
    return max(found, default=None)


def _drop_cut_act(mended: sqlite3.Connection, after_seq: int) -> int:
    """Leave the newest act out where it came from the damaged file: some of it may be missing."""
    row = mended.execute("SELECT act_id FROM event WHERE seq > ? ORDER BY seq DESC LIMIT 1", (after_seq,))
    newest = row.fetchone()
    if newest is None:
        return 0
    # the mended file is nobody's book yet: its entries may still be chosen
    mended.execute("DROP TRIGGER event_is_kept")
    gone = mended.execute("DELETE FROM event WHERE seq > ? AND act_id = ?", (after_seq, newest[0])).rowcount
    mended.execute(
        "CREATE TRIGGER event_is_kept BEFORE DELETE ON event\n"
        "                BEGIN SELECT RAISE (ABORT, 'an event is never removed'); END"
    )
    return gone


def _marks(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> None:
    """Take over the countdowns whose seal holds; the others count as lost, and lost ones as unsure."""
    panels = {row[0] for row in mended.execute("SELECT panel_id FROM panel")}
    for _, panel_id, *row in rows_of(damaged, "countdown", f"panel_id, {_columns(MARKS_SQL)}"):
        mark = mark_of_row(panel_id, tuple(row)) if row[-1] is not None else None
        if mark is not None and panel_id in panels:
            put_mark(mended, panel_id, row[0], mark)


def _columns(statement: str) -> str:
    return statement.removeprefix("SELECT ").removesuffix(" FROM countdown")

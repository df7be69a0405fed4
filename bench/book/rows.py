"""Turn what the house speaks into what the tables hold, and back."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any, NamedTuple

from pydantic import ValidationError
from pydantic_core import PydanticSerializationError

from bench.book.countdown import Mark
from bench.book.events import Envelope, Event, event_json, read_events
from bench.book.faults import Damaged, Unfit
from bench.book.seals import is_whole, seal_of
from bench.book.worded import changed_words, says_what_it_said
from bench.speech import say
from bench.unswept import unswept

# seq, panel_id, act_id, at_utc, body, seal, the book it was brought from or "", the seal of that
EventRow = tuple[int, int, str, str, str, int | None, str, int | None]
MarkRow = tuple[float, float, str, float | None, str | None, int, int, float]

EVENTS_SQL = (
    "SELECT seq, panel_id, act_id, at_utc, body, event.seal, coalesce(book, ''), brought.seal "
    "FROM event LEFT JOIN brought USING (seq)"
)
MARKS_SQL = (
    "SELECT mix, total_s, spent_s, wall_utc, boot_s, boot_id, running, unsure, surely_s, seal FROM countdown"
)


class PanelRow(NamedTuple):
    """A panel of the book."""

    panel_id: int
    name: str
    drawing_sha256: str
    created_utc: datetime


def panel_of_row(row: tuple[int, str, str, str, int | None], path: str) -> PanelRow:
    """Return a stored row as a panel; raises Damaged where it has changed, or its date is none."""
    if not says_what_it_said(row):
        raise Damaged(path, changed_words("panel", row[0]))
    try:
        return PanelRow(row[0], row[1], row[2], datetime.fromisoformat(row[3]))
    except (ValueError, TypeError) as error:
        raise Damaged(path, say("panel {panel}: {error}", panel=row[0], error=error)) from error


def utc_text(at: datetime) -> str:
    """Return a time as it is stored, in UTC; one without a time zone could mean any, so ValueError."""
    if at.tzinfo is None:
        raise ValueError(f"{at} has no time zone")
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def bodies_of(events: Sequence[Event]) -> list[str]:
    """Return the stored form of events; raises Unfit for one that would not read back the same.

    What is written is never rewritten, so one event that cannot be read would spoil the book for good.
    """
    return [_body_of(event) for event in events]


def _body_of(event: Event) -> str:
    try:
        body = event_json(event)
        body.encode("utf-8")
        back = read_events([body])
    except (PydanticSerializationError, ValidationError, ValueError) as error:
        raise Unfit(event.kind, _first_line(error)) from error
    if back != [event]:
        raise Unfit(event.kind, say("it would read back as something else"))
    return body


@unswept()
def envelopes_of(rows: Sequence[EventRow], path: str) -> list[Envelope]:
    """Return stored rows as envelopes; raises Damaged, naming the first row that cannot be read."""
    try:
        if not all(is_whole(row[5], *row[1:5]) and is_whole(row[7], row[0], row[6]) for row in rows):
            raise ValueError("an entry has changed")
        events = read_events(row[4] for row in rows)
        times = [datetime.fromisoformat(row[3]) for row in rows]
    except (ValidationError, ValueError, TypeError) as error:
        raise _first_unreadable(rows, path) from error
    if len(events) != len(rows):
        raise _first_unreadable(rows, path)
    return [
        Envelope(row[0], row[1], row[2], at_utc, event, row[6])
        for row, at_utc, event in zip(rows, times, events, strict=True)
    ]


def _first_unreadable(rows: Sequence[EventRow], path: str) -> Damaged:
    for row in rows:
        try:
            if not is_whole(row[5], *row[1:5]):
                raise ValueError(say("it has changed since it was written"))
            if not is_whole(row[7], row[0], row[6]):
                return Damaged(path, changed_words("brought", row[0]))
            datetime.fromisoformat(row[3])
            if len(read_events([row[4]])) != 1:
                raise ValueError(say("it is not one event"))
        except (ValidationError, ValueError, TypeError) as error:
            return Damaged(path, say("entry {entry}: {error}", entry=row[0], error=_first_line(error)))
    return Damaged(path, say("its entries cannot be read together"))


def _first_line(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors(include_url=False, include_context=False, include_input=False)[0]
        return ".".join(str(part) for part in first["loc"][1:]) + ": " + first["msg"]
    return str(error).splitlines()[0]


def row_of_mark(mark: Mark) -> MarkRow:
    """Return a mark as its row holds it, after panel and mix."""
    return (  # whole numbers as SQLite gives them back: the seal is of what is read
        float(mark.total_s),
        float(mark.spent_s),
        utc_text(mark.wall_utc),
        None if mark.boot_s is None else float(mark.boot_s),
        mark.boot_id,
        int(mark.running),
        int(mark.unsure),
        float(mark.surely_s),
    )


def put_mark(connection: sqlite3.Connection, panel_id: int, mix: str, mark: Mark) -> None:
    """Write the mark of a mix with its seal, in place of the one that was kept."""
    row = row_of_mark(mark)
    connection.execute(
        "INSERT OR REPLACE INTO countdown VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (panel_id, mix, *row, seal_of(panel_id, mix, *row)),
    )


def mark_of_row(panel_id: int, row: tuple[Any, ...]) -> Mark | None:
    """Return the mark of a row as `MARKS_SQL` reads it; None for one that changed since it was written.

    Such a mark might show more time than is left, so that it counts as lost.
    """
    mix, seal, kept = row[0], row[-1], row[1:-1]
    if not is_whole(seal, panel_id, mix, *kept):
        return None
    total_s, spent_s, wall, boot_s, boot_id, running, unsure, surely_s = kept
    try:
        wall_utc = datetime.fromisoformat(wall)
    except (ValueError, TypeError):
        return None
    return Mark(total_s, spent_s, wall_utc, boot_s, boot_id, bool(running), bool(unsure), surely_s)

"""Turn what the house speaks into what the tables hold, and back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import NamedTuple

from pydantic import ValidationError
from pydantic_core import PydanticSerializationError

from bench.book.countdown import Mark
from bench.book.events import Envelope, Event, event_json, read_events
from bench.book.faults import Damaged, Unfit

EventRow = tuple[int, int, str, str, str, str]  # seq, panel_id, act_id, at_utc, body, book
MarkRow = tuple[float, float, str, float | None, str | None, int, int, float]


class PanelRow(NamedTuple):
    """A panel of the book."""

    panel_id: int
    name: str
    drawing_sha256: str
    created_utc: datetime


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
        raise Unfit(event.kind, "it would read back as something else")
    return body


def envelopes_of(rows: Sequence[EventRow], path: str) -> list[Envelope]:
    """Return stored rows as envelopes; raises Damaged, naming the first row that cannot be read."""
    try:
        events = read_events(row[4] for row in rows)
        times = [datetime.fromisoformat(row[3]) for row in rows]
    except (ValidationError, ValueError, TypeError) as error:
        raise _first_unreadable(rows, path) from error
    if len(events) != len(rows):
        raise _first_unreadable(rows, path)
    return [
        Envelope(row[0], row[1], row[2], at_utc, event, row[5])
        for row, at_utc, event in zip(rows, times, events, strict=True)
    ]


def _first_unreadable(rows: Sequence[EventRow], path: str) -> Damaged:
    for row in rows:
        try:
            datetime.fromisoformat(row[3])
            if len(read_events([row[4]])) != 1:
                raise ValueError("it is not one event")
        except (ValidationError, ValueError, TypeError) as error:
            return Damaged(path, f"entry {row[0]}: {_first_line(error)}")
    return Damaged(path, "its entries cannot be read together")


def _first_line(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors(include_url=False, include_context=False, include_input=False)[0]
        return ".".join(str(part) for part in first["loc"][1:]) + ": " + first["msg"]
    return str(error).splitlines()[0]


def row_of_mark(mark: Mark) -> MarkRow:
    """Return a mark as its row holds it, after panel and mix."""
    return (
        mark.total_s,
        mark.spent_s,
        utc_text(mark.wall_utc),
        mark.boot_s,
        mark.boot_id,
        int(mark.running),
        int(mark.unsure),
        mark.surely_s,
    )


def mark_of_row(row: MarkRow) -> Mark:
    """Return the mark of a row."""
    total_s, spent_s, wall, boot_s, boot_id, running, unsure, surely_s = row
    wall_utc = datetime.fromisoformat(wall)
    return Mark(total_s, spent_s, wall_utc, boot_s, boot_id, bool(running), bool(unsure), surely_s)

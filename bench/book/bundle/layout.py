"""How a bundle is laid out, and how large any part of it may be.

A bundle is a zip file of plain members, in this order:

- `potwatch-bundle`: stored, first of all, so that the file is known by its first bytes; the layout's number.
- `bundle.json`: the manifest, with the size and SHA-256 of every member that follows.
- `book.jsonl`: the panel's entries in order, one a line; `workshop.jsonl`: those of the bottles it took from;
  `drafts.jsonl`: drafts, where they were asked for.
- `files/SHA256.EXTENSION`: every file that these name, as it was stored.

Nothing else may be in it: no folders, links, encryption or zip64, no two members of one name.
"""

from __future__ import annotations

import re
from datetime import datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, StringConstraints

from bench.book.events import Event, NoteWritten, event_json

SCHEMA = 1
MARKER, MANIFEST = "potwatch-bundle", "bundle.json"
BOOK, WORKSHOP, DRAFTS = "book.jsonl", "workshop.jsonl", "drafts.jsonl"

MOST_MEMBERS = 20_000
MOST_BYTES = 2 * 2**30  # of all members unpacked
MOST_FILE_BYTES = 256 * 2**20  # of one file
MOST_TEXT_BYTES = 512 * 2**20  # of one list of entries
MOST_MANIFEST_BYTES = 16 * 2**20
MOST_LINE_BYTES = 16 * 2**20
MOST_RATIO = 200  # unpacked ÷ packed, of members that are larger than a mebibyte
RATIO_FROM_BYTES = 2**20

_EXTENSIONS = {
    "image/svg+xml": "svg",
    "image/jpeg": "jpg",
    "image/png": "png",
    "image/webp": "webp",
    "application/toml": "toml",
    "application/json": "json",
}
MEDIA = {extension: media for media, extension in _EXTENSIONS.items()} | {"bin": "application/octet-stream"}
MEMBER = re.compile(
    rf"{BOOK}|{WORKSHOP}|{DRAFTS}|files/(?P<sha256>[0-9a-f]{{64}})\.(?P<extension>{'|'.join(MEDIA)})"
)

Sha256 = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
Id = Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]{1,100}$")]
Name = Annotated[str, StringConstraints(pattern=r"^[^\x00-\x1f\x7f]{1,300}$")]
Count = Annotated[int, Field(ge=0)]


def _of_our_time(at_utc: datetime) -> datetime:
    if not 1970 <= at_utc.year <= 2200:
        raise ValueError("no time between 1970 and 2200")
    return at_utc


Moment = Annotated[AwareDatetime, AfterValidator(_of_our_time)]
Seconds = Annotated[float, Field(ge=0, le=1e9, allow_inf_nan=False)]


def extension_of(media: str | None) -> str:
    """Return the extension that a kind of file has in a bundle."""
    return _EXTENSIONS.get(media or "", "bin")


_NAMED = re.compile(rb'"([0-9a-f]{64})"')


def files_named(event: Event) -> set[str]:
    """Return the hashes of all files that an entry names, whichever field does; a maker's words name none."""
    if isinstance(event, NoteWritten):
        return set()
    return {found.decode() for found in _NAMED.findall(event_json(event).encode())}


class _Line(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class EntryLine(_Line):
    """One entry. book: the id of the book that it was first written in."""

    act: Id
    at_utc: Moment
    book: Id
    event: Event


class MarkLine(_Line):
    """Where a countdown stood when the bundle was written, by the clocks of that tablet."""

    mix: Id
    total_s: Seconds
    spent_s: Seconds
    surely_s: Seconds
    wall_utc: Moment
    running: bool


class DraftLine(_Line):
    """A draft: what it says, and its files by their role."""

    name: Name
    changed_utc: Moment
    body: Annotated[str, StringConstraints(max_length=4_000_000)]
    files: dict[Annotated[str, StringConstraints(pattern=r"^[a-z]{1,20}$")], Sha256]


class PanelLine(_Line):
    """The panel as the list of panels has it."""

    name: Name
    drawing_sha256: Sha256
    created_utc: Moment


class Member(_Line):
    """A member of the zip file."""

    name: str
    bytes: Count
    sha256: Sha256


class Manifest(_Line):
    """What a bundle says of itself. version: of the book's tables and events; book: the id of the book."""

    kind: Literal["potwatch bundle"] = "potwatch bundle"
    schema_: int = Field(default=SCHEMA, alias="schema")
    version: int
    book: Id
    written_utc: Moment
    panel: PanelLine
    entries: Count
    countdowns: tuple[MarkLine, ...] = Field(default=(), max_length=100_000)
    members: tuple[Member, ...] = Field(max_length=MOST_MEMBERS)

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


def zip_time(at_utc: datetime) -> tuple[int, int, int, int, int, int]:
    """Return a time as the zip format holds it: from 1980 to 2107."""
    return min(max(at_utc.year, 1980), 2107), at_utc.month, at_utc.day, at_utc.hour, at_utc.minute, 0

"""Bundle a panel: one file that carries it, its book, its files and its bottles to another tablet."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import NamedTuple

from bench.book import WORKSHOP, Clock, Store
from bench.book import countdown as cd
from bench.book import events as e
from bench.book.bundle import (
    DraftLine,
    EntryLine,
    Manifest,
    MarkLine,
    Member,
    PanelLine,
    extension_of,
    files_named,
    lines_of,
    write_bundle,
)
from bench.book.bundle import layout as at
from bench.book.events import Envelope
from bench.book.faults import NoSuchPanel
from bench.book.rows import PanelRow
from bench.book.schema import KNOWN_VERSION
from bench.drawing.from_picture import is_picture

MOST_STEM = 40  # signs of a file's name


class Bundled(NamedTuple):
    """What a bundle came to."""

    path: Path
    entries: int
    files: int
    size_bytes: int


def bundle_panel(
    store: Store, clock: Clock, panel_id: int, path: Path, *, with_drafts: bool = False
) -> Bundled:
    """Write a panel with all that its entries name into one file; the book is only read.

    with_drafts: all drafts of the book too, which belong to no panel. Raises NoSuchPanel, NoSuchBlob or
    Damaged for what the book no longer has, BundleNotWritten or BundleTooLarge for the file.
    """
    panel = _row(store, panel_id)
    entries, here = store.events(panel_id), store.elsewhere.book_id
    texts = {at.BOOK: lines_of(_line(x, here) for x in entries)}
    bottles = tuple(_of_the_bottles(store, entries, here))
    if bottles:
        texts[at.WORKSHOP] = lines_of(_line(x, here) for x in bottles)
    named = {panel.drawing_sha256}.union(*(files_named(x.event) for x in entries))
    files: dict[str, Callable[[], bytes]] = {
        f"files/{sha256}.{extension_of(store.media(sha256))}": partial(store.blob, sha256)
        for sha256 in sorted(named)
    }
    if with_drafts:
        texts[at.DRAFTS] = lines_of(_drafts(store, files))
    written_utc = clock.utc()

    def manifest(members: tuple[Member, ...]) -> Manifest:
        return Manifest(
            version=KNOWN_VERSION,
            book=here,
            written_utc=written_utc,
            panel=PanelLine(
                name=panel.name, drawing_sha256=panel.drawing_sha256, created_utc=panel.created_utc
            ),
            entries=len(entries),
            countdowns=tuple(_marks(store, clock, panel_id)),
            members=members,
        )

    size_bytes = write_bundle(path, texts, files, manifest)
    return Bundled(path, len(entries), len(files), size_bytes)


def bundle_name(name: str, local: datetime) -> str:
    """Return what the file of a panel's bundle is called: the panel, the day and the minute."""
    stem = re.sub(r"[^\w]+", "-", name).strip("-")[:MOST_STEM].strip("-") or "panel"
    return f"{stem} {local:%Y-%m-%d %H-%M}.zip"


def _row(store: Store, panel_id: int) -> PanelRow:
    panels = store.panels()
    found = next((p for p in panels if p.panel_id == panel_id), None)
    if found is None:
        raise NoSuchPanel(panel_id, tuple(p.panel_id for p in panels))
    return found


def _line(entry: Envelope, here: str) -> EntryLine:
    return EntryLine(act=entry.act_id, at_utc=entry.at_utc, book=entry.book or here, event=entry.event)


def _of_the_bottles(store: Store, entries: list[Envelope], here: str) -> Iterator[Envelope]:
    """Yield what the workshop tells of the bottles that the mixes came out of, undone acts too."""
    used = {(x.book or here, x.event.bottle) for x in entries if isinstance(x.event, e.BottleTaken)}
    acts: set[str] = set()
    for entry in store.events(WORKSHOP):
        event = entry.event
        if isinstance(event, e.BottleOpened | e.BottleWeighed | e.BottleEmptied):
            if (entry.book or here, event.bottle) in used:
                acts.add(entry.act_id)
                yield entry
        elif isinstance(event, e.ActUndone) and event.undone_act_id in acts:
            yield entry


def _marks(store: Store, clock: Clock, panel_id: int) -> Iterator[MarkLine]:
    for mix, mark in store.countdowns(panel_id).items():
        now = cd.mark(mark, clock)
        yield MarkLine(
            mix=mix,
            total_s=now.total_s,
            spent_s=now.spent_s,
            surely_s=now.surely_s,
            wall_utc=now.wall_utc,
            running=now.running,
        )


def _drafts(store: Store, files: dict[str, Callable[[], bytes]]) -> Iterator[DraftLine]:
    """Yield the drafts, oldest first, and add their files to those that go along."""
    for row in reversed(store.drafts.all()):
        named = {}
        for role in store.drafts.roles(row.draft_id):
            data = store.drafts.file(row.draft_id, role)
            if data is not None:
                named[role], member = _member_of(data)
                files[member] = partial(_draft_file, store, row.draft_id, role)
        yield DraftLine(name=row.name, changed_utc=row.changed_utc, body=row.body, files=named)


def _member_of(data: bytes) -> tuple[str, str]:
    """Return the hash of a draft's file, and the member that it is."""
    png, webp = data.startswith(b"\x89PNG"), data.startswith(b"RIFF")
    media = "image/png" if png else "image/webp" if webp else "image/jpeg" if is_picture(data) else None
    sha256 = hashlib.sha256(data).hexdigest()
    return sha256, f"files/{sha256}.{extension_of(media)}"


def _draft_file(store: Store, draft_id: int, role: str) -> bytes:
    return store.drafts.file(draft_id, role) or b""

"""Salvage what is said in words: the names of panels, settings, drafts; what is lost falls back.

A row whose seal does not hold is not believed. The backup's stays where there is one; else a panel is named
as its first entry names it, a setting is as it is usually, and a draft keeps its files and says nothing.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bench.book.elsewhere import BOOK_ID_KEY
from bench.book.events import Envelope, PanelOpened
from bench.book.faults import Damaged
from bench.book.readable import UNREADABLE, as_bytes, can_be_counted, has_seals, rows_of, text_of
from bench.book.reader import WORKSHOP, WORKSHOP_NAME
from bench.book.rows import panel_of_row, utc_text
from bench.book.schema import LOST
from bench.book.seals import is_whole
from bench.book.worded import SEALED, Table, put_row

_EMPTY = hashlib.sha256(b"").hexdigest()
_NEVER = "1970-01-01T00:00:00+00:00"


@dataclass(frozen=True)
class WordsLost:
    """How many panels go by another name, settings are as they were or usually are, drafts say nothing.

    settings, drafts: None where nobody can tell how many. drafts are as the backup had them where there is
    one; drafts_gone: those of which a picture has changed, and no backup has them.
    """

    names: int = 0
    settings: int | None = 0
    drafts: int | None = 0
    drafts_gone: int = 0


def _rows(damaged: sqlite3.Connection, table: Table) -> Iterator[tuple[list[Any], bool]]:
    """Yield what each row of a table says, as far as it is text, and whether it says what it said."""
    first, *rest = SEALED[table]
    key = as_bytes([first]) if table == "setting" else first
    seal = "seal" if has_seals(damaged, table) else "NULL"
    for _, *row, kept in rows_of(damaged, table, f"{key}, {as_bytes(rest)}, {seal}"):
        said = [x if isinstance(x, int) else text_of(x) for x in row]
        is_text = all(x == word or x == str(word).encode() for x, word in zip(row, said, strict=True))
        yield said, is_text and is_whole(kept, *said)


def put_file(mended: sqlite3.Connection, sha256: str, media: str, data: bytes) -> None:
    """Keep a file that is not there yet."""
    mended.execute("INSERT INTO blob VALUES (?, ?, ?) ON CONFLICT DO NOTHING", (sha256, media, data))


def take_panels(damaged: sqlite3.Connection, mended: sqlite3.Connection, where: str) -> None:
    """Take over the panels whose row is whole; the others are made again with their first entry."""
    for said, whole in _rows(damaged, "panel"):
        if whole:
            with suppress(Damaged):
                panel_of_row((said[0], said[1], said[2], said[3], None), where)
                _have_panel(mended, *said)


def _has_panel(mended: sqlite3.Connection, panel_id: int) -> bool:
    return mended.execute("SELECT 1 FROM panel WHERE panel_id = ?", (panel_id,)).fetchone() is not None


def _have_panel(mended: sqlite3.Connection, panel_id: int, name: str, sha256: str, created: str) -> None:
    """Have a panel; where its drawing cannot be read it is lost, and the panel is not."""
    if not _has_panel(mended, panel_id):
        put_file(mended, sha256, LOST, b"")
        put_row(mended, "panel", panel_id, name, sha256, created)


def have_panel_of(damaged: sqlite3.Connection, mended: sqlite3.Connection, entry: Envelope) -> bool:
    """Make the panel of an entry again where its row was not taken over; tell whether its name is lost.

    The first entry of a panel names it all; of one that parted from another, the other one does.
    """
    if _has_panel(mended, entry.panel_id):
        return False
    at_text = utc_text(entry.at_utc)
    if isinstance(entry.event, PanelOpened):
        _have_panel(mended, entry.panel_id, entry.event.name, entry.event.drawing_sha256, at_text)
        return False
    if entry.panel_id == WORKSHOP:
        put_file(mended, _EMPTY, "application/octet-stream", b"")
        _have_panel(mended, WORKSHOP, WORKSHOP_NAME, _EMPTY, at_text)
        return False
    name, sha256 = _parted_from(damaged, mended, entry.panel_id) or (str(entry.panel_id), _EMPTY)
    _have_panel(mended, entry.panel_id, name, sha256, at_text)
    return True


def _parted_from(
    damaged: sqlite3.Connection, mended: sqlite3.Connection, panel_id: int
) -> tuple[str, str] | None:
    """Return the name and the drawing of the panel that one parted from, None where that is not known."""
    with suppress(*UNREADABLE):
        parted = damaged.execute("SELECT from_panel FROM parted WHERE panel_id = ?", (panel_id,)).fetchone()
        if parted is not None:
            other = "SELECT name, drawing_sha256 FROM panel WHERE panel_id = ?"
            found: tuple[str, str] | None = mended.execute(other, parted).fetchone()
            return found
    return None


def take_settings(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> int | None:
    """Take over the settings that are whole; return how many are not, and may be others than before.

    None where nobody can tell: the id that every sealed book has among them is not there.
    """
    lost, keys = 0, set()
    for (key, value), whole in _rows(damaged, "setting"):
        keys.add(key)
        if whole:
            put_row(mended, "setting", key, value)
        else:
            same = "SELECT 1 FROM setting WHERE key = ? AND value = ?"
            lost += mended.execute(same, (key, value)).fetchone() is None
    return None if not lost and BOOK_ID_KEY not in keys and has_seals(damaged, "setting") else lost


def take_drafts(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> tuple[int | None, int]:
    """Take over the drafts whose files are as they were; one with a spoiled file is as the backup had it.

    Return how many have lost their words, None where not all can be reached, and how many are gone.
    """
    files: dict[int, list[tuple[Any, ...]]] = {}
    spoiled: set[int] = set()
    for _, *file in rows_of(damaged, "draft_file", "draft_id, role, sha256, CAST(data AS BLOB)"):
        whole = isinstance(file[3], bytes) and hashlib.sha256(file[3]).hexdigest() == file[2]
        files.setdefault(file[0], []).append(tuple(file))
        spoiled |= set() if whole else {file[0]}
    lost = gone = 0
    for (draft_id, name, changed_utc, body), whole in _rows(damaged, "draft"):
        dated = _is_date(changed_utc)
        backed_up = bool(mended.execute("SELECT 1 FROM draft WHERE draft_id = ?", (draft_id,)).fetchone())
        if draft_id not in spoiled and whole and dated:
            _put_draft(mended, (draft_id, name, changed_utc, body), files.get(draft_id, []))
            continue
        if draft_id in spoiled and not backed_up:
            gone += 1
            continue
        lost += 1
        if not backed_up:
            shown = "".join(c if c.isprintable() else "?" for c in name)
            at_text = changed_utc if dated else _newest_utc(mended)
            _put_draft(mended, (draft_id, shown, at_text, ""), files.get(draft_id, []))
    return (lost if lost or can_be_counted(damaged, "draft") else None), gone


def _put_draft(
    mended: sqlite3.Connection, said: tuple[int, str, str, str], files: list[tuple[Any, ...]]
) -> None:
    mended.execute("DELETE FROM draft WHERE draft_id = ?", (said[0],))
    put_row(mended, "draft", *said)
    for kept in files:
        mended.execute("INSERT INTO draft_file VALUES (?, ?, ?, ?)", kept)


def _newest_utc(mended: sqlite3.Connection) -> str:
    return str(mended.execute("SELECT coalesce(max(at_utc), ?) FROM event", (_NEVER,)).fetchone()[0])


def _is_date(text: str) -> bool:
    with suppress(ValueError):
        return datetime.fromisoformat(text).tzinfo is not None
    return False

"""Salvage what is said in words: the names of panels, settings; what is lost falls back.

A row whose seal does not hold is not believed. The backup's stays where there is one; else a panel is named
as its first entry names it, and a setting is as it is usually.
"""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import suppress
from dataclasses import dataclass

from bench.book.elsewhere import BOOK_ID_KEY
from bench.book.events import Envelope, PanelOpened
from bench.book.faults import Damaged
from bench.book.readable import has_seals, sealed_rows
from bench.book.reader import WORKSHOP, WORKSHOP_NAME
from bench.book.rows import panel_of_row, utc_text
from bench.book.worded import LOST, put_file, put_row

_EMPTY = hashlib.sha256(b"").hexdigest()


@dataclass(frozen=True)
class WordsLost:
    """How many panels go by another name, settings are as they were or usually are, drafts say nothing.

    settings, drafts: None where nobody can tell how many. drafts are as the backup had them where there is
    one; drafts_gone: those of which a picture has changed, and no backup has them. kinds: files that are
    there, and not what kind they are; origins: entries of which only that they were brought is known;
    beginnings: panels that shared their first entries with another, and nobody knows which.
    """

    names: int = 0
    settings: int | None = 0
    drafts: int | None = 0
    drafts_gone: int = 0
    kinds: int = 0
    origins: int = 0
    beginnings: int = 0


def take_panels(damaged: sqlite3.Connection, mended: sqlite3.Connection, where: str) -> None:
    """Take over the panels whose row is whole; the others are made again with their first entry."""
    for said, whole, *_ in sealed_rows(damaged, "panel"):
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
    for said, whole, *_ in sealed_rows(damaged, "parted"):
        if whole and said[0] == panel_id:
            other = "SELECT name, drawing_sha256 FROM panel WHERE panel_id = ?"
            found: tuple[str, str] | None = mended.execute(other, (said[1],)).fetchone()
            return found
    return None


def take_settings(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> int | None:
    """Take over the settings that are whole; return how many are not, and may be others than before.

    None where nobody can tell: the id that every sealed book has among them is not there.
    """
    lost, keys = 0, set()
    for (key, value), whole, *_ in sealed_rows(damaged, "setting"):
        keys.add(key)
        if whole:
            put_row(mended, "setting", key, value)
        else:
            same = "SELECT 1 FROM setting WHERE key = ? AND value = ?"
            lost += mended.execute(same, (key, value)).fetchone() is None
    return None if not lost and BOOK_ID_KEY not in keys and has_seals(damaged, "setting") else lost

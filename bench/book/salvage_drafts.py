"""Salvage drafts with their files.

A draft whose row is not believed is as the backup has it; without one it keeps its files and says nothing.
Where a file has changed, or nobody knows what it is for, its draft is as the backup has it, or gone.
"""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import suppress
from datetime import datetime
from itertools import product
from typing import NamedTuple

from bench.book.readable import as_bytes, can_be_counted, sealed_rows
from bench.book.seals import seal_of
from bench.book.worded import put_draft_file, put_row

_NEVER = "1970-01-01T00:00:00+00:00"


class _File(NamedTuple):
    """A file of a draft. seal: of the three before."""

    draft_id: int
    role: str
    sha256: str
    data: bytes | None
    seal: int | None
    whole: bool


def take_drafts(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> tuple[int | None, int]:
    """Take over the drafts whose files are as they were; one with another file is as the backup had it.

    Return how many have lost their words, None where not all can be reached or told apart, and how many are
    gone.
    """
    drafts = [(said, whole) for said, whole, *_ in sealed_rows(damaged, "draft")]
    files = _files(damaged, [said[0] for said, _ in drafts])
    lost = gone = 0
    for (draft_id, name, changed_utc, body), whole in drafts:
        own = [file for file in files if file.draft_id == draft_id]
        spoiled, dated = not all(file.whole for file in own), _is_date(changed_utc)
        backed_up = bool(mended.execute("SELECT 1 FROM draft WHERE draft_id = ?", (draft_id,)).fetchone())
        if not spoiled and whole and dated:
            _put_draft(mended, (draft_id, name, changed_utc, body), own)
            continue
        if spoiled and not backed_up:
            gone += 1
            continue
        lost += 1
        if not backed_up:
            shown = "".join(c if c.isprintable() else "?" for c in name)
            at_text = changed_utc if dated else _newest_utc(mended)
            _put_draft(mended, (draft_id, shown, at_text, ""), own)
    known = {file.draft_id for file in files} <= {said[0] for said, _ in drafts}
    return (lost if lost or (known and can_be_counted(damaged, "draft")) else None), gone


def _files(damaged: sqlite3.Connection, drafts: list[int]) -> list[_File]:
    """Return the files of drafts, each with the draft and the role that its seal is of, where found."""
    found = []
    for said, whole, seal, (data,) in sealed_rows(damaged, "draft_file", as_bytes(["data"])):
        draft_id, role, sha256 = said
        same = isinstance(data, bytes) and hashlib.sha256(data).hexdigest() == sha256
        found.append(_File(draft_id, role, sha256, data, seal, whole and same))
    roles = list(dict.fromkeys(file.role for file in found if file.whole))
    return [file if file.whole else _as_sealed(file, drafts, roles) for file in found]


def _as_sealed(file: _File, drafts: list[int], roles: list[str]) -> _File:
    """Return a file with the draft and the role that its seal is of; as it is where they are not found."""
    if file.data is None or hashlib.sha256(file.data).hexdigest() != file.sha256:
        return file
    others = product([file.draft_id, *drafts], [file.role, *roles])
    sealed = next((x for x in others if seal_of(*x, file.sha256) == file.seal), None)
    return file if sealed is None else file._replace(draft_id=sealed[0], role=sealed[1], whole=True)


def _put_draft(mended: sqlite3.Connection, said: tuple[int, str, str, str], files: list[_File]) -> None:
    mended.execute("DELETE FROM draft WHERE draft_id = ?", (said[0],))
    put_row(mended, "draft", *said)
    for file in files:
        assert file.data is not None  # or the draft would be spoiled
        put_draft_file(mended, file.draft_id, file.role, file.sha256, file.data)


def _newest_utc(mended: sqlite3.Connection) -> str:
    return str(mended.execute("SELECT coalesce(max(at_utc), ?) FROM event", (_NEVER,)).fetchone()[0])


def _is_date(text: str) -> bool:
    with suppress(ValueError):
        return datetime.fromisoformat(text).tzinfo is not None
    return False

"""Salvage the files that a book keeps: what they hold has its hash, and what kind they are a seal."""

from __future__ import annotations

import hashlib
import sqlite3

from bench.book.readable import as_bytes, sealed_rows
from bench.book.seals import seal_of
from bench.book.worded import LOST, put_file

OF_NO_KIND = "application/octet-stream"


def take_files(damaged: sqlite3.Connection, mended: sqlite3.Connection) -> int:
    """Take over the files, those that have changed as lost; return of how many the kind is lost.

    What the backup has stays as it is there. A file whose hash has changed, and not what it holds, goes by
    the hash of that where the seal knows it.
    """
    had = {row[0] for row in mended.execute("SELECT sha256 FROM blob WHERE media <> ?", (LOST,))}
    lost = 0
    for (sha256, media), whole, seal, (data,) in sealed_rows(damaged, "blob", as_bytes(["data"])):
        if not isinstance(data, bytes):
            continue
        true = hashlib.sha256(data).hexdigest()
        known = true == sha256 or (seal is not None and seal == seal_of(true, media))
        if (true if known else sha256) in had:
            continue
        if not known:
            put_file(mended, sha256, LOST, data)
        elif whole or true != sha256:
            put_file(mended, true, media, data)
        else:
            put_file(mended, true, OF_NO_KIND, data)
            lost += 1
    return lost


def lost_files(mended: sqlite3.Connection) -> int:
    """Return how many files of a book are lost."""
    return int(mended.execute("SELECT count(*) FROM blob WHERE media = ?", (LOST,)).fetchone()[0])

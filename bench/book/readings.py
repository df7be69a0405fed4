"""What was made of a file once, kept beside the book: it may be lost at any time, and is then made again."""

from __future__ import annotations

import contextlib
import os
import re
import tempfile
from pathlib import Path

from bench.book.files import make_private

MOST_KEPT = 60  # up to three of a panel
_KEY = re.compile(r"[A-Za-z0-9._-]{1,200}")


class Readings:
    """A folder of them; without a folder, as for a book in memory, nothing is kept.

    Nothing here raises for a disk that is full, or a file that is gone or damaged.
    """

    def __init__(self, folder: Path | None, *, read_only: bool = False) -> None:
        self.folder, self.read_only = folder, read_only

    def get(self, key: str) -> bytes | None:
        """Return what was kept under a key."""
        if self.folder is None or not _KEY.fullmatch(key):
            return None
        try:
            return (self.folder / key).read_bytes()
        except OSError:
            return None

    def put(self, key: str, data: bytes) -> None:
        """Keep something under a key, and let go of what was not kept lately."""
        if self.folder is None or self.read_only or not _KEY.fullmatch(key):
            return
        with contextlib.suppress(OSError):
            make_private(self.folder)
            handle, beside = tempfile.mkstemp(dir=self.folder, prefix=".new-")
            try:
                with os.fdopen(handle, "wb") as out:
                    out.write(data)
                os.replace(beside, self.folder / key)
            except OSError:
                os.unlink(beside)
                raise
            self._let_go()

    def _let_go(self) -> None:
        assert self.folder is not None
        newest_first = sorted(self.folder.iterdir(), key=lambda path: -path.stat().st_mtime)
        for path in newest_first[MOST_KEPT:]:
            path.unlink(missing_ok=True)

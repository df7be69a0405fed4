"""What can go wrong with the book, each told with the file it happened to.

`translated` turns what SQLite reports into these faults, so that nothing else leaves the room.
"""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bench.fault import Fault
from bench.speech import say


class NotWritable(Fault):
    """The book or its folder cannot be written."""

    def __init__(self, path: str, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(
            say("the book cannot be written here ({reason})", reason=reason),
            where=path,
            todo=say("make the folder writable, or set POTWATCH_HOME to another folder"),
        )


class DiskFull(NotWritable):
    """There is no room left for what was to be written; what was there before still is."""

    def __init__(self, path: str) -> None:
        super().__init__(path, say("the disk is full"))
        self.todo = say(
            "free some space, or set POTWATCH_HOME to another folder; nothing written before is lost"
        )


class NotSynced(NotWritable):
    """The disk would not say that it has what was written: it may have it, and may not."""

    def __init__(self, path: str) -> None:
        super().__init__(path, say("the disk does not answer"))
        self.todo = say(
            "look at the disk, then open the book again: whether this last act is in it shows there; what "
            "was written before is"
        )


class NotReadable(Fault):
    """The book is there and cannot be read, by the system's leave."""

    def __init__(self, path: str, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(
            say("the book cannot be read ({reason})", reason=reason),
            where=path,
            todo=say("see that the file is yours and readable, or set POTWATCH_HOME to another folder"),
        )


class InUse(Fault):
    """Another program, most likely a second Potwatch, holds the book."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(
            say("the book is in use by another program"),
            where=path,
            todo=say("close the other Potwatch, or open the book for reading only"),
        )


class Damaged(Fault):
    """The file is no book, or no longer a whole one."""

    def __init__(self, path: str, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(
            say("this is not a book that can be read ({reason})", reason=reason),
            where=path,
            todo=say(
                "open Potwatch, or run 'potwatch book --mend': the file is set aside, and what can be read "
                "of it is kept on top of the last good backup"
            ),
        )


class OtherFile(Damaged):
    """The file belongs to another program: it is no book, and none of ours to mend."""

    def __init__(self, path: str) -> None:
        super().__init__(path, say("another program's file"))
        self.todo = say(
            "move the file away, or set POTWATCH_HOME to another folder; the file was left as it is"
        )


class LostFile(Damaged):
    """A file kept in the book was damaged, and no backup had it; what was told of it is still there."""

    def __init__(self, path: str, sha256: str) -> None:
        super().__init__(path, say("the file {hash} kept in it is lost", hash=sha256[:12]))
        self.sha256 = sha256
        self.what = say("the file {hash} that the book kept is lost", hash=sha256[:12])
        self.todo = say("open the same drawing again, and it is kept anew; or put a copy of the book back")


class NewerBook(Fault):
    """A newer Potwatch wrote this book."""

    def __init__(self, path: str, version: int, known: int) -> None:
        self.path, self.version, self.known = path, version, known
        super().__init__(
            say(
                "the book has version {version}, and this Potwatch knows versions up to {known}",
                version=version,
                known=known,
            ),
            where=path,
            todo=say(
                "open it with a newer Potwatch, or set POTWATCH_HOME to another folder; "
                "the book was left as it is"
            ),
        )


class OlderBook(Fault):
    """The book is of an older version, and opening it for reading only cannot bring it up to date."""

    def __init__(self, path: str, version: int, known: int) -> None:
        self.path, self.version, self.known = path, version, known
        super().__init__(
            say(
                "the book has version {version} and must be brought up to version {known} before it is read",
                version=version,
                known=known,
            ),
            where=path,
            todo=say("open it once in Potwatch itself"),
        )


class NoBook(Fault):
    """There is no book to read."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(
            say("there is no book yet"), where=path, todo=say("open a drawing in Potwatch first")
        )


class OnlyReading(Fault):
    """The book was opened for reading only."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(
            say("the book was opened for reading only"),
            where=path,
            todo=say("close the other Potwatch and open the book again"),
        )


class Unfit(Fault):
    """Something would not come back from the book as it was put in; it was not written."""

    def __init__(self, kind: str, reason: str) -> None:
        self.kind, self.reason = kind, reason
        super().__init__(
            say("{kind} cannot be kept ({reason})", kind=kind, reason=reason),
            where=say("book"),
            todo=say("correct its values; nothing was written"),
        )


class NoSuchPanel(Fault):
    """The book holds no such panel."""

    def __init__(self, panel_id: int, known: tuple[int, ...]) -> None:
        self.panel_id, self.known = panel_id, known
        listed = ", ".join(map(str, known)) or say("none yet")
        super().__init__(
            say("the book holds no panel {panel}", panel=panel_id),
            where=say("book"),
            todo=say("choose one of its panels: {listed}", listed=listed),
        )


class NoSuchBlob(Fault):
    """The book holds no file of that hash."""

    def __init__(self, sha256: str) -> None:
        self.sha256 = sha256
        super().__init__(
            say("the book holds no file with the hash {hash}", hash=sha256[:12]),
            where=say("book"),
            todo=say("add the file again"),
        )


class NoSuchDraft(Fault):
    """The book holds no such draft; it may have become a panel."""

    def __init__(self, draft_id: int) -> None:
        self.draft_id = draft_id
        super().__init__(
            say("the book holds no draft {draft}", draft=draft_id),
            where=say("book"),
            todo=say("begin again with its picture"),
        )


class ActWrittenBefore(Fault):
    """An act is written once, whole; its id was in the book already."""

    def __init__(self, act_id: str) -> None:
        self.act_id = act_id
        super().__init__(
            say("the act {act} is in the book already", act=act_id),
            where=say("book"),
            todo=say("nothing; it was not written twice"),
        )


_UNWRITABLE = frozenset(
    {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_IOERR, sqlite3.SQLITE_PERM, sqlite3.SQLITE_CANTOPEN}
)
_HELD = frozenset({sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_PROTOCOL})
_BROKEN = frozenset({sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB})
_BROKEN_WORDS = ("no such table", "no such column", "Could not decode to UTF-8")


@contextmanager
def written(path: Path) -> Iterator[None]:
    """Raise what the system reports of files inside as the fault it is."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise DiskFull(str(path)) from error
        raise NotWritable(str(path), error.strerror or str(error)) from error


@contextmanager
def translated(path: str, *, reading: bool = False) -> Iterator[None]:
    """Raise what SQLite reports inside as the fault it is, told with the file."""
    try:
        yield
    except UnicodeDecodeError as error:  # what SQLite has to say holds bytes of a damaged page
        raise Damaged(path, say("its list of tables is no text")) from error
    except UnicodeEncodeError as error:
        why = say("a character cannot be stored, {reason}", reason=error.reason)
        raise Unfit(say("a text"), why) from error
    except OverflowError as error:
        raise Unfit(say("a number"), str(error)) from error
    except sqlite3.Error as error:
        fault = _fault_of(error, path, reading)
        if fault is None:
            raise
        raise fault from error


def _fault_of(error: sqlite3.Error, path: str, reading: bool) -> Fault | None:
    """Return the fault behind an error of SQLite; None for a mistake of the program itself."""
    primary = (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF  # the rest says more closely where
    if primary == sqlite3.SQLITE_FULL:
        return DiskFull(path)
    if primary in _HELD:
        return InUse(path)
    if getattr(error, "sqlite_errorcode", None) == sqlite3.SQLITE_IOERR_FSYNC:
        return NotSynced(path)
    if primary in _UNWRITABLE:
        return NotReadable(path, str(error)) if reading else NotWritable(path, str(error))
    if primary in _BROKEN or any(words in str(error) for words in _BROKEN_WORDS):
        return Damaged(path, str(error))
    return None

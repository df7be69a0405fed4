"""Open the book's file: look first, write second, and keep it to its owner.

A file is opened for writing only after it was read and found to be a book of a known version; whatever
else it is, it is left byte for byte as it was.
"""

from __future__ import annotations

import os
import sqlite3
from contextlib import suppress
from pathlib import Path

from bench.book.faults import (
    Damaged,
    InUse,
    NewerBook,
    NoBook,
    NotReadable,
    NotWritable,
    OlderBook,
    OtherFile,
    translated,
)
from bench.book.schema import BOOK_ID, KNOWN_VERSION, version_of
from bench.speech import say

BOOK_NAME = "potwatch.sqlite3"
INCOMING = "potwatch.incoming.sqlite3"  # what takes the place of the book, decided and not yet done

Factory = type[sqlite3.Connection]

_WRITING = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",  # in WAL, NORMAL may lose the newest acts when the power fails
    "PRAGMA fullfsync = ON",  # macOS: the drive's own cache too; nothing elsewhere
    "PRAGMA foreign_keys = ON",
    "PRAGMA recursive_triggers = ON",
)


def open_to_write(path: Path, busy_s: float, factory: Factory) -> sqlite3.Connection:
    """Return a connection that writes the book, its file made if there is none. Tables are not made."""
    _refuse_protected(path)
    _look_at(path, busy_s, factory)
    _own(path)
    connection = _connect(path, "rw", busy_s, factory)
    try:
        with translated(str(path)):
            examine(connection, path)
            for pragma in _WRITING:
                connection.execute(pragma)
    except BaseException:
        connection.close()
        raise
    return connection


def open_to_read(path: Path, busy_s: float, factory: Factory) -> sqlite3.Connection:
    """Return a connection that reads a book; raises NoBook or OlderBook where there is none to read.

    In a folder that cannot be written SQLite cannot share the file with a writer; as nobody can write
    there either, the file is then read as it stands.
    """
    incoming = path.with_name(INCOMING)
    path = incoming if incoming.exists() else path
    if not _holds_anything(path):
        raise NoBook(str(path))
    _refuse_newer(path, busy_s, factory)
    try:
        connection = _open_examined(path, "ro", busy_s, factory)
    except (NotReadable, NotWritable):  # a full disk has no room for what SQLite shares either
        if _log_holds_anything(path):
            raise
        connection = _open_examined(path, "ro&immutable=1", busy_s, factory)
    with translated(str(path), reading=True):
        version = version_of(connection)
    if version < KNOWN_VERSION:
        connection.close()
        raise NoBook(str(path)) if version == 0 else OlderBook(str(path), version, KNOWN_VERSION)
    return connection


def connected_to_read(path: Path) -> sqlite3.Connection:
    """Return a connection to a copy of a book, read as it stands and never written.

    Raises Damaged, NewerBook, NotReadable.
    """
    return _open_examined(path, "ro&immutable=1", 0.0, sqlite3.Connection)


def open_copy(path: Path) -> sqlite3.Connection:
    """Return a connection to a copy that is being made: nobody else has it, and it is synced when done.

    What SQLite reports is the caller's to translate.
    """
    connection = _connect(path, "rw", 0.0, sqlite3.Connection)
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA synchronous = OFF")
    except BaseException:
        connection.close()
        raise
    return connection


def open_in_memory(factory: Factory) -> sqlite3.Connection:
    """Return a connection to an empty book that never touches a disk."""
    connection = sqlite3.connect(":memory:", isolation_level=None, factory=factory)
    for pragma in ("temp_store = MEMORY", "foreign_keys = ON", "recursive_triggers = ON"):
        connection.execute(f"PRAGMA {pragma}")
    return connection


def make_folder(folder: Path) -> None:
    """Make the data folder, its owner's alone; one that exists keeps its mode. Raises NotWritable."""
    try:
        make_private(folder)
    except OSError as error:
        raise NotWritable(str(folder), error.strerror or str(error)) from error


def make_private(folder: Path) -> None:
    """Make a folder for its owner alone, whatever the umask; one that is there stays as it is."""
    if not folder.is_dir():
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder.chmod(0o700)


def _look_at(path: Path, busy_s: float, factory: Factory) -> None:
    """Raise what is wrong with a file before anything is written; no file or an empty one is fine."""
    if not _holds_anything(path):
        return
    _refuse_newer(path, busy_s, factory)
    try:
        _open_examined(path, "ro", busy_s, factory).close()
    except NotReadable:
        # A write that was cut short waits to be rolled back, which needs the right to write: the file
        # is examined again once it is open, before the first statement that writes.
        if not beside(path, "-journal").exists():
            raise


def _holds_anything(path: Path) -> bool:
    """Tell whether there is a file with anything in it.

    The file is never opened but by SQLite: closing it here would drop the locks that a connection of
    the same process holds on it (sqlite.org/howtocorrupt.html, section 2.2).
    """
    try:
        if path.stat().st_size > 0:
            return True
    except FileNotFoundError:
        pass
    except OSError as error:
        raise NotReadable(str(path), error.strerror or str(error)) from error
    if _log_holds_anything(path):  # SQLite would throw it away, and the newest acts with it
        raise Damaged(str(path), say("it is empty, but the log beside it is not"))
    return False


def _log_holds_anything(path: Path) -> bool:
    try:
        return beside(path, "-wal").stat().st_size > 0
    except OSError:
        return False


def _refuse_newer(path: Path, busy_s: float, factory: Factory) -> None:
    """Raise NewerBook for a book that says so itself, before anything is made beside it.

    The file is read without its log, as if nobody ever wrote it; anything odd is left to the real look,
    because the log may put it right.
    """
    with suppress(Damaged, NotReadable, InUse):
        _open_examined(path, "ro&immutable=1", busy_s, factory).close()


def examine(connection: sqlite3.Connection, path: Path) -> None:
    """Raise Damaged or NewerBook for what a connection finds, the newest writing included."""
    book_id = int(connection.execute("PRAGMA application_id").fetchone()[0])
    tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if book_id not in (0, BOOK_ID) or (book_id == 0 and tables):
        raise OtherFile(str(path))
    version = version_of(connection)
    if version > KNOWN_VERSION:
        raise NewerBook(str(path), version, KNOWN_VERSION)


def _open_examined(path: Path, mode: str, busy_s: float, factory: Factory) -> sqlite3.Connection:
    connection = _connect(path, mode, busy_s, factory)
    try:
        with translated(str(path), reading=True):
            examine(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


def _connect(path: Path, mode: str, busy_s: float, factory: Factory) -> sqlite3.Connection:
    with translated(str(path), reading=mode != "rw"):
        return sqlite3.connect(
            f"{path.absolute().as_uri()}?mode={mode}",
            uri=True,
            timeout=busy_s,
            isolation_level=None,
            factory=factory,
        )


def _refuse_protected(path: Path) -> None:
    """Raise NotWritable for a file that SQLite would, without a word, open for reading only."""
    may_write = os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)
    if path.is_file() and not may_write:
        raise NotWritable(str(path), say("the file is protected"))


def _own(path: Path) -> None:
    """Make the file if there is none, and keep it and what SQLite writes beside it to its owner."""
    try:
        try:
            os.close(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600))
            path.chmod(0o600)  # a umask may have taken rights of its owner's too
            sync_folder(path.parent)
        except FileExistsError:
            for file in (path, beside(path, "-wal"), beside(path, "-shm")):
                with suppress(FileNotFoundError):  # a reader that ends may take the two beside it along
                    if file.stat().st_mode & 0o077:
                        file.chmod(0o600)
    except OSError as error:
        raise NotWritable(str(path), error.strerror or str(error)) from error


def sync_file(path: Path) -> None:
    """Have the disk keep what is in a file."""
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def sync_folder(folder: Path) -> None:
    """Have the disk keep the name of a new file too; SQLite does so for the files that it makes itself."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def beside(path: Path, ending: str) -> Path:
    return path.with_name(path.name + ending)

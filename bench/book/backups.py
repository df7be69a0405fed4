"""Keep copies of the book: backups, made by themselves, and what was set aside, which is never removed.

A copy is one plain file, named by a running number, its date and why it was made. The number orders the
copies, since a clock may be set back. Backups are SQLite's online copies (sqlite.org/backup.html), each
checked before it counts; the last ten are kept.
"""

from __future__ import annotations

import os
import re
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple

from bench.book.faults import translated, written
from bench.book.files import connected_to_read, open_copy, sync_file, sync_folder
from bench.book.whole import check_whole
from bench.fault import Fault

BACKUPS = "backups"
SET_ASIDE = "set-aside"
MOST_KEPT = 10
NEW = ".new-"  # a copy that is not whole yet

_NAME = re.compile(r"(\d{4,9})-(\d{8}T\d{6})Z-([a-z0-9-]{1,60})\.sqlite3")
_DATE = "%Y%m%dT%H%M%S"


class Copy(NamedTuple):
    """A copy of the book. why: daily, restored, before-version-N; before-restore or damaged if set aside."""

    number: int
    at_utc: datetime
    why: str
    path: Path

    @property
    def is_backup(self) -> bool:
        return self.path.parent.name == BACKUPS


class Held(NamedTuple):
    """What a copy holds. newest_utc: of its last entry. fault: why it cannot be read, None where it can."""

    panels: tuple[str, ...] = ()
    entries: int = 0
    newest_utc: datetime | None = None
    fault: Fault | None = None


def copies(folder: Path) -> list[Copy]:
    """Return the copies beside the book of a folder, the newest first; none where there are none."""
    found = [copy for place in (BACKUPS, SET_ASIDE) for copy in _copies_in(folder / place)]
    return sorted(found, key=lambda copy: copy.number, reverse=True)


def _copies_in(place: Path) -> Iterator[Copy]:
    with suppress(OSError):
        for path in place.iterdir():
            named = _NAME.fullmatch(path.name)
            if named is not None:
                with suppress(ValueError):
                    at_utc = datetime.strptime(named[2], _DATE).replace(tzinfo=UTC)
                    yield Copy(int(named[1]), at_utc, named[3], path)


def held_in(copy: Copy) -> Held:
    """Return what a copy holds, so that one can be chosen."""
    try:
        with closing(connected_to_read(copy.path)) as connection, translated(str(copy.path), reading=True):
            panels = connection.execute("SELECT name FROM panel WHERE panel_id > 0 ORDER BY panel_id")
            names = tuple(str(row[0]) for row in panels)
            entries, newest = connection.execute("SELECT count(*), max(at_utc) FROM event").fetchone()
            newest_utc = datetime.fromisoformat(newest) if newest else None
    except Fault as fault:
        return Held(fault=fault)
    except ValueError:
        return Held(names, entries)
    return Held(names, entries, newest_utc)


def is_due(folder: Path, at_utc: datetime) -> bool:
    """Tell whether no backup was made yet on this day, as the maker's calendar has it."""
    newest = next((copy for copy in copies(folder) if copy.is_backup), None)
    return newest is None or newest.at_utc.astimezone().date() != at_utc.astimezone().date()


def back_up(connection: sqlite3.Connection, folder: Path, why: str, at_utc: datetime) -> Copy:
    """Copy a book to the backups of its folder, and let go of all but the last ten.

    Raises Damaged where the copy is not whole, files included, DiskFull, NotWritable; no backup is then
    let go of.
    """
    with made_beside(folder / BACKUPS) as new:
        _copy_online(connection, new)
        with closing(connected_to_read(new)) as made:
            check_whole(made, str(folder), files=True)
        kept = _keep(new, folder, BACKUPS, why, at_utc)
    _let_go(folder / BACKUPS)
    return kept


def set_aside(connection: sqlite3.Connection, folder: Path, why: str, at_utc: datetime) -> Copy:
    """Copy a book to where nothing is let go of."""
    with made_beside(folder / SET_ASIDE) as new:
        _copy_online(connection, new)
        return _keep(new, folder, SET_ASIDE, why, at_utc)


def name_for(folder: Path, place: str, why: str, at_utc: datetime) -> Path:
    """Return the path of the next copy; raises NotWritable where its folder cannot be made."""
    number = max((copy.number for copy in copies(folder)), default=0) + 1
    with written(folder):
        (folder / place).mkdir(mode=0o700, exist_ok=True)
    return folder / place / f"{number:04}-{at_utc.astimezone(UTC).strftime(_DATE)}Z-{why}.sqlite3"


@contextmanager
def made_beside(place: Path) -> Iterator[Path]:
    """Have an empty file of one's own in a folder, that is gone afterwards unless it was moved."""
    with written(place):
        place.mkdir(mode=0o700, parents=True, exist_ok=True)
        _sweep(place)
        handle, name = tempfile.mkstemp(dir=place, prefix=NEW, suffix=".sqlite3")
        os.close(handle)
    try:
        yield Path(name)
    finally:
        for ending in ("", "-journal", "-wal", "-shm"):
            with suppress(OSError):
                os.unlink(f"{name}{ending}")


def _sweep(place: Path) -> None:
    """Remove what a copy that was cut short has left; one program at a time makes copies."""
    for path in place.glob(f"{NEW}*"):
        path.unlink(missing_ok=True)


def _copy_online(connection: sqlite3.Connection, path: Path) -> None:
    with translated(str(path)), closing(open_copy(path)) as copy:
        connection.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")  # one file, that can be read where none can be written
    with written(path):
        sync_file(path)


def _keep(new: Path, folder: Path, place: str, why: str, at_utc: datetime) -> Copy:
    path = name_for(folder, place, why, at_utc)
    with written(path):
        os.replace(new, path)
        sync_folder(path.parent)
    return next(copy for copy in _copies_in(path.parent) if copy.path == path)


def _let_go(place: Path) -> None:
    kept = sorted(_copies_in(place), key=lambda copy: copy.number, reverse=True)
    for copy in kept[MOST_KEPT:]:
        with suppress(OSError):
            copy.path.unlink()

"""Open a book to work in it, whatever state it is in; and say what was done about it.

A damaged book is mended. One that another program holds, or that cannot be written, is read only. Once a
day it is checked whole and copied to its backups.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from bench.book.backups import copies
from bench.book.clock import Clock
from bench.book.faults import (
    Damaged,
    InUse,
    NoBook,
    NotReadable,
    NotWritable,
    OlderBook,
    OtherFile,
)
from bench.book.files import Factory
from bench.book.store import Store
from bench.book.told import NotBackedUp, ReadingOnly
from bench.fault import Fault
from bench.speech import say


@dataclass(frozen=True)
class Opened:
    """An open book, and what a person should be told of how it was opened, in order."""

    store: Store
    told: tuple[Fault, ...] = ()


def open_book(
    folder: Path, clock: Clock, *, busy_s: float = 5.0, factory: Factory = sqlite3.Connection
) -> Opened:
    """Open the book of a folder to work in it.

    Raises NewerBook and OtherFile, whose file is left as it was; InUse or NotWritable where the book can
    neither be written nor read.
    """
    try:
        store, told = _to_write(folder, clock, busy_s, factory)
    except (InUse, NotWritable) as fault:
        return Opened(*_to_read(folder, fault, busy_s, factory))
    except NotReadable as fault:  # perhaps only where SQLite has to write beside it
        return Opened(*_to_read(folder, NotWritable(fault.path, fault.reason), busy_s, factory))
    return Opened(store, (*told, *back_up(store, clock)))


def back_up(store: Store, clock: Clock) -> tuple[Fault, ...]:
    """Make the backup of the day where there is none yet; return what is to be told of it."""
    try:
        store.back_up_daily(clock.utc())
    except Fault as fault:
        return (NotBackedUp(fault),)
    return ()


def _to_write(folder: Path, clock: Clock, busy_s: float, factory: Factory) -> tuple[Store, tuple[Fault, ...]]:
    try:
        return _whole(folder, clock, busy_s, factory), ()
    except OtherFile:
        raise
    except Damaged:
        from bench.book.mending import mend  # nine modules that a whole book never needs

        told = mend(folder, clock.utc())
    return _whole(folder, clock, busy_s, factory), (told,)


def _whole(folder: Path, clock: Clock, busy_s: float, factory: Factory) -> Store:
    if not Store.exists(folder) and any(copy.is_backup for copy in copies(folder)):
        raise Damaged(str(folder), say("it is gone, and its backups are not"))
    store = Store.open(folder, busy_s=busy_s, factory=factory, clock=clock)
    try:
        store.check(clock.utc())
    except BaseException:
        store.close()
        raise
    return store


def _to_read(
    folder: Path, why: InUse | NotWritable, busy_s: float, factory: Factory
) -> tuple[Store, tuple[Fault, ...]]:
    try:
        store = Store.open(folder, read_only=True, busy_s=busy_s, factory=factory)
    except (NoBook, OlderBook, NotReadable, Damaged):
        raise why from None
    store.reading_because = why.what
    return store, (ReadingOnly(why),)


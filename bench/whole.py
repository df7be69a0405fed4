"""Write files whole or not at all: beside their place first, then moved into it."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from bench.fault import Fault
from bench.speech import say


class CannotWrite(Fault):
    """A result cannot be written where it was asked for."""

    def __init__(self, path: Path, why: str) -> None:
        self.path = path
        super().__init__(
            say("cannot be written ({why})", why=why),
            where=str(path),
            todo=say("name another file or folder"),
        )


def write_file(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: beside it first, then moved into its place.

    A link keeps pointing where it did; a device or a pipe is written to, never replaced. Raises CannotWrite.
    """
    try:
        if path.exists() and not path.is_file():
            _write_through(path, data)
            return
        path = path.resolve() if path.is_symlink() else path
        beside = _beside(path, data)
        try:
            os.replace(beside, path)
        except OSError:
            os.unlink(beside)
            raise
    except OSError as error:
        raise CannotWrite(path, error.strerror or str(error)) from error


def make_folder(folder: Path) -> None:
    """Make a folder and those above it where there are none. Raises CannotWrite."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CannotWrite(folder, error.strerror or str(error)) from error


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write several files into a folder, made where there is none; all are on the disk before one is named.

    Files of other names that lie there stay. Raises CannotWrite, and then leaves none of them behind, nor a
    folder that was not there before.
    """
    made = not folder.exists()
    beside: dict[str, str] = {}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            beside[name] = _beside(folder / name, data)
        for name in files:
            os.replace(beside[name], folder / name)
            del beside[name]
    except OSError as error:
        for left in beside.values():
            os.unlink(left)
        if made:
            with suppress(OSError):
                folder.rmdir()
        raise CannotWrite(folder, error.strerror or str(error)) from error


def _beside(path: Path, data: bytes) -> str:
    """Write the data into a new file beside a path, to the disk, and return its name."""
    handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())  # a disk that is full may say so only here
        os.chmod(beside, 0o666 & ~_umask())
    except BaseException:
        os.unlink(beside)
        raise
    return beside


def _write_through(path: Path, data: bytes) -> None:
    """Write into a device or a pipe; one that nobody reads is an error, not a wait without end."""
    handle = os.open(path, os.O_WRONLY | getattr(os, "O_NONBLOCK", 0))
    os.set_blocking(handle, True)
    with os.fdopen(handle, "wb") as out:
        out.write(data)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask

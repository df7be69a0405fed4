"""Write a file whole or not at all, wherever a result goes."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from bench.fault import Fault


class CannotWrite(Fault):
    """A result cannot be written where it was asked for."""

    def __init__(self, path: Path, why: str) -> None:
        self.path = path
        super().__init__(f"cannot be written ({why})", where=str(path), todo="name another file or folder")


def write_file(path: Path, data: bytes) -> None:
    """Write a file whole or not at all: beside it first, then moved into its place.

    A link keeps pointing where it did; a device or a pipe is written to, never replaced. Raises CannotWrite.
    """
    try:
        if path.exists() and not path.is_file():
            _write_through(path, data)
            return
        path = path.resolve() if path.is_symlink() else path
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as out:
                out.write(data)
            os.chmod(beside, 0o666 & ~_umask())
            os.replace(beside, path)
        except OSError:
            os.unlink(beside)
            raise
    except OSError as error:
        raise CannotWrite(path, error.strerror or str(error)) from error


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

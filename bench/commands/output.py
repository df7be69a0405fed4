"""Write what a command found: a table for people, JSON for programs, never half a file."""

from __future__ import annotations

import json
import math
import os
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bench.adhesive import Work, workshop_cautions
from bench.fault import Fault


class CannotWrite(Fault):
    """A result cannot be written where it was asked for."""

    def __init__(self, path: Path, why: str) -> None:
        self.path = path
        super().__init__(f"cannot be written ({why})", where=str(path), todo="name another file or folder")


def write_json(data: Any, target: str) -> None:
    """Write JSON to a file, or to stdout for '-'; infinity has no word in JSON and becomes null."""
    to_stdout = target == "-"  # whose encoding may know no more than ASCII
    text = json.dumps(_finite(data), indent=1, ensure_ascii=to_stdout, allow_nan=False) + "\n"
    if to_stdout:
        sys.stdout.write(text)
    else:
        write_file(Path(target), text.encode())


def _finite(value: Any) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, dict):
        return {k: _finite(v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(v) for v in value]
    return value


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


def caution_lines(work: Work) -> list[str]:
    """Return the cautions of some work of the bench, a line a group."""
    groups = workshop_cautions(work)
    return [f"{g.title}: {('; ' if g.codes else ' ').join(g.lines)}" for g in groups]


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return rows under their heads, numbers to the right, the first column to the left."""
    grid = [list(head), *[list(r) for r in rows]]
    widths = [max(len(row[k]) for row in grid) for k in range(len(head))]
    lines = [
        "  ".join(
            c.ljust(w) if k == 0 else c.rjust(w) for k, (c, w) in enumerate(zip(r, widths, strict=True))
        )
        for r in grid
    ]
    return "\n".join(line.rstrip() for line in lines)

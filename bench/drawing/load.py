"""Read a drawing from disk, with a word to say about every way that a file can fail."""

from __future__ import annotations

from pathlib import Path

from bench.drawing.faults import (
    DrawingIsNoFile,
    DrawingMissing,
    DrawingTooLarge,
    DrawingUnreadable,
)
from bench.drawing.panel import Panel
from bench.drawing.svg import MOST_BYTES, read_drawing


def load_drawing(
    path: Path, *, width_mm: float | None = None, height_mm: float | None = None
) -> tuple[bytes, Panel]:
    """Return the file as it is and the panel that it draws.

    Raises DrawingMissing, DrawingIsNoFile, DrawingUnreadable or DrawingTooLarge for the file, and any
    other DrawingFault for what is in it.
    """
    data = load_bytes(path)
    return data, read_drawing(data, path.name, width_mm=width_mm, height_mm=height_mm)


def load_bytes(path: Path) -> bytes:
    """Return a drawing's file as it is, unread; raises what load_drawing raises for the file."""
    name = str(path)
    try:
        if not path.exists():
            raise DrawingMissing(name)
        if not path.is_file():
            raise DrawingIsNoFile(name)
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise DrawingUnreadable(name, error.strerror or "unknown reason") from None
    except ValueError:  # a name that no file can have
        raise DrawingMissing(name) from None
    if len(data) > MOST_BYTES:
        raise DrawingTooLarge(name, MOST_BYTES)
    return data

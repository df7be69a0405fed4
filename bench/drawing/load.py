"""Read a drawing from disk, with a word to say about every way that a file can fail."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from bench.drawing.faults import (
    DrawingFault,
    DrawingIsNoFile,
    DrawingMissing,
    DrawingTooLarge,
    DrawingUnreadable,
)
from bench.drawing.panel import Panel
from bench.drawing.photo.faults import PictureFileTooLarge
from bench.drawing.photo.read import MOST_BYTES as MOST_PICTURE_BYTES
from bench.drawing.svg import MOST_BYTES, read_drawing


def load_drawing(
    path: Path, *, width_mm: float | None = None, height_mm: float | None = None
) -> tuple[bytes, Panel]:
    """Return the file as it is and the panel that it draws.

    Raises DrawingMissing, DrawingIsNoFile, DrawingUnreadable or DrawingTooLarge for the file, and any
    other DrawingFault for what is in it.
    """
    data = _bytes_of(path, MOST_BYTES, DrawingTooLarge)
    return data, read_drawing(data, path.name, width_mm=width_mm, height_mm=height_mm)


def load_picture(path: Path) -> bytes:
    """Return a picture's file as it is, unread; raises as load_drawing does for the file."""
    return _bytes_of(path, MOST_PICTURE_BYTES, PictureFileTooLarge)


def _bytes_of(path: Path, most_bytes: int, too_large: Callable[[str, int], DrawingFault]) -> bytes:
    name = str(path)
    try:
        if not path.exists():
            raise DrawingMissing(name)
        if not path.is_file():
            raise DrawingIsNoFile(name)
        with path.open("rb") as file:
            data = file.read(most_bytes + 1)
    except OSError as error:
        raise DrawingUnreadable(name, error.strerror or "unknown reason") from None
    except ValueError:  # a name that no file can have
        raise DrawingMissing(name) from None
    if len(data) > most_bytes:
        raise too_large(name, most_bytes)
    return data

"""Read a drawing from disk, with a word to say about every way that a file can fail."""

from __future__ import annotations

from pathlib import Path

from bench.drawing.faults import (
    DrawingIsNoFile,
    DrawingMissing,
    DrawingTooLarge,
    DrawingUnreadable,
)
from bench.drawing.from_picture import is_picture
from bench.drawing.panel import Panel
from bench.drawing.photo.faults import PictureFileTooLarge
from bench.drawing.photo.read import MOST_BYTES as MOST_PICTURE_BYTES
from bench.drawing.svg import MOST_BYTES, read_drawing
from bench.speech import say

_HEAD = 16  # bytes that tell a picture


def load_drawing(
    path: Path, *, width_mm: float | None = None, height_mm: float | None = None
) -> tuple[bytes, Panel]:
    """Return the file as it is and the panel that it draws.

    Raises DrawingMissing, DrawingIsNoFile, DrawingUnreadable or DrawingTooLarge for the file, and any
    other DrawingFault for what is in it.
    """
    data = file_bytes(path)
    return data, read_drawing(data, path.name, width_mm=width_mm, height_mm=height_mm)


def file_bytes(path: Path) -> bytes:
    """Return a drawing or picture as it is.

    Raises DrawingMissing, DrawingIsNoFile, DrawingUnreadable, or for its size DrawingTooLarge or
    PictureFileTooLarge.
    """
    name = str(path)
    try:
        if not path.exists():
            raise DrawingMissing(name)
        if not path.is_file():
            raise DrawingIsNoFile(name)
        with path.open("rb") as file:
            data = file.read(_HEAD)
            picture = is_picture(data)
            data += file.read((MOST_PICTURE_BYTES if picture else MOST_BYTES) + 1 - len(data))
    except OSError as error:
        raise DrawingUnreadable(name, error.strerror or say("unknown reason")) from None
    except ValueError:  # a name that no file can have
        raise DrawingMissing(name) from None
    if picture and len(data) > MOST_PICTURE_BYTES:
        raise PictureFileTooLarge(name, MOST_PICTURE_BYTES)
    if not picture and len(data) > MOST_BYTES:
        raise DrawingTooLarge(name, MOST_BYTES)
    return data

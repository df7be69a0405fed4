"""A picture in place of a drawing: told by its first bytes, and how large what it shows is."""

from __future__ import annotations

from bench.drawing.faults import DrawingFault
from bench.drawing.numbers import IDENTITY, PX_PER_MM
from bench.drawing.page import Page, panel_size_mm
from bench.drawing.photo.read import Picture
from bench.speech import say

WAYS = ("lines", "study")  # a drawing of every tessera; a painted colour study


class SizeNeeded(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("the picture does not say how large it is"),
            todo=say("give its true width with --width-mm"),
        )


class PictureNeedsWay(DrawingFault):
    """A picture may show the tesserae themselves, or only what they are to show."""

    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("this is a picture, which can be read in two ways"),
            todo=say("add --as lines where every tessera is drawn, or --as study for a painted study"),
        )


class NoPictureHere(DrawingFault):
    def __init__(self, name: str) -> None:
        super().__init__(
            name,
            say("this is no PNG, JPEG or WebP picture, so there is nothing to read as one"),
            todo=say("leave --as out for an SVG drawing, or name a picture"),
        )


def is_picture(data: bytes) -> bool:
    """Tell whether a file begins as a PNG, a JPEG or a WebP does; its first 12 bytes are enough.

    PNG: ISO/IEC 15948, 5.2. JPEG: ITU-T T.81, annex B, start of image and one more marker. WebP: RFC 9649.
    The values are from memory.
    """
    webp = data[:4] == b"RIFF" and data[8:12] == b"WEBP"
    return webp or data.startswith((b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff"))


def picture_size_mm(
    picture: Picture, width_mm: float | None = None, height_mm: float | None = None
) -> tuple[float, float]:
    """Return the true width and height of what the picture shows: as given, else as its scanner says.

    One side given keeps the proportion. Raises SizeNeeded or SizeOutOfRange.
    """
    if picture.mm_per_px is None and width_mm is None and height_mm is None:
        raise SizeNeeded(picture.name)
    rows, columns = picture.pixels.shape[:2]
    px = (picture.mm_per_px or 1.0) * PX_PER_MM
    page = Page(columns * px, rows * px, IDENTITY, (columns * px, rows * px))
    return panel_size_mm(page, picture.name, width_mm, height_mm)

"""A picture file → plain sRGB pixels, upright, and nothing else of what the file carried."""

from __future__ import annotations

import io
import math
import struct
import warnings
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import DrawingEmpty
from bench.drawing.photo.faults import (
    NotAPicture,
    PictureBroken,
    PictureFileTooLarge,
    PictureTooLarge,
    PictureTooSmall,
)
from bench.speech.measures import MM_PER_INCH

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_BYTES = 256 * 2**20
MOST_PIXELS = 50_000_000
LEAST_PX = 16
# cameras write 72 or 96 without having measured anything; a scanner's figure lies well above
TRUSTED_DPI = (100.0, 10_000.0)

_FORMATS = ("PNG", "JPEG", "WEBP")
_BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    EOFError,
    KeyError,
    IndexError,
    TypeError,
    struct.error,
    zlib.error,
)

Pixels = NDArray[np.uint8]


@dataclass(frozen=True, eq=False)
class Picture:
    """Pixels of a picture, upright. Place and time of taking, and all other metadata, are dropped.

    pixels: (rows, columns, 3) sRGB.
    mm_per_px: edge of a pixel on the paper, where a scanner says so; None for a camera. [mm]
    """

    pixels: Pixels
    mm_per_px: float | None
    name: str = ""


def read_picture(data: bytes, name: str) -> Picture:
    """Return the picture in a PNG, JPEG or WebP file, turned as its orientation mark says.

    Transparent pixels lie over white; greys, palettes, CMYK and 16 bits become 8-bit RGB; of several
    frames the first is read. Size is judged by the file's head, before anything is decoded. `name` is
    what faults call the file. Raises DrawingEmpty, PictureFileTooLarge, NotAPicture, PictureTooLarge,
    PictureTooSmall or PictureBroken.
    """
    from PIL import ImageOps

    if not data:
        raise DrawingEmpty(name)
    if len(data) > MOST_BYTES:
        raise PictureFileTooLarge(name, MOST_BYTES)
    with warnings.catch_warnings():  # what is odd about its metadata is nobody's concern
        warnings.simplefilter("ignore")
        image = _opened(data, name)
        try:
            mm_per_px = _mm_per_px(image)
            image.load()
            upright = ImageOps.exif_transpose(image) or image
            pixels = np.array(_rgb(upright), np.uint8)
        except _BROKEN as error:
            raise PictureBroken(name, str(error)[:80] or type(error).__name__) from None
    return Picture(pixels, mm_per_px, name)


def _opened(data: bytes, name: str) -> Image:
    """Return the picture with only its head read; raise where that is none, or claims an unfit size."""
    from PIL import Image, UnidentifiedImageError

    try:
        image = Image.open(io.BytesIO(data), formats=_FORMATS)  # whose own limit is higher, and only warns
    except Image.DecompressionBombError:
        raise PictureTooLarge(name, None, MOST_PIXELS) from None
    except UnidentifiedImageError:
        raise NotAPicture(name) from None
    except _BROKEN as error:
        raise PictureBroken(name, str(error)[:80] or type(error).__name__) from None
    size = (int(image.size[0]), int(image.size[1]))
    if size[0] * size[1] > MOST_PIXELS:
        raise PictureTooLarge(name, size, MOST_PIXELS)
    if min(size) < LEAST_PX:
        raise PictureTooSmall(name, size, LEAST_PX)
    return image


def _mm_per_px(image: Image) -> float | None:
    """Return the edge of a pixel that the file states; None where both ways differ or it is a filler. [mm]"""
    try:
        across, down = (float(value) for value in image.info.get("dpi", (0, 0)))
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    low, high = TRUSTED_DPI
    if not (low <= across <= high and math.isclose(across, down, rel_tol=0.01)):
        return None
    return MM_PER_INCH / across


def _rgb(image: Image) -> Image:
    """Return the picture in 8-bit RGB, what is transparent over white."""
    from PIL import Image

    if image.mode.startswith("I"):  # 16 bits of grey
        grey = np.asarray(image, np.float64) / 257
        return Image.fromarray(np.clip(np.rint(grey), 0, 255).astype(np.uint8)).convert("RGB")
    if image.has_transparency_data:
        glassy = image.convert("RGBA")
        return Image.alpha_composite(Image.new("RGBA", glassy.size, "white"), glassy).convert("RGB")
    return image.convert("RGB")

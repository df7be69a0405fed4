"""A photo as it is kept: upright, no larger than it need be, and nothing in it of who took it or where."""

from __future__ import annotations

import io
import math

import numpy as np

from bench.drawing.photo import Picture, turned

MOST_KEPT_PX = 6_000_000
QUALITY = 85


def as_kept(picture: Picture, quarters: int = 0) -> bytes:
    """Return a JPEG of the pixels turned clockwise by so many quarters, of at most six megapixels.

    It is written from pixels alone, so that no metadata comes along.
    """
    from PIL import Image

    image = Image.fromarray(np.ascontiguousarray(turned(picture.pixels, quarters)))
    scale = math.sqrt(MOST_KEPT_PX / (image.size[0] * image.size[1]))
    if scale < 1:
        size = (max(1, int(image.size[0] * scale)), max(1, int(image.size[1] * scale)))
        image = image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    file = io.BytesIO()
    image.save(file, "JPEG", quality=QUALITY)
    return file.getvalue()

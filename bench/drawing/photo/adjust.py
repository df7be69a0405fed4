"""Make a picture ready to be looked at: turned, lightened, made smaller; and corners to begin with."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.photo.read import Picture, Pixels
from bench.drawing.photo.square import Corners, Point, square_up

GAMMA_STEP = 1.25
MOST_STEPS = 5  # either way: gamma 3, beyond which only noise is left
INSET = 0.06  # of each side: where corners begin, so that all four can be seen and taken hold of

Quad = tuple[Point, Point, Point, Point]


def turned(pixels: Pixels, quarters: int) -> Pixels:
    """Return the pixels turned clockwise by so many quarters; a view of the same memory."""
    return np.rot90(pixels, -quarters)


def turned_corners(corner_px: Quad, size_px: tuple[float, float], quarters: int) -> Quad:
    """Return corners that turn with their picture, the first again top left.

    size_px: width and height before the turn. A quarter takes (x, y) to (height − y, x).
    """
    width, height = size_px
    corners = list(corner_px)
    for _ in range(quarters % 4):
        corners = [(height - y, x) for x, y in corners]
        corners = [corners[3], *corners[:3]]
        width, height = height, width
    return corners[0], corners[1], corners[2], corners[3]


def tone(steps: int) -> NDArray[np.uint8]:
    """Return what each of the 256 values becomes: 255·(v/255)^(1.25^−steps); black and white stay."""
    values = np.arange(256) / 255
    return np.rint(255 * values ** (GAMMA_STEP**-steps)).astype(np.uint8)


def lightened(picture: Picture, steps: int) -> Picture:
    """Return the picture lightened by so many steps, darkened where they are negative; 0 leaves it be."""
    if not steps:
        return picture
    return Picture(tone(steps)[picture.pixels], picture.mm_per_px, picture.name)


def shrunk(pixels: Pixels, most_px: int) -> Pixels:
    """Return the pixels at most so many on the longer side, each the mean of a square; few stay as they are.

    Goes strip by strip, so that a large picture is never held twice.
    """
    from PIL import Image

    by = math.ceil(max(pixels.shape[:2]) / most_px)
    if by <= 1:
        return np.ascontiguousarray(pixels)
    strip = 64 * by
    parts = [
        np.asarray(Image.fromarray(np.ascontiguousarray(pixels[top : top + strip])).reduce(by))
        for top in range(0, len(pixels), strip)
    ]
    return np.concatenate(parts)


def whole(size_px: tuple[float, float]) -> Quad:
    """Return the picture's own corners."""
    return inset(size_px, 0.0)


def inset(size_px: tuple[float, float], share: float = INSET) -> Quad:
    """Return corners that lie within the picture by a share of each side."""
    (width, height), (x, y) = size_px, (share * size_px[0], share * size_px[1])
    return (x, y), (width - x, y), (width - x, height - y), (x, height - y)


def paper_mm(corner_px: Sequence[Point], mm_per_px: float) -> tuple[float, float]:
    """Return the width and height between the corners on paper: opposite edges' mean, to a tenth of a mm."""
    sides = [math.dist(corner_px[k], corner_px[(k + 1) % 4]) for k in range(4)]
    width, height = (sides[0] + sides[2]) / 2, (sides[1] + sides[3]) / 2
    return round(width * mm_per_px, 1), round(height * mm_per_px, 1)


def ready(picture: Picture, quarters: int, corners: Corners, steps: int) -> Picture:
    """Return what lies between the corners: turned, squared up and lightened, in this order.

    A whole picture is not squared up: its pixels stay as they are. Raises as square_up.
    """
    upright = Picture(turned(picture.pixels, quarters), picture.mm_per_px, picture.name)
    rows, columns = upright.pixels.shape[:2]
    if corners.corner_px == whole((columns, rows)):
        flat = Picture(np.ascontiguousarray(upright.pixels), corners.width_mm / columns, picture.name)
    else:
        flat = square_up(upright, corners)
    return lightened(flat, steps)

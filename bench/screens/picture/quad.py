"""Four corners under a finger: which one is meant, where it goes, and what the lens shows. No Kivy here.

Places are in pixels of the picture, x right, y down; corners run from top left clockwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.speech import say

Point = tuple[float, float]
Pixels = NDArray[np.uint8]

SURROUND = 0x77  # the grey round all pictures, here for what lies beyond the rim


def corner_name(which: int) -> str:
    """Name a corner, counted from top left clockwise."""
    return (say("top left"), say("top right"), say("bottom right"), say("bottom left"))[which]


def nearest(corners: Sequence[Point], at: Point) -> int:
    """Return which corner lies nearest to a place; of two as near, the first."""
    return min(range(len(corners)), key=lambda k: math.dist(corners[k], at))


def kept(at: Point, size_px: Point) -> Point:
    """Return the place of the picture nearest to this one."""
    return min(max(at[0], 0.0), float(size_px[0])), min(max(at[1], 0.0), float(size_px[1]))


def moved(corners: Sequence[Point], which: int, to: Point, size_px: Point) -> tuple[Point, ...]:
    """Return the corners with one of them put elsewhere, within the picture."""
    return (*corners[:which], kept(to, size_px), *corners[which + 1 :])


def opposite(which: int) -> tuple[bool, bool]:
    """Return whether the lens stands right, and whether at the top: far from the finger on this corner."""
    return which in (0, 3), which in (2, 3)


def under_lens(pixels: Pixels, at: Point, across_px: int) -> Pixels:
    """Return the square about a place, (across, across, 3): grey where it reaches beyond the picture.

    The pixel whose corner lies nearest to `at` begins in the middle.
    """
    half = across_px // 2
    left, top = round(at[0]) - half, round(at[1]) - half
    seen = np.full((across_px, across_px, 3), SURROUND, np.uint8)
    rows, columns = pixels.shape[:2]
    y1, y2 = max(top, 0), min(top + across_px, rows)
    x1, x2 = max(left, 0), min(left + across_px, columns)
    if y1 < y2 and x1 < x2:
        seen[y1 - top : y2 - top, x1 - left : x2 - left] = pixels[y1:y2, x1:x2]
    return seen


def ways(corners: Sequence[Point], which: int) -> tuple[Point, Point]:
    """Return the directions, of length 1, from a corner along both of its edges; (0, 0) for no edge."""
    found = []
    for other in (corners[which - 1], corners[(which + 1) % len(corners)]):
        dx, dy = other[0] - corners[which][0], other[1] - corners[which][1]
        far = math.hypot(dx, dy) or 1.0
        found.append((dx / far, dy / far))
    return found[0], found[1]

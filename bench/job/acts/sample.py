"""The sample tile: measure the colours of grouts in a photo of a tile of the same glass, dry or sealed.

The way: `squared` gives the tile seen from above; `measured_colour` looks at a place of it (no book is
touched); `measure` keeps what was tapped and the photo as one act.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Mapping
from typing import Literal

from bench.book.events import SampleMeasured
from bench.drawing.photo import Corners, Picture, Quad, read_picture, square_up
from bench.finish.tile import measured_colour
from bench.job.acts.dry_photo import MEDIA
from bench.job.acts.zoning import colour_name
from bench.job.finish_faults import OutOfTurn
from bench.job.job import Job
from bench.speech import say

Point = tuple[float, float]
TILE_MM = (100.0, 100.0)  # a usual one; colours do not hang on it


def size_mm(corner_px: Quad) -> Point:
    """Return width and height of a tile of the shape that its corners show, the longer 100 mm."""
    a, b, c, d = corner_px
    wide, high = math.dist(a, b) + math.dist(d, c), math.dist(a, d) + math.dist(b, c)
    most = max(wide, high, 1.0)
    return max(1.0, round(100.0 * wide / most, 1)), max(1.0, round(100.0 * high / most, 1))


def squared(picture: Picture, corner_px: Quad, size_mm: Point = TILE_MM) -> Picture:
    """Return the tile seen from above. Raises CornersCross or SizeOutOfRange."""
    width_mm, height_mm = size_mm
    return square_up(picture, Corners(corner_px=corner_px, width_mm=width_mm, height_mm=height_mm))


def measure(
    job: Job,
    data: bytes,
    *,
    corner_px: Quad,
    spots: Mapping[str, Point],
    state: Literal["dry", "sealed"],
    card_mm: Point | None = None,
    size_mm: Point = TILE_MM,
) -> None:
    """Keep the colours of grouts, by name, each at the place of its joint on the tile; and the photo.

    data: the photo as the book keeps it. Raises as `read_picture`, `squared` and `measured_colour` do,
    OutOfTurn where nothing was tapped, NamelessColour.
    """
    if not spots:
        todo = say("tap the joint of a grout, then keep it")
        raise OutOfTurn(say("sample tile"), say("no joint was tapped"), todo)
    flat = squared(read_picture(data, say("the tile")), corner_px, size_mm)
    photo = hashlib.sha256(data).hexdigest()
    events = [
        SampleMeasured(
            grout=colour_name(name, "grout"),
            state=state,
            colour=measured_colour(flat, at_mm, card_mm),
            photo=photo,
            corner_px=corner_px,
            size_mm=size_mm,
            at_mm=at_mm,
            card_mm=card_mm,
        )
        for name, at_mm in spots.items()
    ]
    job.write(*events, files=[(data, MEDIA)])

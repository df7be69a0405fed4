"""Square up: four corners in a photo and the true size → the plane they span, seen from straight above."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.faults import SizeOutOfRange
from bench.drawing.page import LEAST_MM, MOST_MM
from bench.drawing.panel import FloatArray
from bench.drawing.photo.faults import CornersCross
from bench.drawing.photo.read import MOST_PIXELS, Picture

_FLAT = 0.01  # of the longer diagonal: a corner nearer to the line between its neighbours is none

Point = tuple[float, float]


class Corners(BaseModel):
    """Where the corners lie in the photo, and what they are in truth: a rectangle of width by height.

    corner_px: top left, top right, bottom right, bottom left; x right, y down from the photo's corner. [px]
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    corner_px: tuple[Point, Point, Point, Point]
    width_mm: float
    height_mm: float
    tap_px: float = Field(default=2.0, ge=0)  # how far off a tap may be


def homography(source: FloatArray, target: FloatArray) -> FloatArray:
    """Return the (3, 3) matrix that takes four points (4, 2) to four others, its last entry 1.

    Each pair gives two rows of a linear system: x'·(g·x + h·y + 1) = a·x + b·y + c, and y' likewise.
    Raises numpy's LinAlgError where three source points lie on one line.
    """
    rows, right = [], []
    for (x, y), (u, v) in zip(source.tolist(), target.tolist(), strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    return np.append(np.linalg.solve(np.array(rows), np.array(right)), 1.0).reshape(3, 3)


def square_up(picture: Picture, corners: Corners) -> Picture:
    """Return the rectangle between the corners, perspective removed, as fine as the photo shows it.

    A pixel is as fine as along the edge that the photo shows best, coarser only where that would pass
    50 megapixels. Raises SizeOutOfRange or CornersCross.
    """
    from PIL import Image

    seen = _checked(picture, corners)
    scale = _px_per_mm(seen, corners)
    size = (max(1, round(corners.width_mm * scale)), max(1, round(corners.height_mm * scale)))
    back = homography(_rectangle(*size), seen)
    flat = Image.fromarray(picture.pixels).transform(
        size, Image.Transform.PERSPECTIVE, back.ravel()[:8].tolist(), Image.Resampling.BICUBIC
    )
    return Picture(np.array(flat, np.uint8), corners.width_mm / size[0], picture.name)


def corner_error_mm(picture: Picture, corners: Corners) -> FloatArray:
    """Return how far off each corner may be, (4,): the tap's own error carried to the panel. [mm]

    The greatest stretch of the map at that corner times tap_px. Raises as square_up.
    """
    seen = _checked(picture, corners)
    matrix = homography(seen, _rectangle(corners.width_mm, corners.height_mm))
    found = []
    for x, y in seen.tolist():
        u, v, w = matrix @ (x, y, 1.0)
        slope = (matrix[:2, :2] - np.outer((u / w, v / w), matrix[2, :2])) / w
        found.append(float(np.linalg.norm(slope, 2)))
    return np.array(found) * corners.tap_px


def _rectangle(width: float, height: float) -> FloatArray:
    return np.array([(0, 0), (width, 0), (width, height), (0, height)], float)


def _px_per_mm(seen: FloatArray, corners: Corners) -> float:
    edge = np.hypot(*(np.roll(seen, -1, axis=0) - seen).T)
    finest = float(np.max(edge / np.array([corners.width_mm, corners.height_mm] * 2)))
    return min(finest, 0.999 * math.sqrt(MOST_PIXELS / (corners.width_mm * corners.height_mm)))


def _checked(picture: Picture, corners: Corners) -> NDArray[np.float64]:
    """Return the corners (4, 2); raise where they span no rectangle seen from its front."""
    if not all(LEAST_MM <= size <= MOST_MM for size in (corners.width_mm, corners.height_mm)):
        raise SizeOutOfRange(picture.name, corners.width_mm, corners.height_mm)
    seen = np.array(corners.corner_px, float)
    along, on = np.roll(seen, -1, axis=0) - seen, np.roll(seen, -2, axis=0) - np.roll(seen, -1, axis=0)
    turn = along[:, 0] * on[:, 1] - along[:, 1] * on[:, 0]
    across = max(math.dist(seen[0], seen[2]), math.dist(seen[1], seen[3]))
    if not (turn > _FLAT * across**2).all():
        raise CornersCross(picture.name, [tuple(point) for point in seen.tolist()])
    return seen

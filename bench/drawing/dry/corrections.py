"""What a maker says of the pieces that were found: words that can be said again over the same photo."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict, Field

from bench.drawing.dry.faults import CutsNothing, NoPieceThere, NoRoomThere, TooFarApart
from bench.drawing.dry.found import Found, numbered
from bench.drawing.dry.glass import disc
from bench.drawing.lines.gaps import drawn

Point = tuple[float, float]
Kind = Literal["added", "taken_away", "parted", "made_one"]
Labels = NDArray[np.int32]

JOINT_MM = 0.5  # what an added piece leaves to its neighbours; a cut is half as wide
LEAST_RADIUS_MM, USUAL_RADIUS_MM = 0.8, 2.5
LEAST_PART_MM2 = 1.0
WIDEST_GAP_MM = 3.0  # between two that are made one


class Correction(BaseModel):
    """One thing said. points_mm, from the rectangle's top left: the place of a piece; the line that parts
    one; a place in each of two that are one."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    kind: Kind
    points_mm: tuple[Point, ...] = Field(min_length=1, max_length=5000)


def corrected(found: Found, corrections: Iterable[Correction]) -> Found:
    """Return what was found as the maker corrected it, in order.

    Raises NoPieceThere, NoRoomThere, CutsNothing or TooFarApart for what cannot be done.
    """
    for said in corrections:
        found = _DO[said.kind](found, said.points_mm)
    return found


def tapped(found: Found, x_mm: float, y_mm: float, slack_mm: float = 0.0) -> Correction:
    """Return what a tap means: the piece there is none, or on bare ground there is one."""
    kind: Kind = "taken_away" if found.piece_at(x_mm, y_mm, slack_mm) else "added"
    place = (x_mm, y_mm) if kind == "added" else _within(found, found.piece_at(x_mm, y_mm, slack_mm))
    return Correction(kind=kind, points_mm=(place,))


def stroked(found: Found, points_mm: Sequence[Point]) -> Correction:
    """Return what a stroke means: from one piece into another they are one, else it parts what it crosses."""
    ends = [found.piece_at(*points_mm[0]), found.piece_at(*points_mm[-1])]
    if 0 not in ends and ends[0] != ends[1]:
        return Correction(kind="made_one", points_mm=(points_mm[0], points_mm[-1]))
    return Correction(kind="parted", points_mm=tuple(points_mm[:5000]))


def _within(found: Found, piece: int) -> Point:
    """Return the place of a piece that is farthest from its edge."""
    from scipy.ndimage import distance_transform_edt, find_objects

    rows, columns = find_objects(found.labels)[piece - 1]
    far = distance_transform_edt(np.pad(found.labels[rows, columns] == piece, 1))[1:-1, 1:-1]
    y, x = np.unravel_index(int(np.argmax(far)), far.shape)
    scale = found.mm_per_px
    return float((columns.start + x + 0.5) * scale), float((rows.start + y + 0.5) * scale)


def _added(found: Found, points_mm: Sequence[Point]) -> Found:
    """Add a round piece, as large as most, or as its neighbours leave room for."""
    from scipy.ndimage import distance_transform_edt

    scale, (x, y) = found.mm_per_px, points_mm[0]
    rows, columns = found.labels.shape
    row, column = int(y / scale), int(x / scale)
    if not (0 <= row < rows and 0 <= column < columns):
        raise NoRoomThere(found.name)
    area = found.area_mm2()
    usual_mm = float(np.sqrt(np.median(area) / np.pi)) if len(area) else USUAL_RADIUS_MM
    reach = int((usual_mm + JOINT_MM) / scale) + 2
    top, left = max(0, row - reach), max(0, column - reach)
    near = found.labels[top : row + reach + 1, left : column + reach + 1]
    bare = distance_transform_edt(near == 0)[row - top, column - left] if near.any() else np.inf
    if near[row - top, column - left] or bare * scale - JOINT_MM < LEAST_RADIUS_MM:
        raise NoRoomThere(found.name)
    radius = min(usual_mm, float(bare) * scale - JOINT_MM) / scale
    v, u = np.ogrid[:rows, :columns]
    labels = found.labels.copy()
    labels[(u + 0.5 - x / scale) ** 2 + (v + 0.5 - y / scale) ** 2 <= radius**2] = found.count + 1
    return numbered(labels, found)


def _taken_away(found: Found, points_mm: Sequence[Point]) -> Found:
    piece = found.piece_at(*points_mm[0])
    if not piece:
        raise NoPieceThere(found.name)
    return numbered(np.where(found.labels == piece, 0, found.labels).astype(np.int32), found)


def _parted(found: Found, points_mm: Sequence[Point]) -> Found:
    """Part each piece that the line crosses from edge to edge; its own pixels go to the nearer part."""
    from scipy.ndimage import find_objects

    scale = found.mm_per_px
    line = drawn(
        np.zeros(found.labels.shape, bool),
        [(np.array(points_mm, float) / scale, max(1.5, JOINT_MM / 2 / scale))],
    )
    labels, free, boxes = found.labels.copy(), found.count + 1, find_objects(found.labels)
    for piece in np.unique(found.labels[line & (found.labels > 0)]).tolist():
        box = boxes[piece - 1]
        parts, count = _parts(found.labels[box] == piece, line[box], LEAST_PART_MM2 / scale**2)
        for k in range(2, count + 1):
            labels[box][parts == k] = free
            free += 1
    if free == found.count + 1:
        raise CutsNothing(found.name)
    return numbered(labels, found)


def _parts(piece: NDArray[np.bool_], line: NDArray[np.bool_], least_px: float) -> tuple[Labels, int]:
    """Return the parts of a piece on either side of a line, 1 … n, all of it shared out among them."""
    from scipy.ndimage import distance_transform_edt, label

    found, count = label(piece & ~line)
    large = np.bincount(found.ravel(), minlength=count + 1) >= least_px
    large[0] = False
    parts = np.where(large, np.cumsum(large), 0)[found]
    nearest = distance_transform_edt(parts == 0, return_distances=False, return_indices=True)
    return np.where(piece, parts[tuple(nearest)], 0).astype(np.int32), int(large.sum())


def _made_one(found: Found, points_mm: Sequence[Point]) -> Found:
    """Make two neighbours one piece, the joint between them too."""
    from scipy.ndimage import binary_closing, distance_transform_edt, find_objects

    one, other = found.piece_at(*points_mm[0]), found.piece_at(*points_mm[-1])
    if not one or not other or one == other:
        raise TooFarApart(found.name)
    labels = found.labels.copy()
    both = find_objects(np.isin(labels, (one, other)).astype(np.int32))[0]
    near = labels[both]
    far = distance_transform_edt(near != one)[near == other].min()
    if far * found.mm_per_px > WIDEST_GAP_MM:
        raise TooFarApart(found.name)
    near[near == other] = one
    reach = int(far) + 2
    whole = binary_closing(np.pad(near == one, reach), disc(far / 2 + 1))[reach:-reach, reach:-reach]
    near[whole & (near == 0)] = one
    return numbered(labels, found)


_DO: dict[Kind, Callable[[Found, Sequence[Point]], Found]] = {
    "added": _added,
    "taken_away": _taken_away,
    "parted": _parted,
    "made_one": _made_one,
}

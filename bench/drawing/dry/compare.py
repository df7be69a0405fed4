"""What was laid against what was drawn: which piece stands for which, what is missing, what was added."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from pydantic import BaseModel, ConfigDict

from bench.drawing.dry.found import Found, numbered
from bench.drawing.dry.frame import Frame
from bench.drawing.panel import FloatArray, Panel

REACH = 0.75  # of a drawn piece's edge: how far from its place one may lie and still be it
LEAST_REACH_MM = 2.0
_NEVER = 1e6  # dearer than all that can match together: as many as can be are matched first


class Compared(BaseModel):
    """drawn, laid: how many. gaps: drawn tesserae that no piece stands for. added: pieces, from 1, that stand
    for none. pairs: tessera and piece. shift_mm: half of all pieces lie farther from their drawn place;
    0 where none matched."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    drawn: int
    laid: int
    gaps: tuple[int, ...]
    added: tuple[int, ...]
    pairs: tuple[tuple[int, int], ...]
    shift_mm: float


def compared(found: Found, panel: Panel, tesserae: Sequence[int], frame: Frame) -> Compared:
    """Return how the pieces of a photo stand for the drawn tesserae of a section, by where they lie.

    Centroid to centroid, no farther than the reach of the drawn piece: as many pairs as there can be, of
    these the shortest together (the assignment problem: Kuhn 1955; Crouse 2016 as in SciPy).
    """
    from scipy.optimize import linear_sum_assignment

    members = np.unique(np.asarray(tesserae, np.int64))
    places = frame.on_panel(found.centroid_mm())
    far = _apart(panel.centroid_mm[members], places)
    reach = np.maximum(REACH * np.sqrt(panel.area_mm2[members]), LEAST_REACH_MM)
    near = far <= reach[:, None]
    row, column = linear_sum_assignment(np.where(near, far, _NEVER))
    matched = near[row, column]
    row, column = row[matched], column[matched]
    pieces = np.arange(1, found.count + 1)
    return Compared(
        drawn=len(members),
        laid=found.count,
        gaps=tuple(np.delete(members, row).tolist()),
        added=tuple(np.delete(pieces, column).tolist()),
        pairs=tuple(zip(members[row].tolist(), (column + 1).tolist(), strict=True)),
        shift_mm=float(np.median(far[row, column])) if len(row) else 0.0,
    )


def of_section(
    found: Found, panel: Panel, tesserae: Sequence[int], others: Sequence[int], frame: Frame
) -> Found:
    """Return what was found without the pieces that lie nearest to another section's tesserae.

    others: the tesserae of all that lies dry beside this section; without any, all coloured glass belongs
    to it. What was found by its edges alone, and lies where the drawing has a tessera of no section that
    lies dry, is taken for a bare outline of the cartoon under the film.
    """
    if not found.count:
        return found
    places, own = frame.on_panel(found.centroid_mm()), np.ones(found.count, bool)
    if len(others):
        dry = np.concatenate([tesserae, others]).astype(np.int64)
        own = _nearest(panel.centroid_mm[dry], places) < len(tesserae)
    lies_dry = np.zeros(panel.tessera_count, bool)
    lies_dry[list(tesserae)] = True
    own &= ~found.by_edges | lies_dry[_nearest(panel.centroid_mm, places)]
    if own.all():
        return found
    own = np.concatenate([[False], own])
    return numbered(np.where(own[found.labels], found.labels, 0).astype(np.int32), found)


def _nearest(points_mm: FloatArray, places_mm: FloatArray) -> NDArray[np.intp]:
    """Return which of some points is nearest to each place."""
    from scipy.spatial import cKDTree

    return np.asarray(cKDTree(points_mm).query(places_mm)[1], np.intp)


def _apart(one: FloatArray, other: FloatArray) -> NDArray[np.float64]:
    far: NDArray[np.float64] = np.hypot(*(one[:, None] - other[None]).transpose(2, 0, 1))
    return far

"""The joints of each zone: every spot of joint belongs to the glass nearest to it.

Joint spots are found on a grid of points and shared out so that the zones add up to the panel's joint area,
which is exact. A point is glass where it lies within an odd number of a tessera's outlines.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.drawing.spans import spans
from bench.finish.zone_called import REST_NAME, WHOLE_NAME

_MOST_POINTS = 4_000_000
_LEAST_STEP_MM = 0.1

Index = NDArray[np.int64]
Bools = NDArray[np.bool_]


def group_zones(panel: Panel) -> tuple[IntArray, tuple[str, ...]]:
    """Return the zone of each tessera by the drawing's named groups, (n,), and the zones' names.

    What lies in no group is a zone of its own; a drawing without groups is one zone.
    """
    bare = panel.group < 0
    if not bare.any():
        return panel.group, panel.group_names
    rest = len(panel.group_names)
    name = REST_NAME if rest else WHOLE_NAME
    return np.where(bare, rest, panel.group).astype(np.int32), (*panel.group_names, name)


@dataclass(frozen=True, eq=False)
class JointGrid:
    """Points in the middle of squares of `step_mm`: the tessera nearest to each, and which are joint.

    nearest: (rows, columns) index of a tessera. joint: (rows, columns), within the outline and no glass.
    """

    step_mm: float
    nearest: IntArray
    joint: Bools


def joint_grid(panel: Panel, *, most_points: int = _MOST_POINTS) -> JointGrid | None:
    """Return the joints of a panel on a grid; None where joints or glass are finer than the grid.

    The step is a tenth of a mm, on larger panels as wide as `most_points` allow.
    """
    from scipy.ndimage import distance_transform_edt

    area_mm2 = panel.width_mm * panel.height_mm
    step_mm = max(_LEAST_STEP_MM, float(np.sqrt(area_mm2 / most_points)))
    shape = (max(1, round(panel.height_mm / step_mm)), max(1, round(panel.width_mm / step_mm)))
    owner: Index = np.repeat(np.arange(panel.tessera_count), np.diff(panel.tessera_ring))
    glass = np.full(shape, -1, np.int32)
    rings = [panel.points_mm[a:b] for a, b in zip(panel.ring_start, panel.ring_start[1:], strict=False)]
    for row, begin, end, who in spans(rings, owner, shape, step_mm):
        glass[row, begin:end] = who
    joint = (glass < 0) & _inside(panel, shape, step_mm)
    if not joint.any() or (glass < 0).all():
        return None
    row, column = distance_transform_edt(glass < 0, return_distances=False, return_indices=True)
    return JointGrid(step_mm, glass[row, column], joint)


def zone_joints_mm2(panel: Panel, grid: JointGrid | None, zone: IntArray, zones: int) -> FloatArray:
    """Return the joint area of each zone; they add up to the panel's. (zones,) [mm²]

    grid: the panel's `joint_grid`; zone: (n,) from 0 to zones − 1. A zone without tesserae has none. Without
    a grid the zones share by their glass area.
    """
    if grid is None:
        return _shared(panel, np.bincount(zone, panel.area_mm2, minlength=zones))
    return _shared(panel, np.bincount(zone[grid.nearest][grid.joint], minlength=zones))


def _shared(panel: Panel, parts: NDArray[np.generic]) -> FloatArray:
    """Share the panel's joint area out in proportion to the parts."""
    found = parts.astype(np.float64)
    found *= panel.joint_area_mm2 / found.sum()
    return found


def _inside(panel: Panel, shape: tuple[int, int], step_mm: float) -> Bools:
    """Return which points lie within the panel's outline; all of the page where it marks none."""
    if not panel.outline_mm:
        return np.ones(shape, bool)
    inside = np.zeros(shape, bool)
    owner = np.zeros(len(panel.outline_mm), np.int64)
    for row, begin, end, _ in spans(panel.outline_mm, owner, shape, step_mm):
        inside[row, begin:end] = True
    return inside

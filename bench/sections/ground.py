"""What is to be divided: tesserae with expected seconds, their joints, and what cutting a joint costs."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.faults import (
    PREFERENCES,
    CapacityNotPositive,
    ExpectedTimeInvalid,
    LengthsDiffer,
    UnknownPreference,
)

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]

_EMPTY = np.zeros(0)


@dataclass(frozen=True, eq=False)
class Ground:
    """Hold n tesserae still to be divided and the m joints between them.

    Indices in pair count from 0 within the ground; tessera leads back to the panel. free_mm is the
    length of outline that faces no other tessera of the panel; empty: not known, taken as 0.
    """

    expected_s: FloatArray  # (n,) [s]
    area_mm2: FloatArray  # (n,)
    centroid_mm: FloatArray  # (n, 2)
    pair: IntArray  # (m, 2)
    joint_mm: FloatArray  # (m,) shared length
    cut_cost: FloatArray  # (m,) what cutting a joint costs, at least 0, in mm of plain joint
    adhesive: IntArray  # (n,) index into capacity_s
    capacity_s: FloatArray  # (a,) [s]
    prefer: str = "forms"
    tessera: IntArray = field(default_factory=lambda: np.zeros(0, np.int32))  # (n,)
    free_mm: FloatArray = field(default_factory=lambda: _EMPTY)  # (n,) or empty

    def __post_init__(self) -> None:
        if len(self.tessera) != len(self.expected_s):
            object.__setattr__(self, "tessera", np.arange(len(self.expected_s), dtype=np.int32))
        _check(self)

    @property
    def count(self) -> int:
        return len(self.expected_s)

    @property
    def cap_s(self) -> FloatArray:
        """Capacity that holds for each tessera, by its adhesive, (n,). [s]"""
        return np.asarray(self.capacity_s, float)[self.adhesive]


def _check(ground: Ground) -> None:
    if ground.prefer not in PREFERENCES:
        raise UnknownPreference(ground.prefer)
    for name in ("area_mm2", "centroid_mm", "adhesive"):
        if len(getattr(ground, name)) != ground.count:
            raise LengthsDiffer(name, len(getattr(ground, name)), ground.count)
    for index, capacity in enumerate(ground.capacity_s):
        if not (np.isfinite(capacity) and capacity > 0):
            raise CapacityNotPositive(float(capacity), index)
    wrong = np.flatnonzero(~(np.isfinite(ground.expected_s) & (ground.expected_s >= 0)))
    if len(wrong):
        raise ExpectedTimeInvalid(float(ground.expected_s[wrong[0]]), int(wrong[0]))


def oversize(ground: Ground) -> IntArray:
    """List the tesserae that alone take longer than their adhesive allows; each is a section of its own."""
    return np.flatnonzero(ground.expected_s > ground.cap_s).astype(np.int32)


def ground_of(
    panel: Panel,
    *,
    expected_s: FloatArray,
    adhesive: IntArray,
    capacity_s: FloatArray,
    prefer: str = "forms",
    keep: IntArray | None = None,
) -> Ground:
    """Return the ground that a panel, or the part of it named by keep, offers to the divider.

    expected_s, adhesive: (n,) for the whole panel; capacity_s: (a,), one for each adhesive. [s]
    keep: indices of the tesserae to divide; all if None, and none if empty. For 'fewest' a cut costs its
    length; for 'forms' see forms.cut_cost. Raises a Fault for times, capacities or wishes that cannot be.
    """
    n = panel.tessera_count
    times, kinds = np.asarray(expected_s, float), np.asarray(adhesive, np.int32)
    for name, array in (("expected_s", times), ("adhesive", kinds)):
        if len(array) != n:
            raise LengthsDiffer(name, len(array), n)
    chosen = np.arange(n, dtype=np.int32) if keep is None else np.unique(np.asarray(keep, np.int32))
    place = np.full(n, -1, np.int32)
    place[chosen] = np.arange(len(chosen), dtype=np.int32)
    inside = (place[panel.joints.pair] >= 0).all(axis=1) if n else np.zeros(len(panel.joints.pair), bool)
    length = panel.joints.length_mm[inside]
    plain = Ground(
        expected_s=times[chosen],
        area_mm2=panel.area_mm2[chosen],
        centroid_mm=panel.centroid_mm[chosen],
        pair=place[panel.joints.pair[inside]].reshape(-1, 2),
        joint_mm=length,
        cut_cost=length,
        adhesive=kinds[chosen],
        capacity_s=np.atleast_1d(np.asarray(capacity_s, float)),
        prefer=prefer,
        tessera=chosen,
        free_mm=free_edge_mm(panel)[chosen],
    )
    if prefer == "fewest" or not len(chosen):
        return plain
    from dataclasses import replace

    from bench.sections.forms import cut_cost

    return replace(plain, cut_cost=cut_cost(panel, plain))


def free_edge_mm(panel: Panel) -> FloatArray:
    """Return how much of each outline faces no other tessera, (n,). [mm]

    Facing lengths fall short of the outline by the joint's corners even well inside the panel; the median
    shortfall is taken as that loss, and less than an eighth of an outline counts as none.
    """
    n = panel.tessera_count
    if not n:
        return np.zeros(0)
    step = np.roll(panel.points_mm, -1, axis=0) - panel.points_mm
    last = panel.ring_start[1:] - 1
    step[last] = panel.points_mm[panel.ring_start[:-1]] - panel.points_mm[last]
    ring_of_point = np.repeat(np.arange(len(last)), np.diff(panel.ring_start))
    tessera_of_ring = np.repeat(np.arange(n), np.diff(panel.tessera_ring))
    around = np.bincount(tessera_of_ring[ring_of_point], np.hypot(step[:, 0], step[:, 1]), n)
    shared = np.bincount(panel.joints.pair.ravel(), np.repeat(panel.joints.length_mm, 2), n)
    around = np.maximum(around, 1e-9)
    part = np.sort(shared / around)  # np.median would load all of numpy.ma into a start
    kept = np.clip((part[(n - 1) // 2] + part[n // 2]) / 2, 0.7, 1.0)
    free = around - shared / kept
    return np.where(free > around / 8, free, 0.0)

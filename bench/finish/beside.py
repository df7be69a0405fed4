"""Each glass beside its neighbours: how much joint they share, and how far apart their colours are."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bench.drawing.colour import delta_e_2000
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.glass import GlassList

# ΔE00 up to which two glasses with a joint between them will hardly be told apart at arm's length: common
# practice, no source. Side by side about 1.7 is just noticed (from memory of Heritage Science, 2022).
HARDLY_DE = 3.0


@dataclass(frozen=True)
class Pair:
    """Two glasses that share a joint, the larger first. dL: L* of the second less that of the first."""

    one: int
    other: int
    shared_mm: float
    joints: int
    de: float
    dL: float


@dataclass(frozen=True, eq=False)
class Beside:
    """Pairs of glasses by index into the list, (p, 2), most shared length first, and what joins them.

    shared_mm, joints, de, dL: (p,). pair_of_joint: (m,) of the panel's joints, -1 within one glass.
    """

    pair: IntArray
    shared_mm: FloatArray
    joints: IntArray
    de: FloatArray
    dL: FloatArray
    pair_of_joint: IntArray

    def __len__(self) -> int:
        return len(self.pair)

    def __getitem__(self, k: int) -> Pair:
        return Pair(
            int(self.pair[k, 0]),
            int(self.pair[k, 1]),
            float(self.shared_mm[k]),
            int(self.joints[k]),
            float(self.de[k]),
            float(self.dL[k]),
        )

    def hardly(self, most_de: float = HARDLY_DE) -> tuple[Pair, ...]:
        """Return the pairs that will hardly be told apart, most shared length first."""
        return tuple(self[k] for k in np.flatnonzero(self.de <= most_de).tolist())

    def hardly_number(self, most_de: float = HARDLY_DE) -> IntArray:
        """Return for each joint of the panel its place among those pairs, 1 and up; 0 for none. (m,)"""
        near = self.de <= most_de
        rank = np.append(np.where(near, np.cumsum(near), 0), 0).astype(np.int32)
        return rank[self.pair_of_joint]


def beside(panel: Panel, listed: GlassList) -> Beside:
    """Return every pair of glasses that share a joint, with the colours of the glass list."""
    joints = panel.joints
    ends = np.sort(listed.of[joints.pair].reshape(-1, 2), axis=1)
    across = ends[:, 0] != ends[:, 1]
    pair, place = np.unique(ends[across], axis=0, return_inverse=True)
    place = place.ravel()
    shared_mm = np.bincount(place, joints.length_mm[across], minlength=len(pair)).astype(np.float64)
    count = np.bincount(place, minlength=len(pair)).astype(np.int32)
    order = np.argsort(-shared_mm, kind="stable")
    rank = np.empty(len(pair), np.int32)
    rank[order] = np.arange(len(pair), dtype=np.int32)
    of_joint = np.full(len(ends), -1, np.int32)
    of_joint[across] = rank[place]
    pair = pair[order].astype(np.int32).reshape(-1, 2)
    one, other = listed.lab[pair[:, 0]], listed.lab[pair[:, 1]]
    dL = other[:, 0] - one[:, 0]
    return Beside(pair, shared_mm[order], count[order], delta_e_2000(one, other), dL, of_joint)

"""All boundary tesserae weighed at once, so that only those that might move need a turn of their own."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import FloatArray, IntArray
from bench.sections.measures import RAG
from bench.sections.shape import Shape

Places = NDArray[np.intp]


def weighed(shape: Shape, label: IntArray, push: float) -> tuple[Places, FloatArray]:
    """Return the tesserae beside another section, ascending, and the least that moving each could add. [mm]

    Cut, spread and load are summed as anneal does for one tessera. Where three sections meet, though, all
    joints to the other two count as if they lay in one: a move then looks better than it is, never worse.
    push: what a load beyond the cap costs, for a whole one.
    """
    joint = shape.mesh.joint
    there = label[joint.target]
    across = np.flatnonzero(label[joint.source] != there)
    v, to = joint.source[across], there[across]
    first = np.flatnonzero(np.diff(v, prepend=-1))
    edge = v[first]
    if not len(edge):
        return edge, np.zeros(0)
    cut = shape.mesh.around[edge] - 2 * np.add.reduceat(joint.cost[across], first)
    scales = _Scales(shape, push)
    return edge, cut - scales.leaving(edge, label[edge]) + np.minimum.reduceat(scales.joining(v, to), first)


class _Scales:
    """Weigh what tesserae add to the spread and load of sections, (n,) each by its own section."""

    def __init__(self, shape: Shape, push: float) -> None:
        mesh, room = shape.mesh, np.array(shape.room)
        self.x, self.y, self.area, self.weight = *mesh.xy.T, mesh.area, mesh.load
        self.centre_x, self.centre_y = np.array(shape.sx) / room, np.array(shape.sy) / room
        self.pull, self.even = np.array(shape.pull), np.array(shape.even)
        self.load, self.push = np.array(shape.load), push
        self.over = self.load - shape.cap
        self.rags = bool(self.load.min() < RAG)

    def joining(self, v: Places, section: NDArray[np.integer]) -> FloatArray:
        """Return what each adds to a section that it comes to."""
        t = self.weight[v]
        beyond = self.over[section] + t
        added = self._spread(v, section) + self.push * np.clip(beyond, 0.0, t)
        if self.rags:
            lacking = np.clip(RAG - self.load[section], 0.0, t)
            added -= self.push * np.where(beyond > 0, 0.0, lacking)
        return np.asarray(added)

    def leaving(self, v: Places, section: NDArray[np.integer]) -> FloatArray:
        """Return what each has added to the section that it goes from."""
        t, over = self.weight[v], self.over[section]
        lacking = np.clip(RAG - self.load[section] + t, 0.0, t)
        spared = np.clip(over, 0.0, t) - np.where(over > 0, 0.0, lacking)
        return np.asarray(self._spread(v, section) + self.push * spared)

    def _spread(self, v: Places, section: NDArray[np.integer]) -> FloatArray:
        dx, dy = self.x[v] - self.centre_x[section], self.y[v] - self.centre_y[section]
        return np.asarray(self.area[v] * self.pull[section] * (dx * dx + dy * dy - self.even[section]))

"""A division in the making: labels, loads and centroids kept up to date as single tesserae move."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from bench.sections.ground import IntArray
from bench.sections.mesh import Mesh

CAP = 1.0  # loads are shares of the capacity
HARD = CAP * (1 - 1e-12)  # a hair below, so that rounding never lets a section past the exact recount


class Shape:
    """Keep one part's sections while they are worked on. Lists, not arrays: single items are touched.

    lab has one entry more than there are tesserae, -1, so that an absent neighbour matches no section.
    """

    __slots__ = (
        *("area", "weight", "x", "y"),  # of tesserae
        *("count", "load", "room", "sx", "sy", "pull", "even"),  # of sections
        *("cap", "k", "lab", "mesh"),
    )

    def __init__(self, mesh: Mesh, label: IntArray, k: int) -> None:
        self.mesh = mesh
        self.weight: list[float] = mesh.load.tolist()
        self.area: list[float] = mesh.area.tolist()
        self.x: list[float] = mesh.xy[:, 0].tolist()
        self.y: list[float] = mesh.xy[:, 1].tolist()
        self.k = k
        self.cap = CAP  # the load that annealing prices what is beyond
        self.set(label)

    def set(self, label: IntArray) -> None:
        """Start again from a labelling, with every sum recounted."""
        k, mesh = self.k, self.mesh
        self.lab: list[int] = [*label.tolist(), -1]
        self.load: list[float] = np.bincount(label, mesh.load, k).tolist()
        self.count: list[int] = np.bincount(label, minlength=k).tolist()
        self.room: list[float] = np.maximum(np.bincount(label, mesh.area, k), 1e-12).tolist()
        self.sx: list[float] = np.bincount(label, mesh.area * mesh.xy[:, 0], k).tolist()
        self.sy: list[float] = np.bincount(label, mesh.area * mesh.xy[:, 1], k).tolist()
        self.refresh(label)

    def refresh(self, label: IntArray) -> None:
        """Take the sections' present spread as the yardstick for the moves to come.

        A tessera of area a at distance d from the centroid of a section of area A and radius of gyration g
        adds a*(d² - g²)/(2*A*g) to g: even is g², pull is roundness/(2*A*g).
        """
        room, (x, y) = np.maximum(self.room, 1e-12), self.mesh.xy.T
        dx, dy = x - (np.array(self.sx) / room)[label], y - (np.array(self.sy) / room)[label]
        even = np.maximum(np.bincount(label, self.mesh.area * (dx * dx + dy * dy), self.k) / room, 1e-9)
        self.even: list[float] = even.tolist()
        self.pull: list[float] = (self.mesh.roundness / (2 * room * np.sqrt(even))).tolist()

    def label(self) -> IntArray:
        return np.array(self.lab, np.int32)[:-1]

    def move(self, v: int, to: int) -> None:
        """Put a tessera into another section; the caller has seen to it that its own hangs together."""
        a = self.lab[v]
        t, area = self.weight[v], self.area[v]
        x, y = self.x[v] * area, self.y[v] * area
        self.lab[v] = to
        self.load[a] -= t
        self.load[to] += t
        self.count[a] -= 1
        self.count[to] += 1
        self.room[a] -= area
        self.room[to] += area
        self.sx[a] -= x
        self.sx[to] += x
        self.sy[a] -= y
        self.sy[to] += y

    def can_leave(self, v: int) -> bool:
        """Say whether the section of v surely hangs together without it, judged by what lies around v."""
        lab = self.lab
        a = lab[v]
        if self.count[a] < 2:
            return False
        arcs = 0
        for u, _ in self.mesh.near[v]:
            if lab[u] == a:
                arcs += 1
        if arcs > 1:
            for u, w, x in self.mesh.links[v]:
                if lab[u] == a and lab[w] == a and lab[x] == a:
                    arcs -= 1
        return arcs < 2

    def gain(self, v: int, to: int) -> float:
        """Return what moving v to another section adds to cut and spread (negative: it saves). [mm]"""
        lab, a = self.lab, self.lab[v]
        change = 0.0
        for u, cost in self.mesh.near[v]:
            label = lab[u]
            if label == a:
                change += cost
            elif label == to:
                change -= cost
        return change + self.area[v] * (self.spread(v, to) - self.spread(v, a))

    def spread(self, v: int, section: int) -> float:
        """What a tessera adds to the spread of a section, for each mm² of it. [1/mm]"""
        room: float = self.room[section]
        dx: float = self.x[v] - self.sx[section] / room
        dy: float = self.y[v] - self.sy[section] / room
        return self.pull[section] * (dx * dx + dy * dy - self.even[section])

    def over(self) -> float:
        """Sum of the loads beyond the capacity, in capacities; 0 when every section fits."""
        return sum(load - CAP for load in self.load if load > CAP)


def overfull(mesh: Mesh, label: IntArray) -> list[int]:
    """List the sections whose exact sum of seconds exceeds the capacity (one lone tessera never does)."""
    order = np.argsort(label, kind="stable")
    bounds = np.searchsorted(label[order], np.arange(int(label.max()) + 2)).tolist()
    seconds = mesh.expected_s[order].tolist()
    return [
        s for s, (i, j) in enumerate(pairwise(bounds)) if j - i > 1 and math.fsum(seconds[i:j]) > mesh.cap_s
    ]

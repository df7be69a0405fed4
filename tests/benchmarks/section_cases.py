"""Panels to divide, and what a division of one is measured by; see bench_sections."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.ground import Ground, ground_of
from bench.sections.parts import one_adhesive_parts, part_bounds
from tests.tools.panels import panel, times_s

Labels = NDArray[np.integer]


@dataclass
class Case:
    """One panel with what it is to be divided by."""

    kind: str
    panel: Panel
    ground: Ground

    def wished(self, prefer: str) -> Ground:
        g = self.ground
        return ground_of(
            self.panel,
            expected_s=g.expected_s,
            adhesive=g.adhesive,
            capacity_s=g.capacity_s,
            prefer=prefer,
        )


def case(kind: str, count: int, seed: int, *, motifs: int = 0, adhesives: int = 1) -> Case:
    """Make a panel and a capacity between 50 and 110 mean tesserae, drawn at random."""
    whole = panel(kind, count, seed, motifs=motifs)
    rng = np.random.default_rng([seed, 23])
    times = times_s(whole, seed)
    glue = np.zeros(whole.tessera_count, np.int32)
    for _ in range(3 if adhesives == 2 else 0):
        centre = rng.uniform(0.2, 0.8, 2) * (whole.width_mm, whole.height_mm)
        glue[np.hypot(*(whole.centroid_mm - centre).T) < rng.uniform(0.12, 0.25) * whole.width_mm] = 1
    cap = float(times.mean()) * rng.uniform(50, 110)
    ground = ground_of(
        whole,
        expected_s=times,
        adhesive=glue,
        capacity_s=np.array([cap, cap * 0.8][:adhesives]),
        prefer="fewest",
    )
    return Case(kind, whole, ground)


def timed(work: Callable[[], Labels]) -> tuple[Labels, float]:
    start = time.perf_counter()
    label = work()
    return label, time.perf_counter() - start


def cut_mm(ground: Ground, label: Labels) -> float:
    a, b = ground.pair.T
    return float(ground.joint_mm[(label[a] != label[b]) & (ground.adhesive[a] == ground.adhesive[b])].sum())


def above_bound(ground: Ground, label: Labels) -> tuple[int, bool]:
    """Return how many sections the worst part has above its bound, and whether one with 0.05 % free has any.

    Free is what the bound's sections leave of their capacity, in shares of all of it.
    """
    part, worst, missed = one_adhesive_parts(ground), 0, False
    for number, bound in enumerate(part_bounds(ground, part)):
        own = part == number
        more = len(np.unique(label[own])) - bound
        free = 1 - float((ground.expected_s[own] / ground.cap_s[own]).sum()) / bound
        worst, missed = max(worst, more), missed or (more > 0 and free >= 0.0005)
    return worst, missed


def roundness(whole: Panel, label: Labels) -> float:
    """Mean of 4*pi*A/P² over the sections' true outlines, by shapely."""
    cells = np.array([shapely.Polygon(whole.rings_mm(i)[0]) for i in range(whole.tessera_count)])
    shapes = [shapely.union_all(cells[label == s], grid_size=1e-6) for s in np.unique(label)]
    return float(np.mean([4 * np.pi * s.area / s.length**2 for s in shapes]))


def cut_roundness(ground: Ground, label: Labels) -> float:
    """Mean of 4*pi*A/P² with the joints cut as P, the panel's outline left out: no division can change it."""
    k = int(label.max()) + 1
    cut = label[ground.pair[:, 0]] != label[ground.pair[:, 1]]
    (a, b), mm = ground.pair[cut].T, ground.joint_mm[cut]
    area = np.bincount(label, ground.area_mm2, k)
    around = np.bincount(label[a], mm, k) + np.bincount(label[b], mm, k)
    used = around > 0
    return float(np.mean(4 * np.pi * area[used] / around[used] ** 2))

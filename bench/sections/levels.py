"""A start from coarse to fine: bundles of tesserae find their sections first, then smaller ones do.

A pass over bundles costs a fraction of one over tesserae and moves whole edges of sections, which single
tesserae cannot do downhill. After METIS (Karypis & Kumar 1998), with annealing at every level.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bench.sections.anneal import anneal
from bench.sections.coarse import Level, coarser
from bench.sections.halve import halve
from bench.sections.mesh import Mesh
from bench.sections.schedule import Schedule
from bench.sections.shape import Shape

BUNDLES = 10  # to a section, at the coarsest
LEAST_SHRINK = 0.85  # a level that keeps more than this share of the bundles is not worth its passes
BUNDLED = Schedule(hot=1.0, cold=0.1, soft=20.0, stiff=400.0, passes=40)


def levels_of(mesh: Mesh, k: int, rng: np.random.Generator) -> list[Level]:
    """Return coarser and coarser levels, until about BUNDLES are left for each of k sections."""
    levels: list[Level] = []
    while mesh.count > BUNDLES * k:
        level = coarser(mesh, 2.0 / BUNDLES, rng)
        if level.mesh.count > LEAST_SHRINK * mesh.count:
            break
        levels.append(level)
        mesh = level.mesh
    return levels


class Begun:
    """Work from coarse to fine, level by level; iterate over it, then take its label and the steps used.

    label: k connected sections, loads nearly even but not yet within the capacity.
    """

    def __init__(self, mesh: Mesh, k: int, rng: np.random.Generator) -> None:
        self.levels = levels_of(mesh, k, rng)
        self.label = halve(self.levels[-1].mesh if self.levels else mesh, k, rng)
        self.k, self.rng, self.used = k, rng, 0

    def __iter__(self) -> Iterator[int]:
        for level in reversed(self.levels):
            shape = Shape(level.mesh, self.label, self.k)
            for i in range(BUNDLED.passes):
                self.used += anneal(shape, *BUNDLED.at(i / (BUNDLED.passes - 1)), self.rng)
            self.label = shape.label()[level.bundle]
            yield self.used

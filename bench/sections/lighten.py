"""Make one section lighter: its neighbours take what they have room for, and no section is added."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import Ground, IntArray
from bench.sections.mesh import mesh_of
from bench.sections.parts import one_adhesive_parts, own_joints
from bench.sections.relieve import hand_on, neighbours_of, relieve
from bench.sections.shape import Shape, overfull
from bench.sections.sides import Sides

LITTLE = 0.001  # less is no headway


def lightened(
    ground: Ground, label: NDArray[np.integer], section: int, share: float, rng: np.random.Generator
) -> IntArray:
    """Return a labelling in which a section takes about a share of its capacity, or as little as can be had.

    label: (n,) any numbers; they are kept. What is too much goes by the cheapest moves to the sections
    around it, and on from there, as far as they have room; none ends over its capacity. The labelling comes
    back as it was where the section is light enough, or where there is no room.
    """
    before = np.asarray(label, np.int32)
    part = one_adhesive_parts(ground)
    members = np.flatnonzero(part == part[np.argmax(before == section)]).astype(np.int32)
    mesh = mesh_of(ground, members, own_joints(ground))
    numbers, own = np.unique(before[mesh.index], return_inverse=True)
    shape = Shape(mesh, own.reshape(-1).astype(np.int32), len(numbers))
    least = float(mesh.load.mean()) / 2
    here, found = int(np.searchsorted(numbers, section)), shape.label()
    chain = shape.load[here] - share
    while chain > least and shape.load[here] > share:
        load = shape.load[here]
        hand_on(shape, Sides(shape), neighbours_of(shape), here, max(share, load - chain))
        if relieve(shape, rng) and shape.load[here] < load - LITTLE and not overfull(mesh, shape.label()):
            found = shape.label()
        else:
            shape.set(found)
            chain /= 2
    after = before.copy()
    after[mesh.index] = numbers[found]
    return after

"""Divide what is still drawn again, so that sections keep their number and most of their tesserae."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.divide import default_steps, members_of, most_sections, searched
from bench.sections.division import Division, in_order
from bench.sections.ground import Ground, IntArray
from bench.sections.match import matched_numbers
from bench.sections.mesh import Mesh, mesh_of
from bench.sections.parts import components, one_adhesive_parts, own_joints, part_bounds
from bench.sections.recount import with_count
from bench.sections.schedule import GENTLE
from bench.sections.search import Part
from bench.sections.shape import overfull

SHARE_OF_STEPS = 0.1  # of a fresh division's budget: the search begins near its goal


def redivide(
    ground: Ground,
    old_number: NDArray[np.integer],
    *,
    used_numbers: set[int],
    seed: int = 0,
    steps: int | None = None,
) -> tuple[IntArray, tuple[int, ...]]:
    """Return labels (n,) and the number of each label, after pace, weather or left-over pieces changed.

    old_number: (n,) the section each tessera was drawn into; below 1, or in used_numbers, where it has
    none of its own (left over from a worked section). used_numbers: of worked sections; never given again.
    A part whose sections still hold stays as it is, however they came about. Elsewhere sections are taken as
    they were, the overfull give to their neighbours, and only as many are added or dissolved as the capacity
    asks for. New numbers lie above every old and used one.
    """
    budget = int(default_steps(ground) * SHARE_OF_STEPS) if steps is None else max(0, steps)
    rng = np.random.default_rng(seed)
    old = np.asarray(old_number, np.int64)
    living = np.where((old > 0) & ~np.isin(old, list(used_numbers)), old, 0)
    one_each, joints = one_adhesive_parts(ground), own_joints(ground)
    settled, parts = one_each.copy(), []
    for members, bound in zip(members_of(one_each), part_bounds(ground, one_each), strict=True):
        if bound > 1:
            mesh, most = mesh_of(ground, members, joints), _most_kept(bound, ground.prefer)
            mine = living[mesh.index]
            label = _as_it_was(mesh, mine)
            if _holds(mesh, mine, label, most):
                settled[mesh.index] = int(settled.max()) + 1 + label
            else:
                start = with_count(mesh, label, min(max(int(label.max()) + 1, bound), most), rng)
                parts.append(Part(mesh, start, int(start.max()) + 1))
    division = Division.of(settled)
    for division in searched(settled, parts, budget, rng, GENTLE, fresh=False):  # noqa: B007 - the last counts
        pass
    return division.label, matched_numbers(division.label, old, ground.area_mm2, used_numbers)


def _most_kept(bound: int, prefer: str) -> int:
    """Return how many sections may stay: with 'forms' one above the bound, though none is added for it."""
    return bound if prefer == "fewest" else max(most_sections(bound, prefer), bound + 1)


def _holds(mesh: Mesh, living: NDArray[np.int64], label: IntArray, most: int) -> bool:
    """Tell whether all tesserae have sections that are whole, within the capacity, and not too many."""
    drawn = set(living.tolist())
    return 0 not in drawn and int(label.max()) + 1 == len(drawn) <= most and not overfull(mesh, label)


def _as_it_was(mesh: Mesh, living: NDArray[np.int64]) -> IntArray:
    """Label by old number, each connected piece for itself; tesserae without one join what they face."""
    held = living[mesh.pair[:, 0]] == living[mesh.pair[:, 1]]
    piece = components(mesh.count, mesh.pair[held])
    homeless = living == 0
    if homeless.all():
        return np.zeros(mesh.count, np.int32)
    label = np.where(homeless, -1, in_order(piece))
    while (label < 0).any():
        for v in np.flatnonzero(label < 0).tolist():
            facing: dict[int, float] = {}
            for u, cost in mesh.near[v]:
                if label[u] >= 0:
                    facing[int(label[u])] = facing.get(int(label[u]), 0.0) + cost
            if facing:
                label[v] = max(facing, key=lambda b: (facing[b], -b))
    return in_order(label)

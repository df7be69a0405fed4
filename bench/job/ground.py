"""What lies where: each tessera's section, bare ground, and which sections lie side by side."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from bench.job.job import Job
from bench.job.state import Section
from bench.sections.ground import ground_of
from bench.sections.leftover import open_edge

IntArray = NDArray[np.int32]
Side = Literal["upper", "lower", "left", "right", "open"]
ONE_SIDE = 0.2  # of half the section: nearer to its middle, what is left lies on no one side


def bare_ground(job: Job) -> IntArray:
    """Return the tesserae that lie in no section that is dry or set: all that may be divided anew. (k,)"""
    bare = np.ones(job.panel.tessera_count, dtype=bool)
    for section in job.state.sections.values():
        if section.stage != "drawn":
            bare[list(section.tesserae)] = False
    return np.flatnonzero(bare).astype(np.int32)


def section_numbers(job: Job) -> IntArray:
    """Return each tessera's section number, -1 where it is in none. (n,)"""
    numbers = np.full(job.panel.tessera_count, -1, dtype=np.int32)
    for section in job.state.sections.values():
        numbers[list(section.tesserae)] = section.number
    return numbers


def borders_mm(job: Job) -> dict[int, dict[int, float]]:
    """Return for each section its neighbours and the length of joint between them. [mm]"""
    numbers = section_numbers(job)
    joints = job.panel.joints
    a, b = numbers[joints.pair[:, 0]], numbers[joints.pair[:, 1]]
    across = (a != b) & (a >= 0) & (b >= 0)
    borders: dict[int, dict[int, float]] = {number: {} for number in job.state.sections}
    pairs = np.sort(np.stack([a[across], b[across]], axis=1), axis=1)
    if not pairs.size:
        return borders
    kinds, inverse = np.unique(pairs, axis=0, return_inverse=True)
    lengths = np.bincount(inverse.ravel(), weights=joints.length_mm[across])
    for (low, high), length in zip(kinds.tolist(), lengths.tolist(), strict=True):
        borders[low][high] = borders[high][low] = length
    return borders


def edge_strip(job: Job, section: Section, count: int) -> tuple[int, ...]:
    """Return so many tesserae of a section along its edge to what is not set yet: those taken as left."""
    if count <= 0:
        return ()
    if count >= len(section.tesserae):
        return section.tesserae
    still_open = [n for n in borders_mm(job)[section.number] if job.section(n).stage in ("drawn", "dry")]
    beside = [t for n in still_open for t in job.section(n).tesserae]
    n = job.panel.tessera_count
    ground = ground_of(
        job.panel,
        expected_s=np.ones(n),
        adhesive=np.zeros(n, dtype=np.int32),
        capacity_s=np.array([float(n) + 1.0]),
        prefer="fewest",
    )
    members = np.asarray(section.tesserae, dtype=np.int32)
    return tuple(open_edge(ground, members, count, np.asarray(beside, dtype=np.int32)).tolist())


def side_of(job: Job, section: Section, tesserae: Sequence[int]) -> Side:
    """Return on which side of a section some of it lies, as the panel hangs; "open": on no one side.

    The middle of them, against the section's middle and its half width and height.
    """
    if not len(tesserae):
        return "open"
    at_mm = job.panel.centroid_mm
    of_it = at_mm[list(section.tesserae)]
    half_mm = np.maximum(np.ptp(of_it, axis=0) / 2.0, 1e-6)
    x, y = (at_mm[list(tesserae)].mean(axis=0) - of_it.mean(axis=0)) / half_mm
    if max(abs(x), abs(y)) < ONE_SIDE:
        return "open"
    if abs(y) >= abs(x):
        return "lower" if y > 0 else "upper"  # y points down
    return "right" if x > 0 else "left"


def open_side(job: Job, section: Section, share: float) -> Side:
    """Return on which side that share of a section lies that is nearest to open ground: quick, not exact."""
    numbers = section_numbers(job)
    still_open = [
        s.number
        for s in job.state.sections.values()
        if s.stage in ("drawn", "dry") and s.number != section.number
    ]
    a, b = job.panel.joints.pair.T
    beside = np.isin(numbers, still_open)
    own = numbers == section.number
    edge = np.concatenate((a[own[a] & beside[b]], b[own[b] & beside[a]]))
    if not edge.size:
        return "open"
    at_mm, members = job.panel.centroid_mm, np.asarray(section.tesserae)
    away_mm = np.linalg.norm(at_mm[members][:, None] - at_mm[np.unique(edge)][None], axis=2).min(axis=1)
    count = max(1, round(share * len(members)))
    return side_of(job, section, members[np.argsort(away_mm, kind="stable")[:count]].tolist())


def soft_neighbours(job: Job, number: int) -> tuple[int, ...]:
    """Return the sections beside this one that still give way: wet, or soft."""
    beside = borders_mm(job)[number]
    return tuple(sorted(n for n in beside if job.life(n) in ("wet", "soft")))

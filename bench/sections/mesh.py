"""One connected part, laid out as the search wants it: plain lists, and certificates of local connection."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import FloatArray, Ground, IntArray
from bench.sections.measures import ROUNDNESS_WEIGHT

# (u, w, x): neighbours u and w of a tessera hang together without it if all three lie in one section
Link = tuple[int, int, int]
Item = TypeVar("Item")


@dataclass(frozen=True, eq=False)
class JointEnds:
    """Hold every joint twice, once from either end, by source and then by angle, (2*m,) each."""

    source: NDArray[np.intp]
    target: NDArray[np.intp]
    cost: FloatArray


@dataclass(frozen=True, eq=False)
class Mesh:
    """Hold one connected part of one adhesive: n tesserae, numbered 0.. within the part.

    load: expected_s as a share of the capacity; unit_mm: the mean cost of a joint, the yardstick of
    temperatures; links[v]: certificates that removing v leaves a section connected.
    """

    index: IntArray  # (n,) indices in the ground
    pair: IntArray  # (m, 2)
    cost: FloatArray  # (m,)
    expected_s: FloatArray  # (n,)
    cap_s: float
    load: FloatArray  # (n,)
    area: FloatArray
    xy: FloatArray
    around: FloatArray  # cost of all joints of each tessera
    joint: JointEnds  # every joint from both its ends
    near: list[list[tuple[int, float]]]  # (neighbour, cost) of each tessera
    facing: list[list[int]]  # the neighbours alone
    links: list[list[Link]]
    unit_mm: float
    roundness: float  # see measures.ROUNDNESS_WEIGHT

    @property
    def count(self) -> int:
        return len(self.index)


def mesh_of(ground: Ground, members: IntArray, joints: NDArray[np.bool_]) -> Mesh:
    """Lay out the part made of the given tesserae and of the joints that a section may span."""
    members = members[_along_curve(ground.centroid_mm[members])]
    place = np.full(ground.count, -1, np.int32)
    place[members] = np.arange(len(members), dtype=np.int32)
    here = joints & (place[ground.pair[:, 0]] >= 0) if len(ground.pair) else joints
    pair = place[ground.pair[here]].reshape(-1, 2)
    return mesh_from(
        index=members,
        pair=pair,
        cost=ground.cut_cost[here],
        expected_s=ground.expected_s[members],
        cap_s=float(ground.cap_s[members[0]]),
        area=ground.area_mm2[members],
        xy=ground.centroid_mm[members],
        roundness=ROUNDNESS_WEIGHT[ground.prefer],
    )


def mesh_from(
    *,
    index: IntArray,
    pair: IntArray,
    cost: FloatArray,
    expected_s: FloatArray,
    cap_s: float,
    area: FloatArray,
    xy: FloatArray,
    roundness: float,
) -> Mesh:
    """Return the mesh of these arrays, with all that follows from them."""
    source, target, both, start = _rows(len(index), pair, cost, xy)
    return Mesh(
        index=index,
        pair=pair,
        cost=cost,
        expected_s=expected_s,
        cap_s=cap_s,
        load=expected_s / cap_s,
        area=area,
        xy=np.asfortranarray(xy),  # its columns are gathered from, one by one
        around=np.asarray(np.bincount(source, both, len(index)), float),
        joint=JointEnds(source.astype(np.intp), target.astype(np.intp), both),
        near=_split(list(zip(target.tolist(), both.tolist(), strict=True)), start),
        facing=_split(target.tolist(), start),
        links=_links(len(index), source, target, start),
        unit_mm=float(cost.mean()) if len(cost) and cost.mean() > 0 else 1.0,
        roundness=roundness,
    )


def _along_curve(xy: FloatArray) -> NDArray[np.intp]:
    """Order points along a space-filling curve (Morton), so that neighbours lie close in memory."""
    span = np.ptp(xy, axis=0).max() if len(xy) else 0.0
    cell = ((xy - xy.min(axis=0)) / (span or 1.0) * 65535).astype(np.uint64) if len(xy) else np.zeros((0, 2))
    code = np.zeros(len(xy), np.uint64)
    for axis in (0, 1):
        bits = cell[:, axis].astype(np.uint64)
        for shift, mask in ((8, 0x00FF00FF), (4, 0x0F0F0F0F), (2, 0x33333333), (1, 0x55555555)):
            bits = (bits | (bits << np.uint64(shift))) & np.uint64(mask)
        code |= bits << np.uint64(axis)
    return np.argsort(code, kind="stable")


def _rows(
    n: int, pair: IntArray, cost: FloatArray, xy: FloatArray
) -> tuple[IntArray, IntArray, FloatArray, NDArray[np.intp]]:
    """Return both directions of every joint, by source and then by angle, with the start of each row."""
    source, target = np.concatenate((pair, pair[:, ::-1])).T if len(pair) else np.zeros((2, 0), np.int32)
    away = xy[target] - xy[source]
    order = np.lexsort((np.arctan2(away[:, 1], away[:, 0]), source))
    source, target = source[order], target[order]
    return source, target, np.concatenate((cost, cost))[order], np.searchsorted(source, np.arange(n + 1))


def _links(n: int, source: IntArray, target: IntArray, start: NDArray[np.intp]) -> list[list[Link]]:
    """Find, for each tessera, which consecutive neighbours hang together without it.

    Two that follow each other around v do so directly, or through a common neighbour other than v (the
    fourth corner of a crossing of joints).
    """
    if not len(source):
        return [[] for _ in range(n)]
    follow = np.arange(1, len(source) + 1)
    follow[start[1:][start[1:] > start[:-1]] - 1] = start[:-1][start[1:] > start[:-1]]
    v, u, w = source, target, target[follow]
    keys = np.sort(source.astype(np.int64) * n + target)
    direct = _has(keys, u.astype(np.int64) * n + w)
    through = np.where(direct, u, -1)
    loose = np.flatnonzero(~direct & (u != w))
    degree = (start[1:] - start[:-1])[u[loose]]
    row = np.repeat(loose, degree)
    x = target[np.repeat(start[:-1][u[loose]] - np.cumsum(degree) + degree, degree) + np.arange(len(row))]
    fits = (x != v[row]) & _has(keys, x.astype(np.int64) * n + w[row])
    through[row[fits][::-1]] = x[fits][::-1]
    held = through >= 0
    count = np.concatenate(([0], np.cumsum(held)))[start]
    return _split(list(zip(u[held].tolist(), w[held].tolist(), through[held].tolist(), strict=True)), count)


def _has(keys: NDArray[np.int64], wanted: NDArray[np.int64]) -> NDArray[np.bool_]:
    place = np.minimum(np.searchsorted(keys, wanted), len(keys) - 1)
    return np.asarray(keys[place] == wanted)


def _split(flat: list[Item], start: NDArray[np.intp]) -> list[list[Item]]:
    return [flat[i:j] for i, j in pairwise(start.tolist())]

"""Which tesserae of a section are taken as left over when only their number is known."""

from __future__ import annotations

import heapq

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import Ground, IntArray


def open_edge(
    ground: Ground,
    members: NDArray[np.integer],
    count: int,
    open_neighbours: NDArray[np.integer],
) -> IntArray:
    """Return the count tesserae of a section that are assumed left: the strip along its open edge.

    A maker sets from the finished side outward, so what is left lies next to open ground.
    members: the section; open_neighbours: tesserae around it that are still bare (others in it are
    ignored). The strip grows inward by distance from the open edge; with no open edge it is the strip
    farthest from the rest of the panel. count is held to 0..len(members). Indices, ascending.
    """
    own = np.unique(np.asarray(members, np.int32))
    wanted = int(min(max(count, 0), len(own)))
    if wanted == 0:
        return np.zeros(0, np.int32)
    inside = np.zeros(ground.count, bool)
    inside[own] = True
    bare = np.zeros(ground.count, bool)
    bare[np.asarray(open_neighbours, np.int32)] = True
    distance = _inward(ground, own, inside, bare & ~inside)
    return np.sort(own[np.lexsort((own, distance))[:wanted]])


def _inward(
    ground: Ground, own: IntArray, inside: NDArray[np.bool_], bare: NDArray[np.bool_]
) -> NDArray[np.float64]:
    """Distance of each member from the open edge, measured from tessera to tessera. [mm]"""
    a, b = (ground.pair[:, 0], ground.pair[:, 1]) if len(ground.pair) else (own[:0], own[:0])
    edge = np.concatenate((a[inside[a] & bare[b]], b[inside[b] & bare[a]]))
    xy = ground.centroid_mm
    if not len(edge):
        rest = np.flatnonzero(~inside)
        away = xy[own] - (xy[rest].mean(axis=0) if len(rest) else xy[own].min(axis=0))
        return np.asarray(-np.hypot(away[:, 0], away[:, 1]), float)
    step = inside[a] & inside[b]
    near: dict[int, list[tuple[int, float]]] = {v: [] for v in own.tolist()}
    length = np.hypot(*(xy[a[step]] - xy[b[step]]).T)
    for u, w, mm in zip(a[step].tolist(), b[step].tolist(), length.tolist(), strict=True):
        near[u].append((w, mm))
        near[w].append((u, mm))
    reached = _shortest(near, np.unique(edge).tolist())
    return np.array([reached.get(v, np.inf) for v in own.tolist()], float)


def _shortest(near: dict[int, list[tuple[int, float]]], sources: list[int]) -> dict[int, float]:
    """Distances from the nearest source, by Dijkstra's method."""
    best = dict.fromkeys(sources, 0.0)
    heap = [(0.0, v) for v in sources]
    while heap:
        so_far, v = heapq.heappop(heap)
        if so_far > best[v]:
            continue
        for u, mm in near[v]:
            if so_far + mm < best.get(u, np.inf):
                best[u] = so_far + mm
                heapq.heappush(heap, (so_far + mm, u))
    return best

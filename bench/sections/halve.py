"""A first division by recursive halving: the cheapest of several sweeps, straight and by distance."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import FloatArray, IntArray
from bench.sections.mesh import Mesh
from bench.sections.parts import components

DIRECTIONS = 6  # straight sweeps, evenly turned
OFF_BALANCE = 8.0  # what a load off by a whole section costs: mean joints, times the root of its tesserae

Cut = tuple[float, NDArray[np.intp], int, int]  # cost, order, prefix length, sections for the prefix


def halve(mesh: Mesh, k: int, rng: np.random.Generator) -> IntArray:
    """Label a connected part with k sections by halving it again and again, (n,) 0..k-1.

    Every section is connected. Loads are as even as a sweep can make them, and may exceed the capacity.
    """
    label = np.zeros(mesh.count, np.int32)
    inner = np.full(mesh.count, -1, np.int32)
    todo = [(np.arange(mesh.count, dtype=np.int32), np.arange(len(mesh.pair)), min(k, mesh.count), 0)]
    while todo:
        own, joints, share, first = todo.pop()
        label[own] = first
        if share <= 1 or len(own) <= 1:
            continue
        inner[own] = np.arange(len(own), dtype=np.int32)
        pair = inner[mesh.pair[joints]]
        near_side, k_near = cut_in_two(mesh, own, pair, mesh.cost[joints], share, rng)
        for side, count, start in ((near_side, k_near, first), (~near_side, share - k_near, first + k_near)):
            held = side[pair[:, 0]] & side[pair[:, 1]]
            todo.append((own[side], joints[held], count, start))
    return label


def cut_in_two(
    mesh: Mesh, own: IntArray, pair: IntArray, cost: FloatArray, k: int, rng: np.random.Generator
) -> tuple[NDArray[np.bool_], int]:
    load, xy = mesh.load[own], mesh.xy[own]
    total = float(load.sum())
    even = OFF_BALANCE * mesh.unit_mm * max(1.0, len(own) / k) ** 0.5
    best: tuple[float, NDArray[np.bool_], int] | None = None
    for order in _orders(mesh, own, xy, rng):
        guess = _best_prefix(order, load, pair, cost, total, k, even)
        if best is not None and guess[0] >= best[0]:
            continue
        side = np.zeros(len(own), bool)
        side[guess[1][: guess[2]]] = True
        aimed = float(load[side].sum())
        side, moved = _connected_sides(side, pair)
        worth = guess[0] + (even * abs(float(load[side].sum()) - aimed) if moved else 0.0)
        if best is None or worth < best[0]:
            best = (worth, side, guess[3])
    assert best is not None
    side, wanted = best[1], best[2]
    near = float(load[side].sum())
    least, most = max(1, k - int((~side).sum())), min(k - 1, int(side.sum()))
    return side, int(np.clip(_fair_share(near, total, k, wanted), least, max(least, most)))


def _fair_share(near: float, total: float, k: int, wanted: int) -> int:
    if total <= 0 or abs(near - total * wanted / k) < 0.5 * total / k:
        return wanted
    return max(1, min(k - 1, round(near / total * k)))


def _best_prefix(
    order: NDArray[np.intp],
    load: FloatArray,
    pair: IntArray,
    cost: FloatArray,
    total: float,
    k: int,
    even: float,
) -> Cut:
    n = len(order)
    rank = np.empty(n, np.int64)
    rank[order] = np.arange(n)
    ends = np.sort(rank[pair], axis=1) if len(pair) else np.zeros((0, 2), np.int64)
    step = np.bincount(ends[:, 0] + 1, cost, n + 1) - np.bincount(ends[:, 1] + 1, cost, n + 1)
    cut, filled = np.cumsum(step)[1:n], np.cumsum(load[order])[: n - 1]
    best: Cut | None = None
    for near in sorted({k // 2, (k + 1) // 2}):
        goal = total * near / k
        slack = max(k - total, 0.0) * min(near, k - near) / k
        window = max(slack * 0.5, float(load.max()) * 0.51, 1e-9)
        first, last = np.searchsorted(filled, (goal - window, goal + window))
        first = min(int(first), n - 2)
        last = max(int(last), first + 1)
        here = cut[first:last] + even * np.abs(filled[first:last] - goal)
        place = int(np.argmin(here))
        if best is None or here[place] < best[0]:
            best = (float(here[place]), order, first + place + 1, near)
    assert best is not None
    return best


def _orders(mesh: Mesh, own: IntArray, xy: FloatArray, rng: np.random.Generator) -> list[NDArray[np.intp]]:
    """Return sweeps: straight ones at even angles from a random one, and one by steps from a far end."""
    turn = rng.random() * math.pi / DIRECTIONS
    angles = turn + np.arange(DIRECTIONS) * math.pi / DIRECTIONS
    along = xy @ np.stack([np.cos(angles), np.sin(angles)])
    return [*np.argsort(along, axis=0, kind="stable").T, _by_steps(mesh, own)]


def _by_steps(mesh: Mesh, own: IntArray) -> NDArray[np.intp]:
    inside = dict(zip(own.tolist(), range(len(own)), strict=True))
    reach = _flood(mesh, inside, own[0].item())
    reach = _flood(mesh, inside, reach[-1])
    return np.array([inside[v] for v in reach], np.intp)


def _flood(mesh: Mesh, inside: dict[int, int], start: int) -> list[int]:
    seen, reach = {start}, [start]
    near = mesh.near
    for v in reach:
        for u, _ in near[v]:
            if u in inside and u not in seen:
                seen.add(u)
                reach.append(u)
    return reach


def _connected_sides(side: NDArray[np.bool_], pair: IntArray) -> tuple[NDArray[np.bool_], bool]:
    """Give what has come loose on either side to the other, so that both hang together."""
    moved = False
    for now in (True, False):
        held = (side[pair] == now).all(axis=1)
        part = components(len(side), pair[held])
        sizes = np.bincount(part[side == now], minlength=1)
        if (sizes > 0).sum() > 1:
            side = np.where((part == np.argmax(sizes)) & (side == now), now, not now)
            moved = True
    return side, moved

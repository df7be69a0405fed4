"""Moves of single boundary tesserae under a falling temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.measures import RAG
from bench.sections.shape import Shape

NEARBY = 256
PIECES_A_STEP = 30  # listing the boundary takes about a step for so many tesserae


def boundary(shape: Shape, rng: np.random.Generator) -> list[int]:
    """List the tesserae beside another section, shuffled; refresh the yardstick of spread.

    Shuffled within stretches of NEARBY along the curve that numbers them, and stretch by stretch: what is
    looked at together lies together in memory, which on large panels is worth several times the speed.
    """
    label, pair = shape.label(), shape.mesh.pair
    shape.refresh(label)
    apart = pair[label[pair[:, 0]] != label[pair[:, 1]]]
    edge: NDArray[np.bool_] = np.zeros(len(label), bool)
    edge[apart] = True
    found = np.flatnonzero(edge)
    stretch = np.arange(len(found)) // NEARBY
    turn = rng.permutation(int(stretch[-1]) + 1 if len(found) else 0)[stretch] + rng.random(len(found))
    shuffled: list[int] = found[np.argsort(turn)].tolist()
    return shuffled


def anneal(shape: Shape, heat: float, stiff: float, rng: np.random.Generator) -> int:
    """Offer every boundary tessera its best other section once; return how many were looked at.

    heat: temperature, in mean joints; a move that adds less than -heat*log(u) is taken. stiff: what a load
    beyond the capacity costs, or one below that of a rag, in mean joints for a whole section.
    """
    edge = boundary(shape, rng)
    unit = shape.mesh.unit_mm
    limits = (-heat * unit * np.log(np.maximum(rng.random(len(edge)), 1e-12))).tolist()
    lab, load, near, weight = shape.lab, shape.load, shape.mesh.near, shape.weight
    area, xs, ys, pull, even = shape.area, shape.x, shape.y, shape.pull, shape.even
    sx, sy, room = shape.sx, shape.sy, shape.room
    push, cap = stiff * unit, shape.cap
    others: dict[int, float]
    for v, limit in zip(edge, limits, strict=True):
        a = lab[v]
        own, others = 0.0, {}
        for u, cost in near[v]:
            label = lab[u]
            if label == a:
                own += cost
            else:
                others[label] = others.get(label, 0.0) + cost
        if not others:
            continue
        t, x, y, mm2 = weight[v], xs[v], ys[v], area[v]
        dx, dy = x - sx[a] / room[a], y - sy[a] / room[a]
        stay = own - mm2 * pull[a] * (dx * dx + dy * dy - even[a])
        full = load[a]
        if full > cap:
            stay -= push * min(t, full - cap)
        elif full - t < RAG:
            stay += push * min(t, RAG - full + t)
        best, to = limit, -1
        for b, cost in others.items():
            dx, dy = x - sx[b] / room[b], y - sy[b] / room[b]
            change = stay - cost + mm2 * pull[b] * (dx * dx + dy * dy - even[b])
            beyond = load[b] + t - cap
            if beyond > 0:
                change += push * min(t, beyond)
            elif load[b] < RAG:
                change -= push * min(t, RAG - load[b])
            if change < best:
                best, to = change, b
        if to >= 0 and shape.can_leave(v):
            shape.move(v, to)
    return len(edge) + len(shape.weight) // PIECES_A_STEP

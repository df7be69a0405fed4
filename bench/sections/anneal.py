"""Moves of single boundary tesserae under a falling temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.sections.measures import RAG
from bench.sections.shape import Shape
from bench.sections.weigh import weighed

NEARBY = 256
PIECES_A_STEP = 30  # listing the boundary takes about a step for so many tesserae
STEPS_A_PASS = 100  # what a pass takes besides, however few the tesserae


def anneal(shape: Shape, heat: float, stiff: float, rng: np.random.Generator) -> int:
    """Offer every boundary tessera its best other section once; return the steps that this takes.

    heat: temperature, in mean joints; a move that adds less than -heat*log(u) is taken. stiff: what a load
    beyond the capacity costs, or one below that of a rag, in mean joints for a whole section.
    All are weighed at once as things stand; those that might move are weighed again when their turn comes,
    since what moved before them may have changed it.
    """
    label, unit = shape.label(), shape.mesh.unit_mm
    shape.refresh(label)
    edge, least = weighed(shape, label, stiff * unit)
    limit = -heat * unit * np.log(np.maximum(rng.random(len(edge)), 1e-12))
    willing = np.flatnonzero(least < limit)
    turn = willing[_turns(len(willing), rng)]
    _move(shape, edge[turn].tolist(), limit[turn].tolist(), stiff * unit)
    return len(edge) + len(label) // PIECES_A_STEP + STEPS_A_PASS


def _turns(count: int, rng: np.random.Generator) -> NDArray[np.intp]:
    """Shuffle places within stretches of NEARBY, and stretch by stretch.

    Tesserae are numbered along a curve: what is looked at together then lies together in memory, which on
    large panels is worth several times the speed.
    """
    stretch = np.arange(count) // NEARBY
    turn = rng.permutation(int(stretch[-1]) + 1 if count else 0)[stretch] + rng.random(count)
    return np.argsort(turn)


def _move(shape: Shape, turns: list[int], limits: list[float], push: float) -> None:
    """Move each tessera, in turn, to its best other section where that adds less than its limit."""
    lab, load, near, weight = shape.lab, shape.load, shape.mesh.near, shape.weight
    area, xs, ys, pull, even = shape.area, shape.x, shape.y, shape.pull, shape.even
    sx, sy, room, cap = shape.sx, shape.sy, shape.room, shape.cap
    others: dict[int, float]
    for v, limit in zip(turns, limits, strict=True):
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

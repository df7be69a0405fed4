"""Rows: chains of tesserae that follow each other across their shorter sides and turn gently."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.ground import FloatArray, Ground, IntArray

SHARPEST_TURN = math.radians(40)  # between the two joints of a tessera, from straight on
_ROUNDS, _NEIGHBOURS = 8, 0.8  # how far, and how much, tesserae follow the rows around them
LEAST_LEANING = 0.12  # how clearly a joint must lie across the shorter side


def axes(panel: Panel, tessera: IntArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return direction of the long axis (radians), long and short side (mm) of tesserae, each (n,).

    From the second moments of the outer outline; sides are those of the rectangle with the same moments.
    A round or square tessera has equal sides and no meaningful direction.
    """
    ring = panel.tessera_ring[tessera]
    first, size = panel.ring_start[ring], panel.ring_start[ring + 1] - panel.ring_start[ring]
    owner = np.repeat(np.arange(len(tessera)), size)
    place = np.arange(len(owner)) - np.repeat(np.cumsum(size) - size, size)
    here = panel.points_mm[np.repeat(first, size) + place] - panel.centroid_mm[tessera][owner]
    there = panel.points_mm[np.repeat(first, size) + (place + 1) % np.repeat(size, size)]
    there = there - panel.centroid_mm[tessera][owner]
    cross = here[:, 0] * there[:, 1] - there[:, 0] * here[:, 1]

    def moment(i: int, j: int) -> FloatArray:
        both = here[:, i] * here[:, j] + there[:, i] * there[:, j]
        mixed = (here[:, i] * there[:, j] + there[:, i] * here[:, j]) / 2
        return np.asarray(np.bincount(owner, cross * (both + mixed) / 12, len(tessera)), float)

    area = np.bincount(owner, cross / 2, len(tessera))
    area = np.where(np.abs(area) < 1e-12, 1e-12, area)
    xx, yy, xy = (moment(i, j) / area for i, j in ((0, 0), (1, 1), (0, 1)))
    middle, half = (xx + yy) / 2, np.hypot((xx - yy) / 2, xy)
    long, short = (np.sqrt(12 * np.maximum(middle + sign * half, 1e-9)) for sign in (1, -1))
    return np.arctan2(2 * xy, xx - yy) / 2, long, short


def row_joints(panel: Panel, ground: Ground, allowed: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Say which joints lie within a row, from one tessera to the next, (m,).

    Each tessera chooses the two joints, turning by at most SHARPEST_TURN, that lie most clearly across its
    shorter side, or one where the row ends; a joint that both sides chose belongs to a row.
    allowed: joints that a row may pass, (m,); those between motifs it may not.
    """
    m = len(ground.pair)
    joint = np.flatnonzero(allowed)
    if not len(joint):
        return np.zeros(m, bool)
    direction, long, short = axes(panel, ground.tessera)
    source = np.concatenate((ground.pair[joint, 0], ground.pair[joint, 1]))
    target = np.concatenate((ground.pair[joint, 1], ground.pair[joint, 0]))
    both = np.concatenate((joint, joint))
    away = ground.centroid_mm[target] - ground.centroid_mm[source]
    angle = np.arctan2(away[:, 1], away[:, 0])
    facing = np.minimum(1.0, ground.joint_mm[both] / np.maximum(short[source], short[target]))
    shown = (1 - short / long) * np.exp(2j * direction)
    shown += _sum(source, (facing - 0.7) * np.exp(2j * angle), len(shown))
    way = _spread(shown, source, target)[source]
    leaning = (way * np.exp(-2j * angle)).real + facing - 0.7
    chosen = _choose(source, angle, leaning)
    votes = np.bincount(both[chosen], minlength=m)
    return np.asarray(votes == 2)


def _sum(owner: IntArray, value: NDArray[np.complex128], count: int) -> NDArray[np.complex128]:
    return np.bincount(owner, value.real, count) + 1j * np.bincount(owner, value.imag, count)


def _spread(shown: NDArray[np.complex128], source: IntArray, target: IntArray) -> NDArray[np.complex128]:
    """Return the way of each tessera's row as it and those around it show it, of length 0 to 1, (n,).

    A way and its opposite are the same: ways are complex numbers of twice the angle. A tessera that shows
    none of its own, square as it is, takes that of its neighbours.
    """
    degree = np.maximum(np.bincount(source, minlength=len(shown)), 1)
    way = shown
    for _ in range(_ROUNDS):
        way = shown + _NEIGHBOURS * _sum(source, way[target], len(shown)) / degree
    return way / np.maximum(np.abs(way), 1.0)


def _choose(source: IntArray, angle: FloatArray, leaning: FloatArray) -> NDArray[np.bool_]:
    """Pick the best straight pair of each tessera, or its best single joint where no pair is straight."""
    order = np.argsort(source, kind="stable")
    start = np.searchsorted(source[order], np.arange(int(source.max()) + 2))
    degree = np.diff(start)[source[order]]
    one = np.repeat(np.arange(len(order)), degree)
    first = np.repeat(start[source[order]], degree)
    two = first + np.arange(len(one)) - np.repeat(np.cumsum(degree) - degree, degree)
    keep = one < two
    one, two = order[one[keep]], order[two[keep]]
    turn = np.abs(np.abs((angle[one] - angle[two] + math.pi) % (2 * math.pi) - math.pi) - math.pi)
    worth = (leaning[one] + leaning[two]) / 2 - turn / math.pi
    fits = (turn <= SHARPEST_TURN) & (np.minimum(leaning[one], leaning[two]) >= LEAST_LEANING)
    one, two, worth = one[fits], two[fits], worth[fits]
    chosen = np.zeros(len(source), bool)
    best = _best_of(source[one], worth)
    chosen[one[best]] = True
    chosen[two[best]] = True
    paired = np.zeros(int(source.max()) + 1, bool)
    paired[source[one]] = True
    alone = np.flatnonzero(~paired[source] & (leaning >= LEAST_LEANING))
    chosen[alone[_best_of(source[alone], leaning[alone])]] = True
    return chosen


def _best_of(owner: IntArray, worth: FloatArray) -> NDArray[np.intp]:
    """Return, for each owner that occurs, the place of its greatest worth."""
    order = np.lexsort((-worth, owner))
    first = np.ones(len(order), bool)
    first[1:] = owner[order][1:] != owner[order][:-1]
    return np.asarray(order[first], np.intp)

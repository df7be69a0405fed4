"""Like colours put together: a leader takes every colour that differs from it by no more than is allowed.

The colour that covers most leads first and takes all colours within ΔE00 `like_de` of itself; of those left
the one that covers most leads next, and so on. So every colour is within `like_de` of its leader, no two
leaders are, and the answer does not depend on the order in which the colours are given.

Only colours that can be near enough are looked at. If ΔE00 ≤ E then |ΔL*| ≤ 1.75·E (the most that S_L can
be), and in the plane of a* and b* the distance is at most E·S_C / √(1 − |R_T|/2), since S_H < S_C, the form
x² + y² + R_T·x·y is never less than (1 − |R_T|/2)(x² + y²), and stretching a* to a' only moves colours
apart. Of S_C and R_T, which depend on the colour met, the most that they can be is taken.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import delta_e_2000
from bench.drawing.panel import FloatArray

Index = NDArray[np.intp]
Bools = NDArray[np.bool_]

_LIGHTNESS = 1.2  # how much wider apart L* is set, so that fewer colours are looked at
_MOST_S_L = 1.75
_WORST = 1.0 / np.sqrt(1.0 - np.sin(np.radians(60.0)))  # of the plane, where R_T turns most
_A_STRETCH = 6.5  # a' makes no chroma greater than C* + 6.5
_A_TURN_DEG = 12.0  # and turns no hue by more
_ROUNDING = 1e-7
_PAIRS_AT_ONCE = 200_000
_MOST_AT_ONCE = 512


def led_by(lab: FloatArray, weight: FloatArray, like_de: float) -> Index:
    """Return for each colour the one that leads it, by index. (n, 3), (n,) → (n,)

    weight: how much each covers; of equals the first given leads. Leaders lead themselves. At `like_de` 0
    every colour leads itself, even where two are equal: give each once.
    """
    n = len(lab)
    leader = np.arange(n, dtype=np.intp)
    if not like_de > 0 or n < 2:
        return leader
    taken = np.zeros(n, bool)
    waiting = np.argsort(-weight, kind="stable")
    radius = reach(lab, like_de)
    while len(waiting):
        _lead(lab, radius, like_de, waiting, leader, taken)
        waiting = waiting[~taken[waiting]]
    return leader


def nearest_alike(lab: FloatArray, other: FloatArray, like_de: float) -> Index:
    """Return for each of `other` the nearest colour within `like_de`, -1 for none. (n, 3), (m, 3) → (m,)"""
    from scipy.spatial import cKDTree

    found = np.full(len(other), -1, np.intp)
    if not len(lab) or not len(other):
        return found
    stretch = (_LIGHTNESS, 1.0, 1.0)
    radius = reach(other, like_de) + _ROUNDING
    near = cKDTree(lab * stretch).query_ball_point(other * stretch, radius, return_sorted=True)
    for k, some in enumerate(near):
        away = delta_e_2000(lab[some], other[k])
        if len(some) and away.min() <= like_de:
            found[k] = some[int(away.argmin())]
    return found


def reach(lab: FloatArray, like_de: float) -> FloatArray:
    """Return how far in (1.2·L*, a*, b*) a colour within `like_de` of each can be at most. (n, 3) → (n,)"""
    chroma = np.hypot(lab[:, 1], lab[:, 2])
    hue = np.degrees(np.arctan2(lab[:, 2], lab[:, 1])) % 360.0
    farthest = _plane(chroma, np.full(len(lab), _WORST), like_de)
    near = farthest < chroma
    half = np.degrees(np.arcsin(np.where(near, farthest / np.maximum(chroma, 1e-9), 1.0))) / 2.0
    turn = np.where(near, half, 180.0) + _A_TURN_DEG
    from_blue = np.maximum(0.0, np.abs((hue - 275.0 + 180.0) % 360.0 - 180.0) - turn)
    mean7 = (chroma + farthest / 2.0) ** 7
    r = 2.0 * np.sqrt(mean7 / (mean7 + 25.0**7))
    r = r * np.sin(np.radians(60.0 * np.exp(-((from_blue / 25.0) ** 2))))
    plane = _plane(chroma, 1.0 / np.sqrt(1.0 - r / 2.0), like_de)
    found: FloatArray = np.maximum(plane, _LIGHTNESS * _MOST_S_L * like_de)
    return found


def _plane(chroma: FloatArray, worst: FloatArray, like_de: float) -> FloatArray:
    """Return d where d = worst · E · S_C at the mean chroma C* + 6.5 + d/2; without bound all there are."""
    share = 1.0 - 0.0225 * worst * like_de
    d = worst * like_de * (1.0 + 0.045 * (chroma + _A_STRETCH)) / np.maximum(share, 1e-9)
    return np.where(share > 1e-3, np.minimum(d, 1e3), 1e3)


def _lead(
    lab: FloatArray, radius: FloatArray, like_de: float, waiting: Index, leader: Index, taken: Bools
) -> None:
    """Let the first of those waiting lead, in order, until half of them are taken or all have had a turn."""
    from scipy.spatial import cKDTree

    stretched = lab * (_LIGHTNESS, 1.0, 1.0)
    tree = cKDTree(stretched[waiting])
    first, size, left = 0, 8, len(waiting)
    while first < len(waiting) and 2 * left > len(waiting):
        some = waiting[first : first + size]
        first += size
        some = some[~taken[some]]
        if not len(some):
            continue
        found = tree.query_ball_point(stretched[some], radius[some] + _ROUNDING, return_sorted=False)
        counts = np.array([len(one) for one in found])
        other = waiting[np.concatenate([np.asarray(one, np.intp) for one in found])]
        left -= _take(lab, like_de, np.repeat(some, counts), other, leader, taken)
        size = int(np.clip(_PAIRS_AT_ONCE * len(some) / max(counts.sum(), 1), 4, _MOST_AT_ONCE))


def _take(lab: FloatArray, like_de: float, one: Index, other: Index, leader: Index, taken: Bools) -> int:
    """Let each colour of `one`, in order, take what is still free among those beside it; return how many."""
    free = ~taken[other]
    one, other = one[free], other[free]
    near = delta_e_2000(lab[one], lab[other]) <= like_de
    one, other = one[near], other[near]
    heads, start = np.unique(one, return_index=True)
    turns = np.argsort(start)  # of those that come first
    ends = np.append(np.sort(start)[1:], len(one))
    count = 0
    for head, begin, end in zip(heads[turns].tolist(), np.sort(start).tolist(), ends.tolist(), strict=True):
        if taken[head]:
            continue
        mine = other[begin:end]
        mine = mine[~taken[mine]]
        leader[mine], taken[mine] = head, True
        count += len(mine)
    return count

"""Zones of grout proposed from the glass: what is of like colour is grouted together.

What the drawing names as groups is kept whole; without groups, patches of like glass grow together, the
smallest first, each with the neighbour whose mean colour is nearest. Then the nearest colours join, wherever
they lie, until those left are unlike, and few.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import RGB, delta_e_2000, lab_to_srgb, srgb_to_lab
from bench.drawing.colour_words import colour_words
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.glass import glass_list, rgb_of
from bench.finish.zones import group_zones

# All of these are common practice, no source.
FAMILY_DE = 14.0  # ΔE00 up to which parts of the panel may share a grout
SHADE_DE = 8.0  # up to which neighbouring pieces are one patch
MOST_ZONES = 6  # more colours than that nobody masks
LEAST_SHARE = 0.03  # of the glass; what is less joins another
_PATCH_SHARE = 0.008  # up to which a patch grows with what lies beside it, whatever lies elsewhere
_MOST_GROUPS = 200


def proposed_zones(panel: Panel, *, most: int = MOST_ZONES) -> tuple[IntArray, tuple[str, ...]]:
    """Return the zone of each tessera, (n,), and the zones' names, that of most glass first.

    A zone of one group has its name, others that of their mean colour. A panel of one colour is one zone.
    """
    group, group_names = group_zones(panel)
    grouped = 1 < len(np.unique(group)) <= _MOST_GROUPS
    unit: IntArray = _numbered(group) if grouped else _grown(panel, _patches(panel))
    zone = _families(panel, unit, most)[unit]
    area_mm2 = np.bincount(zone, panel.area_mm2)
    order = np.argsort(-area_mm2, kind="stable")
    rank = np.empty(len(order), np.int32)
    rank[order] = np.arange(len(order), dtype=np.int32)
    names = [_name(panel, zone == k, group, group_names, grouped=grouped) for k in order.tolist()]
    found: IntArray = rank[zone]
    return found, _told_apart(names)


def main_colour(colour: NDArray[np.uint8], area_mm2: FloatArray) -> RGB:
    """Return the mean sRGB colour of some pieces by area, taken in CIELAB. (n, 3), (n,)"""
    return rgb_of(lab_to_srgb(np.average(srgb_to_lab(colour), axis=0, weights=area_mm2)))


def _numbered(label: NDArray[np.integer]) -> IntArray:
    """Return labels as numbers from 0 without a gap."""
    found: IntArray = np.unique(label, return_inverse=True)[1].astype(np.int32)
    return found


def _patches(panel: Panel) -> IntArray:
    """Return the patch of each tessera: joined pieces of like glass."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    n, of = panel.tessera_count, glass_list(panel, like_de=SHADE_DE).of
    a, b = panel.joints.pair.T
    same = of[a] == of[b]
    graph = coo_array((np.ones(int(same.sum()), bool), (a[same], b[same])), shape=(n, n))
    label: IntArray = connected_components(graph, directed=False)[1]
    return label


def _means(panel: Panel, unit: IntArray) -> tuple[FloatArray, FloatArray]:
    """Return the mean CIELAB and the area of each unit. (u, 3), (u,) [mm²]"""
    area_mm2 = np.bincount(unit, panel.area_mm2)
    lab = srgb_to_lab(panel.colour)
    mean = np.stack([np.bincount(unit, panel.area_mm2 * lab[:, k]) for k in range(3)], axis=1)
    return mean / area_mm2[:, None], area_mm2.astype(np.float64)


def _grown(panel: Panel, patch: IntArray) -> IntArray:
    """Let patches below the least share join the neighbour of the nearest mean colour, smallest first."""
    from heapq import heapify, heappop, heappush

    mean, area_mm2 = _means(panel, patch)
    beside: list[set[int]] = [set() for _ in area_mm2]
    for a, b in patch[panel.joints.pair].tolist():
        if a != b:
            beside[a].add(b)
            beside[b].add(a)
    into = np.arange(len(area_mm2))
    least_mm2 = _PATCH_SHARE * panel.glass_area_mm2
    waiting = [(area, k) for k, area in enumerate(area_mm2.tolist())]
    heapify(waiting)
    while waiting and waiting[0][0] < least_mm2:
        area, k = heappop(waiting)
        if into[k] != k or area != area_mm2[k] or not beside[k]:
            continue  # it has joined another, has grown since, or lies alone
        others = sorted(beside[k])
        to = others[int(delta_e_2000(mean[others], mean[k]).argmin())]
        both = area_mm2[to] + area
        mean[to] = (mean[to] * area_mm2[to] + mean[k] * area) / both
        into[k], area_mm2[to] = to, both
        for other in beside[k]:
            beside[other].discard(k)
            if other != to:
                beside[other].add(to)
                beside[to].add(other)
        heappush(waiting, (both, to))
    while (into[into] != into).any():
        into = into[into]
    return _numbered(into[patch])


def _families(panel: Panel, unit: IntArray, most: int) -> IntArray:
    """Return the family of each unit: the two nearest join while they are alike, too small, or too many."""
    mean, area_mm2 = _means(panel, unit)
    least_mm2 = LEAST_SHARE * panel.glass_area_mm2
    of = np.arange(len(area_mm2), dtype=np.int32)
    alive = list(range(len(area_mm2)))
    while len(alive) > 1:
        away = np.stack([delta_e_2000(mean[alive], mean[k]) for k in alive])
        np.fill_diagonal(away, np.inf)
        small = int(area_mm2[alive].argmin())
        one, other = np.unravel_index(int(away.argmin()), away.shape)
        if away.min() > FAMILY_DE and len(alive) <= most:
            if area_mm2[alive[small]] >= least_mm2:
                break
            one, other = np.intp(small), away[small].argmin()
        keep, gone = alive[int(other)], alive[int(one)]
        both = area_mm2[keep] + area_mm2[gone]
        mean[keep] = (mean[keep] * area_mm2[keep] + mean[gone] * area_mm2[gone]) / both
        area_mm2[keep] = both
        of[of == gone] = keep
        alive.remove(gone)
    return _numbered(of)


def _name(
    panel: Panel, chosen: NDArray[np.bool_], group: IntArray, names: tuple[str, ...], *, grouped: bool
) -> str:
    held = np.unique(group[chosen])
    if grouped and len(held) == 1 and names[held[0]].strip():
        return names[int(held[0])]
    return colour_words(main_colour(panel.colour[chosen], panel.area_mm2[chosen]))


def _told_apart(names: list[str]) -> tuple[str, ...]:
    """Count a second of the same name."""
    seen: dict[str, int] = {}
    told = []
    for name in names:
        seen[name] = seen.get(name, 0) + 1
        told.append(name if seen[name] == 1 else f"{name} {seen[name]}")
    return tuple(told)

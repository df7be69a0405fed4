"""Zones of grout proposed from the glass: what is of like colour and lies together is grouted together."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing import Panel, delta_e_2000, lab_to_srgb, srgb_to_lab
from bench.drawing.colour_words import words_for
from bench.drawing.panel import FloatArray, IntArray
from bench.finish.glass import RGB, glass_list, rgb_of

# All of these are common practice, no source.
FAMILY_DE = 20.0  # ΔE00 up to which glass may share a grout
MOST_ZONES = 6  # more colours than that nobody masks
LEAST_SHARE = 0.03  # of the glass; what is less joins its neighbours


def proposed_zones(panel: Panel, *, most: int = MOST_ZONES) -> tuple[IntArray, tuple[str, ...]]:
    """Return the zone of each tessera, (n,), and the zones' names, that of most glass first.

    Families of like colour first, at most so many; then every patch too small to be masked joins the zone
    with which it shares the longest joint. A panel of one colour is one zone.
    """
    family = _families(panel, most)
    patch = _patches(panel, family)
    zone = _joined(panel, patch, family)
    kept, place = np.unique(zone, return_inverse=True)
    area_mm2 = np.bincount(place, panel.area_mm2)
    order = np.argsort(-area_mm2, kind="stable")
    rank = np.empty(len(kept), np.int32)
    rank[order] = np.arange(len(kept), dtype=np.int32)
    names = _names([panel.colour[place == k] for k in order], [panel.area_mm2[place == k] for k in order])
    found: IntArray = rank[place]
    return found, names


def main_colour(colour: NDArray[np.uint8], area_mm2: FloatArray) -> RGB:
    """Return the mean sRGB colour of some pieces by area, taken in CIELAB. (n, 3), (n,)"""
    return rgb_of(lab_to_srgb(np.average(srgb_to_lab(colour), axis=0, weights=area_mm2)))


def _families(panel: Panel, most: int) -> IntArray:
    """Return the family of each tessera: the largest unlike colours lead, whatever the kind of glass."""
    listed = glass_list(panel, like_de=FAMILY_DE)
    leads: list[int] = []
    for k in range(len(listed.glasses)):
        far = all(delta_e_2000(listed.lab[k], listed.lab[j]) > FAMILY_DE for j in leads)
        if far and len(leads) < most:
            leads.append(k)
    away = np.stack([delta_e_2000(listed.lab, listed.lab[k]) for k in leads], axis=1)
    nearest: IntArray = away.argmin(axis=1).astype(np.int32)
    found: IntArray = nearest[listed.of]
    return found


def _patches(panel: Panel, family: IntArray) -> IntArray:
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    n = panel.tessera_count
    a, b = panel.joints.pair.T
    same = family[a] == family[b]
    graph = coo_array((np.ones(int(same.sum()), bool), (a[same], b[same])), shape=(n, n))
    label: IntArray = connected_components(graph, directed=False)[1]
    return label


def _joined(panel: Panel, patch: IntArray, family: IntArray) -> IntArray:
    """Let patches below the least share join, smallest first, the neighbour of the longest joint."""
    count = int(patch.max()) + 1
    area_mm2 = np.bincount(patch, panel.area_mm2, minlength=count).astype(float)
    of = np.zeros(count, np.int32)
    of[patch] = family
    beside: list[dict[int, float]] = [{} for _ in range(count)]
    ends = patch[panel.joints.pair]
    for (a, b), length in zip(ends.tolist(), panel.joints.length_mm.tolist(), strict=True):
        if a != b:
            beside[a][b] = beside[a].get(b, 0.0) + length
            beside[b][a] = beside[b].get(a, 0.0) + length
    least_mm2 = LEAST_SHARE * panel.glass_area_mm2
    into = np.arange(count)
    for k in np.argsort(area_mm2, kind="stable").tolist():
        if area_mm2[k] >= least_mm2 or not beside[k]:
            continue
        to = max(beside[k], key=lambda other: (beside[k][other], area_mm2[other]))
        into[k], area_mm2[to] = to, area_mm2[to] + area_mm2[k]
        for other, length in beside[k].items():
            del beside[other][k]
            if other != to:
                beside[to][other] = beside[to].get(other, 0.0) + length
                beside[other][to] = beside[other].get(to, 0.0) + length
    while (into[into] != into).any():
        into = into[into]
    found: IntArray = of[into][patch]
    return found


def _names(colours: list[NDArray[np.uint8]], areas: list[FloatArray]) -> tuple[str, ...]:
    """Name zones by the colour that covers most of each; a second of the same name is counted."""
    mains = np.array([main_colour(c, a) for c, a in zip(colours, areas, strict=True)], np.uint8)
    seen: dict[str, int] = {}
    names = []
    for word in words_for(mains):
        seen[word] = seen.get(word, 0) + 1
        names.append(word if seen[word] == 1 else f"{word} {seen[word]}")
    return tuple(names)

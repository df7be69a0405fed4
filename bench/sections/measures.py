"""What a division is judged by: the hard rules, the bound, and the measures a person can be shown."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.sections.ground import Ground
from bench.sections.parts import one_adhesive_parts, part_bounds
from bench.speech import length, say

# How much a section's spread counts against its cut: mm of plain joint for each mm of radius of gyration.
# For forms more, since most joints are dearer there than plain ones.
ROUNDNESS_WEIGHT = {"fewest": 8.0, "forms": 12.0}

RAG = 0.25  # share of its capacity: a section of less is a rag, for which nobody would mix a batch

Labels = NDArray[np.integer]


def lower_bound(ground: Ground) -> int:
    """Return the fewest sections there could be: the sum of ceil(time / capacity) over one-adhesive parts.

    A tessera that alone exceeds its capacity counts as one part and one section. 0 for an empty ground.
    """
    return sum(part_bounds(ground, one_adhesive_parts(ground)))


def broken_rules(ground: Ground, label: Labels) -> list[str]:
    """Name every hard rule that a labelling breaks; an empty list means it is legal.

    Walks the joints itself and shares nothing with the search. Loads are summed exactly; one tessera that
    alone exceeds the capacity is allowed.
    """
    if len(label) != ground.count:
        return [say("{labels} labels for {count} tesserae", labels=len(label), count=ground.count)]
    facing: list[list[int]] = [[] for _ in range(ground.count)]
    for a, b in ground.pair.tolist():
        facing[a].append(b)
        facing[b].append(a)
    members: dict[int, list[int]] = {}
    for tessera, section in enumerate(np.asarray(label).tolist()):
        members.setdefault(section, []).append(tessera)
    return [
        text for section in sorted(members) for text in _broken(ground, section, members[section], facing)
    ]


def _broken(ground: Ground, section: int, own: list[int], facing: list[list[int]]) -> Iterator[str]:
    if section < 0:
        yield say("tesserae {ids} belong to no section", ids=own[:5])
        return
    inside, reached, todo = set(own), {own[0]}, [own[0]]
    while todo:
        fresh = [u for u in facing[todo.pop()] if u in inside and u not in reached]
        reached.update(fresh)
        todo.extend(fresh)
    if len(reached) < len(own):
        yield say(
            "section {section} is not connected: {reached} of {count} tesserae hang together",
            section=section,
            reached=len(reached),
            count=len(own),
        )
    if len({int(ground.adhesive[v]) for v in own}) > 1:
        yield say("section {section} needs more than one adhesive", section=section)
    total_s, cap_s = math.fsum(ground.expected_s[own]), float(ground.cap_s[own].min())
    if len(own) > 1 and total_s > cap_s:
        yield say(
            "section {section} takes {total:g} s and its adhesive allows {capacity:g} s",
            section=section,
            total=total_s,
            capacity=cap_s,
        )


def cut_mm(ground: Ground, label: Labels) -> float:
    """Length of joint that lies between two sections. [mm]"""
    return float(ground.joint_mm[_is_cut(ground, label)].sum())


def cut_cost(ground: Ground, label: Labels) -> float:
    """What the cuts cost, in mm of plain joint; equal to cut_mm for 'fewest'."""
    return float(ground.cut_cost[_is_cut(ground, label)].sum())


def shape_quotient(ground: Ground, label: Labels) -> float:
    """Mean over sections of 4*pi*A/P²: 1 for a disc, less for what is long or ragged; 0 without sections.

    A is the glass area, P the joints cut plus the outline that faces nothing.
    """
    if not ground.count:
        return 0.0
    k = int(np.max(label)) + 1
    area = np.bincount(label, ground.area_mm2, k)
    cut = _is_cut(ground, label)
    around = np.asarray(np.bincount(label[ground.pair[cut].ravel()], np.repeat(ground.joint_mm[cut], 2), k))
    if len(ground.free_mm):
        around += np.bincount(label, ground.free_mm, k)
    used = (area > 0) & (around > 0)
    return float(np.mean(4 * math.pi * area[used] / around[used] ** 2)) if used.any() else 0.0


def spread_mm(ground: Ground, label: Labels) -> float:
    """Sum of the sections' radii of gyration, sqrt(I/A), I the second moment of area about the centroid. [mm]

    A disc has 0.399*sqrt(A). Along a border the sum is the same however long each section is, so that it
    does not ask for equal lengths there. 0 for no sections.
    """
    if not ground.count:
        return 0.0
    k = int(np.max(label)) + 1
    area = np.maximum(np.bincount(label, ground.area_mm2, k), 1e-12)
    weighed = [np.bincount(label, ground.area_mm2 * x, k) for x in ground.centroid_mm.T]
    centre = np.stack(weighed, axis=1) / area[:, None]
    away = ((ground.centroid_mm - centre[label]) ** 2).sum(axis=1)
    return float(np.sqrt(np.bincount(label, ground.area_mm2 * away, k) / area).sum())


def total_cost(ground: Ground, label: Labels) -> float:
    """The one sum that ranks divisions of equal count: cut_cost + ROUNDNESS_WEIGHT * spread_mm."""
    return cut_cost(ground, label) + ROUNDNESS_WEIGHT[ground.prefer] * spread_mm(ground, label)


def section_count(ground: Ground, label: Labels) -> float:
    """How many sections there are."""
    return float(len(np.unique(label)))


def fullness(ground: Ground, label: Labels) -> float:
    """Mean share of the capacity that a section uses; 0 without sections."""
    if not ground.count:
        return 0.0
    k = int(np.max(label)) + 1
    return float(np.bincount(label, ground.expected_s / ground.cap_s, k).mean())


def rags(ground: Ground, label: Labels) -> float:
    """How many sections use less than RAG of their capacity, in a part that needs more than one."""
    if not ground.count:
        return 0.0
    part = one_adhesive_parts(ground)
    k = int(np.max(label)) + 1
    load, whole = np.bincount(label, ground.expected_s / ground.cap_s, k), np.zeros(k, np.int64)
    whole[label] = np.bincount(part, ground.expected_s / ground.cap_s)[part] > 1
    return float(((load < RAG) & (whole > 0)).sum())


def _is_cut(ground: Ground, label: Labels) -> NDArray[np.bool_]:
    if not len(ground.pair):
        return np.zeros(0, bool)
    return np.asarray(label[ground.pair[:, 0]] != label[ground.pair[:, 1]])


@dataclass(frozen=True)
class Measure:
    """Pair a function of a division with what tells a person what its figure means."""

    value: Callable[[Ground, Labels], float]
    sentence: Callable[[float], str]

    def __call__(self, ground: Ground, label: Labels) -> float:
        return self.value(ground, label)

    def told(self, ground: Ground, label: Labels) -> str:
        """Return the sentence with its figure."""
        return self.sentence(self.value(ground, label))


MEASURES: dict[str, Measure] = {
    "sections": Measure(section_count, lambda x: say("{value:.0f} sections, each from one batch.", value=x)),
    "cut_mm": Measure(cut_mm, lambda x: say("{length} of joint lie between two sections.", length=length(x))),
    "cut_cost": Measure(
        cut_cost, lambda x: say("The cuts cost as much as {length} of plain joint.", length=length(x))
    ),
    "shape_quotient": Measure(
        shape_quotient, lambda x: say("Shapes score {value:.2f}, where a disc scores 1.", value=x)
    ),
    "spread_mm": Measure(
        spread_mm,
        lambda x: say("The sections' spread adds up to {length}; round ones have least.", length=length(x)),
    ),
    "rags": Measure(rags, lambda x: say("{value:.0f} sections are rags of a few pieces.", value=x)),
    "fullness": Measure(
        fullness,
        lambda x: say("A section uses {percent:.0f} % of its working time on average.", percent=100 * x),
    ),
    "total_cost": Measure(total_cost, lambda x: say("Cut and spread together come to {value:.0f}.", value=x)),
}

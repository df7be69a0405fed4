"""Motifs: what a maker sees as one thing, a patch of like colours or a group of the drawing."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.ground import Ground, IntArray
from bench.sections.parts import components

NEAR_DELTA_E = 12.0  # ΔE00 between neighbours up to which they belong to one motif
LARGEST_GROUP = 0.5  # a group that holds more of the ground than this is a layer, not a thing
FEWEST_TESSERAE = 3  # fewer make no motif worth sparing


def motifs(panel: Panel, ground: Ground, near_delta_e: float = NEAR_DELTA_E) -> IntArray:
    """Number the motifs of a ground, (n,).

    A motif is a connected patch whose neighbours differ by at most near_delta_e, or a connected patch of
    one group of the drawing, unless that group holds over half of the ground: then colours decide.
    """
    from bench.drawing.colour import delta_e_2000, srgb_to_lab

    lab = srgb_to_lab(panel.colour[ground.tessera])
    group = _things(panel.group[ground.tessera])
    a, b = ground.pair[:, 0], ground.pair[:, 1]
    alike = np.asarray(delta_e_2000(lab[a], lab[b])) <= near_delta_e
    together = (group[a] == group[b]) & ((group[a] >= 0) | alike)
    return components(ground.count, ground.pair[together])


def _things(group: IntArray) -> IntArray:
    """Return the groups with layers taken as none, -1."""
    size = np.bincount(group[group >= 0], minlength=int(group.max(initial=-1)) + 1)
    large = np.append(size > LARGEST_GROUP * max(len(group), 1), False)
    return np.where(large[group], -1, group)


def fitting_motifs(ground: Ground, motif: IntArray) -> NDArray[np.bool_]:
    """Say of each motif whether a section could hold it: one adhesive, within capacity, 3 or more pieces."""
    count = int(motif.max(initial=-1)) + 1
    load = np.bincount(motif, ground.expected_s, count)
    size = np.bincount(motif, minlength=count)
    least, most = np.full(count, math.inf), np.full(count, -math.inf)
    np.minimum.at(least, motif, ground.adhesive)
    np.maximum.at(most, motif, ground.adhesive)
    cap = np.full(count, math.inf)
    np.minimum.at(cap, motif, ground.cap_s)
    return np.asarray((least == most) & (load <= cap) & (size >= FEWEST_TESSERAE))

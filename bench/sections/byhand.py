"""Change a division by hand: join, split along a stroke, move tesserae; refuse what breaks a hard rule."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bench.sections.division import Division
from bench.sections.faults import (
    LengthsDiffer,
    MixedAdhesives,
    NoSuchSection,
    NoSuchTessera,
    NotConnected,
    OverCapacity,
    StrokeDividesNothing,
)
from bench.sections.ground import FloatArray, Ground

Labels = NDArray[np.integer]

FARTHEST_MM = 1e6  # a stroke that leaves the panel goes no further


def join(ground: Ground, label: Labels, a: int, b: int) -> Division:
    """Return the division with two sections made one; a section joined to itself changes nothing.

    Raises NotConnected, OverCapacity or MixedAdhesives; NoSuchSection for a number not in use.
    """
    now = _checked(ground, label)
    for section in (a, b):
        _known(now, section)
    now[now == b] = a
    _refuse(ground, now, [a])
    return Division.of(now)


def move(ground: Ground, label: Labels, tesserae: Sequence[int], to: int, *, mend: bool = False) -> Division:
    """Return the division with some tesserae in another section; none change nothing.

    to: a section in use, or the next free number for a section of their own. The section they come to and
    every one they leave must keep the hard rules; one left empty is dropped. mend: what would be cut off
    from the rest of a section that they leave goes along with them, the least change that keeps it whole.
    Raises as join does, and NoSuchTessera.
    """
    now = _checked(ground, label)
    for tessera in tesserae:
        if not 0 <= tessera < ground.count:
            raise NoSuchTessera(tessera, ground.count)
    if to != int(now.max(initial=-1)) + 1:
        _known(now, to)
    chosen = np.asarray(tesserae, np.int64)
    left = set(now[chosen].tolist()) - {to}
    now[chosen] = to
    for section in sorted(left) if mend else ():
        inner = ground.pair[(now[ground.pair] == section).all(axis=1)].reshape(-1, 2)
        for piece in _pieces(np.flatnonzero(now == section).tolist(), inner.tolist())[1:]:
            now[piece] = to
    if len(chosen):
        _refuse(ground, now, [to, *sorted(left)])
    return Division.of(now)


def split(ground: Ground, label: Labels, section: int, stroke_mm: ArrayLike) -> Division:
    """Return the division with a section parted along a stroke, a polyline (p, 2). [mm]

    A joint is cut where the stroke crosses the line between the two centroids. Each connected piece that is
    left becomes a section, so a winding stroke may make more than two; all are lighter than the whole.
    Raises StrokeDividesNothing where one piece is left, and for a stroke of fewer than two points.
    """
    now = _checked(ground, label)
    _known(now, section)
    stroke = np.clip(np.asarray(stroke_mm, float).reshape(-1, 2), -FARTHEST_MM, FARTHEST_MM)
    inner = ground.pair[(now[ground.pair] == section).all(axis=1)].reshape(-1, 2)
    kept = inner[~_crossed(ground.centroid_mm[inner[:, 0]], ground.centroid_mm[inner[:, 1]], stroke)]
    own = np.flatnonzero(now == section).tolist()
    pieces = _pieces(own, kept.tolist())
    if len(pieces) == len(_pieces(own, inner.tolist())):
        raise StrokeDividesNothing(section)
    fresh = int(now.max()) + 1
    for number, piece in enumerate(pieces[1:], fresh):
        now[piece] = number
    return Division.of(now)


def _checked(ground: Ground, label: Labels) -> NDArray[np.int64]:
    if len(label) != ground.count:
        raise LengthsDiffer("label", len(label), ground.count)
    return np.array(label, np.int64)


def _known(label: Labels, section: int) -> None:
    if not (label == section).any():
        raise NoSuchSection(section, int(label.max(initial=-1)) + 1)


def _refuse(ground: Ground, label: Labels, sections: Iterable[int]) -> None:
    """Raise the first hard rule that one of the sections named breaks; the others are not looked at."""
    for section in sections:
        own = np.flatnonzero(label == section)
        if len(own) < 2:
            continue
        kinds = np.unique(ground.adhesive[own]).tolist()
        if len(kinds) > 1:
            raise MixedAdhesives(section, tuple(kinds))
        inner = ground.pair[(label[ground.pair] == section).all(axis=1)].reshape(-1, 2)
        pieces = _pieces(own.tolist(), inner.tolist())
        if len(pieces) > 1:
            raise NotConnected(section, tuple(len(piece) for piece in pieces))
        total_s, capacity_s = math.fsum(ground.expected_s[own].tolist()), float(ground.cap_s[own].min())
        if total_s > capacity_s:
            raise OverCapacity(section, total_s, capacity_s, len(own))


def _pieces(own: list[int], joints: list[list[int]]) -> list[list[int]]:
    """List the connected pieces of some tesserae, the largest first."""
    facing: dict[int, list[int]] = {v: [] for v in own}
    for a, b in joints:
        facing[a].append(b)
        facing[b].append(a)
    seen: set[int] = set()
    pieces = []
    for start in own:
        if start in seen:
            continue
        seen.add(start)
        piece = [start]
        for v in piece:  # grows while it is walked
            fresh = [u for u in dict.fromkeys(facing[v]) if u not in seen]
            seen.update(fresh)
            piece += fresh
        pieces.append(piece)
    return sorted(pieces, key=len, reverse=True)


def _crossed(here: FloatArray, there: FloatArray, stroke: FloatArray) -> NDArray[np.bool_]:
    """Say which lines from here to there, (m, 2) each, a polyline crosses, (m,); on a line is one side."""
    crossed = np.zeros(len(here), bool)
    for start, end in pairwise(stroke):
        apart = _left(start, end, here) != _left(start, end, there)
        between = _left(here, there, start) != _left(here, there, end)
        crossed |= apart & between
    return crossed


def _left(start: FloatArray, end: FloatArray, point: FloatArray) -> NDArray[np.bool_]:
    along, off = end - start, point - start
    return np.asarray(along[..., 0] * off[..., 1] - along[..., 1] * off[..., 0] > 0)

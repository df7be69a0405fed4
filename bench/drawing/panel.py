"""A drawing as the rest of the house sees it: tesserae in mm, their joints, and what was left out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.speech import say

GLASS_KINDS = ("opaque", "clear", "iridised")

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class Joints:
    """Neighbouring tesserae and how long they face each other.

    pair: (m, 2) indices of tesserae, the smaller first, each pair once, sorted.
    length_mm: (m,) shared length. [mm]
    gap_mm: (m,) mean distance across the joint; 0 where outlines touch. [mm]
    """

    pair: IntArray
    length_mm: FloatArray
    gap_mm: FloatArray


@dataclass(frozen=True)
class LeftOut:
    """Shapes of the file that are no tesserae, e.g. ("open stroke", 12, "it has no fill, so no glass").

    what: its kind, the same in every language; `told` says it. why: as it is said to a person.
    """

    what: str
    count: int
    why: str

    @property
    def told(self) -> str:
        """Say its kind."""
        kinds = {
            "open stroke": say("open stroke"),
            "unfilled shape": say("unfilled shape"),
            "empty shape": say("empty shape"),
            "background": say("background"),
            "hidden shape": say("hidden shape"),
            "shape never drawn": say("shape never drawn"),
            "text": say("text"),
            "image": say("image"),
            "broken reference": say("broken reference"),
            "paper": say("paper"),
            "sliver": say("sliver"),
            "speck": say("speck"),
            "dark patch": say("dark patch"),
        }
        return kinds.get(self.what, self.what)


@dataclass(frozen=True, eq=False)
class Panel:
    """A panel of n tesserae. Origin top left, x right, y down, all lengths in millimetres.

    Outlines are stored flat: ring k is points_mm[ring_start[k]:ring_start[k + 1]] (the first point is
    not repeated); tessera i owns rings tessera_ring[i] to tessera_ring[i + 1], the outer one first, then
    its holes. A tessera of several separate outlines has several outer rings; the even-odd rule holds.
    """

    width_mm: float
    height_mm: float
    ids: tuple[str, ...]
    points_mm: FloatArray  # (p, 2)
    ring_start: IntArray  # (r + 1,)
    tessera_ring: IntArray  # (n + 1,)
    area_mm2: FloatArray  # (n,)
    centroid_mm: FloatArray  # (n, 2) area centroids
    colour: NDArray[np.uint8]  # (n, 3) sRGB
    glass: NDArray[np.uint8]  # (n,) index into GLASS_KINDS
    adhesive: tuple[str, ...]  # (n,) the drawing's data-adhesive, "" where it names none
    group: IntArray  # (n,) the drawing's innermost named group or layer, -1 where none
    group_names: tuple[str, ...]
    joints: Joints
    outline_area_mm2: float  # of the page, or of the outline that the drawing marks
    outline_mm: tuple[FloatArray, ...] = ()  # rings of the marked outline; empty: the page
    left_out: tuple[LeftOut, ...] = ()
    warnings: tuple[str, ...] = ()
    board: tuple[str, ...] = ()  # (n,) the drawing's data-board; empty: all on one board
    name: str = ""

    @property
    def tessera_count(self) -> int:
        return len(self.ids)

    @property
    def glass_area_mm2(self) -> float:
        return float(self.area_mm2.sum())

    @property
    def joint_area_mm2(self) -> float:
        """Area that is neither glass nor beyond the outline; 0 where glass overlaps it all. [mm²]"""
        return max(0.0, self.outline_area_mm2 - self.glass_area_mm2)

    def rings_mm(self, tessera: int) -> list[FloatArray]:
        """Return the outlines of one tessera, each (points, 2). [mm]"""
        first, last = self.tessera_ring[tessera], self.tessera_ring[tessera + 1]
        return [self.points_mm[self.ring_start[k] : self.ring_start[k + 1]] for k in range(first, last)]

"""The lines between the sections of a panel, read off its map, and kept beside the book.

A start shows what was shown last: it finds the lines there and needs no map, unless something is hatched.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from bench import __version__
from bench.book.readings import Readings
from bench.drawing.panel import Panel
from bench.screens.picture.outlines import outlines
from bench.screens.picture.raster import NOTHING, TesseraMap, tessera_map
from bench.sealed import arrays_of, sealed_arrays

FORMAT = 1  # raised whenever the same division of the same panel is drawn by other lines
NO_SECTION = -1

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]

_MAP = {"owner": np.int32, "length": np.int32, "shape": np.int32, "px_per_mm": np.float64}
_LINES = {
    "label": np.int32,
    "points_mm": np.float64,
    "end": np.int32,
    "left": np.int32,
    "right": np.int32,
    "closed": np.bool_,
}


@dataclass(frozen=True, eq=False)
class Border:
    """A line with a section on either side, as `outlines.Outline` has it, its points (x, y) in mm."""

    points_mm: FloatArray
    left: int
    right: int
    closed: bool


class Traced:
    """The map of one panel and the lines of its divisions, each found when it is first asked for.

    readings: where both are looked for before, and kept; without, nothing is. What is there is believed only
    under the name of this very panel, whole, and for this very division.
    """

    def __init__(self, panel: Panel, readings: Readings | None = None) -> None:
        self._panel, self._readings = panel, readings or Readings(None)

    @cached_property
    def map(self) -> TesseraMap:
        """The panel's map."""
        key = f"{self._name}.map"
        found = _map_of(self._readings.get(key))
        if found is None:
            found = tessera_map(self._panel)
            self._readings.put(key, _packed_map(found))
        return found

    def borders(self, label: IntArray, *, keep: bool = False) -> list[Border]:
        """Return the lines between unlike labels, (n,) of each tessera, below 0 where it has none.

        keep: have them at the next start; those of one division are kept for a panel.
        """
        key = f"{self._name}.lines"
        found = _borders_of(self._readings.get(key), label)
        if found is None:
            at = self.map.at
            traced = outlines(np.where(at == NOTHING, NO_SECTION, label[np.maximum(at, 0)]))
            found = [Border(self.map.to_mm(t.points), t.left, t.right, t.closed) for t in traced]
            if keep:
                self._readings.put(key, _packed_borders(found, label))
        return found

    @cached_property
    def _name(self) -> str:
        """The panel by all that its map hangs on: what lies where, and who draws it."""
        panel = self._panel
        told = hashlib.blake2b(digest_size=32)
        told.update(f"{__version__}|{FORMAT}|{panel.width_mm!r}|{panel.height_mm!r}".encode())
        for array in (panel.points_mm, panel.ring_start, panel.tessera_ring, panel.area_mm2):
            told.update(np.ascontiguousarray(array))
        return told.hexdigest()


def _packed_map(found: TesseraMap) -> bytes:
    """Return a map as runs of squares that belong to one tessera."""
    flat = found.at.ravel()
    start = np.flatnonzero(np.diff(flat, prepend=NOTHING - 1))
    return sealed_arrays(
        owner=flat[start],
        length=np.diff(start, append=len(flat)).astype(np.int32),
        shape=np.array(found.at.shape, np.int32),
        px_per_mm=np.array(found.px_per_mm),
    )


def _map_of(data: bytes | None) -> TesseraMap | None:
    kept = None if data is None else arrays_of(data, _MAP)
    if kept is None:
        return None
    at = np.repeat(kept["owner"], kept["length"]).reshape(kept["shape"])
    return TesseraMap(at, float(kept["px_per_mm"]))


def _packed_borders(found: list[Border], label: IntArray) -> bytes:
    return sealed_arrays(
        label=label,
        points_mm=np.concatenate([line.points_mm for line in found]) if found else np.empty((0, 2)),
        end=np.cumsum([len(line.points_mm) for line in found], dtype=np.int32),
        left=np.array([line.left for line in found], np.int32),
        right=np.array([line.right for line in found], np.int32),
        closed=np.array([line.closed for line in found], np.bool_),
    )


def _borders_of(data: bytes | None, label: IntArray) -> list[Border] | None:
    kept = None if data is None else arrays_of(data, _LINES)
    if kept is None or not np.array_equal(kept["label"], label):
        return None
    lines = np.split(kept["points_mm"], kept["end"][:-1]) if len(kept["end"]) else []
    sides = zip(kept["left"].tolist(), kept["right"].tolist(), kept["closed"].tolist(), strict=True)
    return [Border(points, *side) for points, side in zip(lines, sides, strict=True)]

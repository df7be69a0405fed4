"""All that lies over the glass once the panel is divided: outlines, hatching, and where the labels go."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.screens.picture.hatching import diagonals_mm
from bench.screens.picture.looks import LOOKS, NO_SIDE, Side, hues, side_of
from bench.screens.picture.strokes import Mesh, merged, ribbon, segments
from bench.screens.picture.traced import NO_SECTION, Border, Traced

_HATCH = Side(core_dp=0.0, band_dp=1.0, edge_dp=2.0)


@dataclass(frozen=True, eq=False)
class Section:
    """One section as the picture needs it: where its label stands and the box it fills. [mm]"""

    number: int
    stage: str
    anchor_mm: tuple[float, float]
    box_mm: tuple[float, float, float, float]


@dataclass(frozen=True, eq=False)
class Overlay:
    """What lies over the glass, the meshes in drawing order."""

    sections: tuple[Section, ...]
    lines: list[Mesh]


def overlay(
    panel: Panel,
    traced: Traced,
    number: NDArray[np.int32],
    stages: Mapping[int, str],
    next_number: int | None,
    *,
    keep: bool = False,
) -> Overlay:
    """Draw a division. number: (n,) section of each tessera, 0 or less where it has none.

    keep: the next start finds its lines.
    """
    numbers = np.flatnonzero(np.bincount(number[number > 0]))  # np.unique would load all of numpy.ma
    label = np.where(number > 0, np.searchsorted(numbers, number), NO_SECTION).astype(np.int32)
    stage = [stages.get(int(k), "drawn") for k in numbers]
    sections = tuple(
        _section(panel, int(numbers[k]), stage[k], np.flatnonzero(label == k)) for k in range(len(numbers))
    )
    borders = traced.borders(label, keep=keep)
    meshes = [*_hatch(traced, label, stage), *_lines(borders, sections, next_number)]
    return Overlay(sections, merged(meshes))


def _section(panel: Panel, number: int, stage: str, members: NDArray[np.int_]) -> Section:
    centre = np.average(panel.centroid_mm[members], axis=0, weights=np.maximum(panel.area_mm2[members], 1e-9))
    middle = members[np.hypot(*(panel.centroid_mm[members] - centre).T).argmin()]
    reach = np.sqrt(np.maximum(panel.area_mm2[members], 0.0))[:, None] / 2
    low = (panel.centroid_mm[members] - reach).min(axis=0)
    high = (panel.centroid_mm[members] + reach).max(axis=0)
    x, y = panel.centroid_mm[middle]
    return Section(number, stage, (float(x), float(y)), (*low.tolist(), *high.tolist()))


def _hatch(traced: Traced, label: NDArray[np.int32], stage: list[str]) -> list[Mesh]:
    meshes = []
    of_piece = np.array([*stage, ""])[label]  # -1, no section, reads the last
    for name, look in LOOKS.items():
        chosen = of_piece == name
        if not look.hatch_mm or not chosen.any():
            continue
        for falling in (False, True)[: 1 + look.crossed]:
            ends = diagonals_mm(traced.map, chosen, look.hatch_mm, falling=falling)
            parts = [ends[k : k + 5000] for k in range(0, len(ends), 5000)]
            meshes += [segments(part, _HATCH) for part in parts]
    return meshes


def _lines(borders: list[Border], sections: tuple[Section, ...], next_number: int | None) -> list[Mesh]:
    """Return the outlines, those of the next section last, so that they lie on top."""
    hue = hues([(b.left, b.right) for b in borders if min(b.left, b.right) >= 0], len(sections))
    is_next = [section.number == next_number for section in sections] + [False]  # read by NO_SECTION, -1
    side = [side_of(s.stage, hue[k], is_next[k]) for k, s in enumerate(sections)] + [NO_SIDE]
    in_order = sorted(borders, key=lambda border: is_next[border.left] or is_next[border.right])
    return [ribbon(b.points_mm, side[b.left], side[b.right], closed=b.closed) for b in in_order]

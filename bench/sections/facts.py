"""What the choice of the next section needs to know about each."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import Panel
from bench.sections.ground import FloatArray, free_edge_mm

_PACKED = np.array([65536, 256, 1])  # sRGB as one number: few colours are many tesserae's
STAGES = ("drawn", "dry", "wet", "soft", "firm", "hard")


@dataclass(frozen=True)
class SectionFacts:
    """Tell where a section stands and what lies around it."""

    number: int
    stage: str  # one of STAGES
    adhesive: str = ""
    expected_s: float = 0.0
    centroid_mm: tuple[float, float] = (0.0, 0.0)
    neighbours: Mapping[int, float] = field(default_factory=dict)  # number -> shared joint [mm]
    touches_outline: bool = False  # the outline of the panel
    open_sides: float = 0.0  # share of its own outline that faces nothing at all
    focal: float = 0.0  # how far its colours stand out from the panel's, 0 to 1
    adhesive_in_stock: bool = True
    minutes_needed: float = 0.0  # the whole glue-up
    radius_mm: float = 0.0  # of a disc of the same area
    firm_at: str = ""  # when a wet or soft section may be set against, as a person reads it


def facts_of(
    panel: Panel,
    number: NDArray[np.integer],
    expected_s: FloatArray,
    *,
    stage: Mapping[int, str],
    adhesive: Mapping[int, str] | None = None,
    in_stock: Collection[str] | None = None,
    minutes_needed: Mapping[int, float] | None = None,
    firm_at: Mapping[int, str] | None = None,
) -> list[SectionFacts]:
    """Return the facts of every section of a panel, by number.

    number: (n,) section of each tessera, below 1: none. A section missing from stage is drawn; without
    in_stock every adhesive is. An empty panel has no sections.
    """
    numbers, place = np.unique(number, return_inverse=True)
    place, k = place.reshape(-1), len(numbers)
    if not k:
        return []
    area = np.maximum(np.bincount(place, panel.area_mm2, k), 1e-9)
    centre = np.stack([np.bincount(place, panel.area_mm2 * x, k) / area for x in panel.centroid_mm.T], axis=1)
    free = np.bincount(place, free_edge_mm(panel), k)
    seconds, focal = np.bincount(place, expected_s, k), _standing_out(panel, place, area)
    beside = _beside(panel, place, k)
    facts = []
    for s, name in enumerate(numbers.tolist()):
        if name < 1:
            continue
        shared = {int(numbers[b]): mm for b, mm in beside[s].items() if numbers[b] >= 1}
        around = sum(beside[s].values()) + float(free[s])
        glue = (adhesive or {}).get(name, "")
        facts.append(
            SectionFacts(
                number=name,
                stage=stage.get(name, "drawn"),
                adhesive=glue,
                expected_s=float(seconds[s]),
                centroid_mm=(float(centre[s, 0]), float(centre[s, 1])),
                neighbours=shared,
                touches_outline=bool(free[s] > 0),
                open_sides=float(free[s] / around) if around > 0 else 1.0,
                focal=float(focal[s]),
                adhesive_in_stock=in_stock is None or glue in in_stock,
                minutes_needed=(minutes_needed or {}).get(name, 0.0),
                radius_mm=float((area[s] / np.pi) ** 0.5),
                firm_at=(firm_at or {}).get(name, ""),
            )
        )
    return facts


def _beside(panel: Panel, place: NDArray[np.intp], k: int) -> list[dict[int, float]]:
    beside: list[dict[int, float]] = [{} for _ in range(k)]
    if not len(panel.joints.pair):
        return beside
    a, b = place[panel.joints.pair[:, 0]], place[panel.joints.pair[:, 1]]
    apart = a != b
    ends, edge = np.unique(np.stack([a[apart], b[apart]], 1), axis=0, return_inverse=True)
    length = np.bincount(edge.reshape(-1), panel.joints.length_mm[apart], len(ends))
    for (s, other), mm in zip(ends.tolist(), length.tolist(), strict=True):
        beside[s][other] = beside[s].get(other, 0.0) + mm
        beside[other][s] = beside[other].get(s, 0.0) + mm
    return beside


def _standing_out(panel: Panel, place: NDArray[np.intp], area: FloatArray) -> FloatArray:
    """Distance in CIELAB of each section's mean colour from the panel's, over 100, at most 1."""
    from bench.drawing.colour import srgb_to_lab

    colours, which = np.unique(panel.colour @ _PACKED, return_inverse=True)
    lab = np.asarray(srgb_to_lab(colours[:, None] // _PACKED % 256), float)[which.reshape(-1)]
    mean = np.average(lab, axis=0, weights=np.maximum(panel.area_mm2, 1e-9))
    own = np.stack([np.bincount(place, panel.area_mm2 * x, len(area)) / area for x in lab.T], axis=1)
    return np.asarray(np.minimum(np.linalg.norm(own - mean, axis=1) / 100, 1.0), float)

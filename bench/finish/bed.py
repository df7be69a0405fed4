"""Where the bed shows through the glass, and which colour of adhesive it therefore needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import GLASS_KINDS, Panel
from bench.speech import say

_NEEDED = "white"


@dataclass(frozen=True)
class Bed:
    """Pieces of one kind in one place that need a bed of one colour.

    place: the drawing's group, or the part of the panel. adhesive: what the drawing names, "" for nothing;
    suits: whether that has the colour, None where it is not known.
    """

    kind: str
    place: str
    count: int
    area_mm2: float
    colour: str
    why: str
    adhesive: str
    suits: bool | None


def beds(panel: Panel, colour_of: Callable[[str], str | None]) -> tuple[Bed, ...]:
    """Return where clear or iridised glass lies, most pieces first; none where all is opaque.

    colour_of: the colour of an adhesive by its name, None for one that is not known.
    """
    place = _places(panel)
    found: dict[tuple[int, str, str], list[int]] = {}
    for k in np.flatnonzero(panel.glass).tolist():
        found.setdefault((int(panel.glass[k]), place[k], panel.adhesive[k]), []).append(k)
    out = []
    for (kind, where, adhesive), members in found.items():
        colour = colour_of(adhesive) if adhesive else None
        name = GLASS_KINDS[kind]
        area_mm2 = float(panel.area_mm2[members].sum())
        suits = None if colour is None else colour == _NEEDED
        out.append(Bed(name, where, len(members), area_mm2, _NEEDED, _why(name), adhesive, suits))
    return tuple(sorted(out, key=lambda bed: (bed.kind, -bed.count, bed.place, bed.adhesive)))


def _why(kind: str) -> str:
    """Say why glass of a kind, clear or iridised, needs the colour."""
    if kind == "clear":
        return say("a white bed, since it shows through clear glass")
    return say("a white bed where it is clear underneath: hold a piece to the light")


def _places(panel: Panel) -> list[str]:
    """Return for each tessera its group's name, or in which ninth of the panel it lies."""
    parts = _ninths()
    across = _third(panel.centroid_mm[:, 0], panel.width_mm)
    down = _third(panel.centroid_mm[:, 1], panel.height_mm)
    return [
        panel.group_names[group] if group >= 0 else parts[row][column]
        for group, row, column in zip(panel.group.tolist(), down.tolist(), across.tolist(), strict=True)
    ]


def _third(at_mm: NDArray[np.float64], whole_mm: float) -> NDArray[np.intp]:
    return np.clip(at_mm / whole_mm * 3, 0, 2).astype(np.intp)


def _ninths() -> tuple[tuple[str, str, str], ...]:
    """Name the ninths of a panel, row by row."""
    return (
        (say("top left"), say("top middle"), say("top right")),
        (say("middle left"), say("middle"), say("middle right")),
        (say("bottom left"), say("bottom middle"), say("bottom right")),
    )

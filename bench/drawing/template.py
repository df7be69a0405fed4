"""Templates at true size: a section, or the whole cartoon, on sheets of paper that are put side by side.

A sheet is told in millimetres and knows nothing of what it is written with. Crosses stand at every 50 mm of
the panel, so that sheets can be laid to one another and onto the backer; a bar of known length shows whether
the printer kept the size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import DrawingFault
from bench.drawing.panel import FloatArray, Panel

PAPERS_MM = {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
MARGIN_MM = 10.0  # no office printer reaches nearer to the edge: common practice, no source
HEAD_MM = 14.0  # for the title and the bar
OVERLAP_MM = 10.0
AROUND_MM = 8.0  # of its neighbours is shown beside a section, to lay it to them
CROSS_EVERY_MM = 50.0
BAR_MM = 100.0
MOST_SHEETS = 400
_PALE = 0.3  # of the glass colour on white: pencil still shows on it


class PaperTooSmall(DrawingFault):
    def __init__(self, name: str, paper: str) -> None:
        super().__init__(
            name, f"paper of {paper} leaves no room within its margins", todo="choose larger paper"
        )
        self.paper = paper


class TooManySheets(DrawingFault):
    def __init__(self, name: str, count: int) -> None:
        super().__init__(
            name,
            f"that would be {count:,} sheets; at most {MOST_SHEETS} are written",
            todo="choose larger paper, or single sections",
        )
        self.count = count


@dataclass(frozen=True, eq=False)
class Piece:
    """One tessera on a sheet: its outlines in mm of the sheet, its pale tint, if it is of the section."""

    rings_mm: tuple[FloatArray, ...]
    tint: tuple[int, int, int]
    own: bool


@dataclass(frozen=True, eq=False)
class Sheet:
    """One page, everything in mm from its top left corner, y down.

    window_mm: left, top, width, height of what is drawn in; pieces may reach beyond and are cut off there.
    crosses: where they stand on the sheet and the place of the panel that they mark. bar_mm: its two ends.
    """

    paper_mm: tuple[float, float]
    window_mm: tuple[float, float, float, float]
    title: str
    pieces: tuple[Piece, ...]
    crosses: tuple[tuple[float, float, str], ...]
    bar_mm: tuple[tuple[float, float], tuple[float, float]]


def sheets_of(
    panel: Panel,
    tesserae: NDArray[np.integer] | Sequence[int],
    title: str,
    *,
    paper_mm: tuple[float, float] = PAPERS_MM["A4"],
    mirrored: bool = False,
) -> tuple[Sheet, ...]:
    """Return the sheets on which the given tesserae stand at true size, row by row.

    The paper lies upright or across, whichever takes fewer sheets. mirrored: as seen from the back, for
    pieces laid face down. Neighbouring sheets share 10 mm. Raises PaperTooSmall or TooManySheets.
    """
    own = np.zeros(panel.tessera_count, bool)
    own[np.asarray(tesserae, int)] = True
    low, high = _spans(panel)
    page = np.array([panel.width_mm, panel.height_mm])
    first = np.maximum(low[own].min(axis=0) - AROUND_MM, np.minimum(low.min(axis=0), 0.0))
    last = np.minimum(high[own].max(axis=0) + AROUND_MM, np.maximum(high.max(axis=0), page))
    fit = [lying for lying in (paper_mm, paper_mm[::-1]) if (_room(lying) > 2 * OVERLAP_MM).all()]
    if not fit:
        raise PaperTooSmall(panel.name, f"{paper_mm[0]:g} × {paper_mm[1]:g} mm")
    lie = min(fit, key=lambda lying: math.prod(_tiles(last - first, _room(lying))))
    room = _room(lie)
    across, down = _tiles(last - first, room)
    if across * down > MOST_SHEETS:
        raise TooManySheets(panel.name, across * down)
    out = []
    for row in range(down):
        for column in range(across):
            corner = first + np.array([column, row]) * (room - OVERLAP_MM)
            place = row * across + (across - 1 - column if mirrored else column) + 1
            more = f", sheet {place} of {across * down}" if across * down > 1 else ""
            out.append(
                (place, _sheet(panel, own, (low, high), corner, last, lie, f"{title}{more}", mirrored))
            )
    return tuple(sheet for _, sheet in sorted(out, key=lambda pair: pair[0]))


def _room(paper_mm: tuple[float, float]) -> FloatArray:
    return np.array(paper_mm) - 2 * MARGIN_MM - (0.0, HEAD_MM)


def _tiles(size_mm: FloatArray, room: FloatArray) -> tuple[int, int]:
    """Return how many sheets stand side by side and below one another."""
    more = np.maximum(np.ceil((size_mm - room) / (room - OVERLAP_MM)), 0) + 1
    return int(more[0]), int(more[1])


def _spans(panel: Panel) -> tuple[FloatArray, FloatArray]:
    """Return the least and greatest coordinates of each tessera, (n, 2) each."""
    first = panel.ring_start[panel.tessera_ring[:-1]]
    return (
        np.minimum.reduceat(panel.points_mm, first, axis=0),
        np.maximum.reduceat(panel.points_mm, first, axis=0),
    )


def _sheet(
    panel: Panel,
    own: NDArray[np.bool_],
    spans: tuple[FloatArray, FloatArray],
    corner: FloatArray,
    last: FloatArray,
    paper_mm: tuple[float, float],
    title: str,
    mirrored: bool,
) -> Sheet:
    size = np.minimum(_room(paper_mm), last - corner)
    left, top = MARGIN_MM, MARGIN_MM + HEAD_MM

    def on_sheet(points: FloatArray) -> FloatArray:
        moved = points - corner
        if mirrored:
            moved = np.stack([size[0] - moved[:, 0], moved[:, 1]], axis=1)
        return np.asarray(moved + np.array([left, top]))

    shown = ((spans[1] >= corner) & (spans[0] <= corner + size)).all(axis=1)
    white = np.full(3, 255.0)
    pieces = tuple(
        Piece(
            tuple(on_sheet(ring) for ring in panel.rings_mm(k)),
            _byte(white + _PALE * (panel.colour[k] - white)),
            bool(own[k]),
        )
        for k in np.flatnonzero(shown).tolist()
    )
    marks = [
        np.arange(math.ceil(a / CROSS_EVERY_MM), math.floor(b / CROSS_EVERY_MM) + 1) * CROSS_EVERY_MM
        for a, b in zip(corner, corner + size, strict=True)
    ]
    crosses = tuple(
        (*on_sheet(np.array([[x, y]]))[0].tolist(), f"{x:g}, {y:g}")
        for y in marks[1].tolist()
        for x in marks[0].tolist()
    )
    bar = min(BAR_MM, paper_mm[0] - 2 * MARGIN_MM)
    ends = ((MARGIN_MM, MARGIN_MM + HEAD_MM - 4.0), (MARGIN_MM + bar, MARGIN_MM + HEAD_MM - 4.0))
    return Sheet(paper_mm, (left, top, float(size[0]), float(size[1])), title, pieces, crosses, ends)


def _byte(colour: FloatArray) -> tuple[int, int, int]:
    r, g, b = np.rint(colour).astype(int).tolist()
    return r, g, b

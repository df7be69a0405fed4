"""Templates at true size: a section, or the whole cartoon, on sheets of paper that are put side by side.

A sheet is told in millimetres and knows nothing of what it is written with. Crosses stand at every 50 mm of
the panel, and broken lines where the next sheet ends, so that sheets can be laid to one another and onto the
backer; a bar of known length shows whether the printer kept the size. Where the edge of what is already set
is known, it stands on the sheet as it is, and not as it was drawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import DrawingFault
from bench.drawing.panel import FloatArray, Panel
from bench.speech import plain_size, say

PAPERS_MM = {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
MARGIN_MM = 10.0  # no office printer reaches nearer to the edge: common practice, no source
HEAD_MM = 14.0  # for the title and the bar
LINE_MM = 3.4  # of the legend
OVERLAP_MM = 10.0
AROUND_MM = 8.0  # of its neighbours is shown beside a section, to lay it to them
CROSS_EVERY_MM = 50.0
BAR_MM = 100.0
MOST_SHEETS = 400
_WAYS = ((1, 0), (-1, 0), (0, 1), (0, -1))
_PALE = 0.3  # of the glass colour on white: pencil still shows on it


_Beside = dict[tuple[int, int], int | None]
_Ends = tuple[tuple[float, float], tuple[float, float]]


class PaperTooSmall(DrawingFault):
    def __init__(self, name: str, paper: str) -> None:
        super().__init__(
            name,
            say("paper of {paper} leaves no room within its margins", paper=paper),
            todo=say("choose larger paper"),
        )
        self.paper = paper


class TooManySheets(DrawingFault):
    def __init__(self, name: str, count: int) -> None:
        super().__init__(
            name,
            say("that would be {count:,} sheets; at most {most} are written", count=count, most=MOST_SHEETS),
            todo=say("choose larger paper, or single sections"),
        )
        self.count = count


@dataclass(frozen=True, eq=False)
class Piece:
    """One tessera on a sheet: its outlines in mm of the sheet, its pale tint, whether it is of the section.

    mark: what is written on it, "" for nothing, its middle at spot_mm; room_mm: how wide that may be.
    """

    rings_mm: tuple[FloatArray, ...]
    tint: tuple[int, int, int]
    own: bool
    mark: str = ""
    spot_mm: tuple[float, float] = (0.0, 0.0)
    room_mm: float = math.inf


@dataclass(frozen=True)
class Overlap:
    """A line on a sheet along which the drawing of another one ends, from one end to the other. [mm]"""

    ends_mm: tuple[tuple[float, float], tuple[float, float]]
    sheet: int


@dataclass(frozen=True, eq=False)
class Sheet:
    """One page, everything in mm from its top left corner, y down.

    window_mm: left, top, width, height of what is drawn in; pieces may reach beyond and are cut off there.
    crosses: where they stand on the sheet and the place of the panel that they mark. bar_mm: its two ends.
    overlaps: where the next sheet's drawing ends, and which sheet that is. edges_mm: lines along what is
    already set, each (points, 2). legend: lines under the title.
    """

    paper_mm: tuple[float, float]
    window_mm: tuple[float, float, float, float]
    title: str
    pieces: tuple[Piece, ...]
    crosses: tuple[tuple[float, float, str], ...]
    bar_mm: tuple[tuple[float, float], tuple[float, float]]
    overlaps: tuple[Overlap, ...] = ()
    edges_mm: tuple[FloatArray, ...] = ()
    legend: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Told:
    """What a template says beside its lines: a title, a legend, and what is written on each tessera.

    marks: (n,) of the whole panel, "" for nothing; None for none at all.
    """

    title: str
    legend: tuple[str, ...] = ()
    marks: Sequence[str] | None = None

    @property
    def head_mm(self) -> float:
        return HEAD_MM + LINE_MM * len(self.legend)


def sheets_of(
    panel: Panel,
    tesserae: NDArray[np.integer] | Sequence[int],
    told: Told,
    *,
    paper_mm: tuple[float, float] = PAPERS_MM["A4"],
    mirrored: bool = False,
    edges_mm: Sequence[FloatArray] = (),
) -> tuple[Sheet, ...]:
    """Return the sheets on which the given tesserae stand at true size, row by row.

    The paper lies upright or across, whichever takes fewer sheets. mirrored: as seen from the back, for
    pieces laid face down. Neighbouring sheets share 10 mm. edges_mm: lines on the panel along what is already
    set, each (points, 2). Raises PaperTooSmall or TooManySheets.
    """
    own = np.zeros(panel.tessera_count, bool)
    own[np.asarray(tesserae, int)] = True
    low, high = _spans(panel)
    page = np.array([panel.width_mm, panel.height_mm])
    first = np.maximum(low[own].min(axis=0) - AROUND_MM, np.minimum(low.min(axis=0), 0.0))
    last = np.minimum(high[own].max(axis=0) + AROUND_MM, np.maximum(high.max(axis=0), page))
    fit = [lie for lie in (paper_mm, paper_mm[::-1]) if (_room(lie, told) > 2 * OVERLAP_MM).all()]
    if not fit:
        raise PaperTooSmall(panel.name, plain_size(*paper_mm))
    lie = min(fit, key=lambda lying: math.prod(_tiles(last - first, _room(lying, told))))
    room = _room(lie, told)
    across, down = _tiles(last - first, room)
    if across * down > MOST_SHEETS:
        raise TooManySheets(panel.name, across * down)
    page_of = _Pages(panel, own, low, high, told, lie, mirrored, tuple(edges_mm))
    columns = range(across)[::-1] if mirrored else range(across)
    turn_of = {(c, r): turn for turn, (r, c) in enumerate(((r, c) for r in range(down) for c in columns), 1)}
    sheets = []
    for (c, r), turn in turn_of.items():
        corner = first + np.array([c, r]) * (room - OVERLAP_MM)
        beside = {way: turn_of.get((c + way[0], r + way[1])) for way in _WAYS}
        size = np.minimum(room, last - corner)
        sheets.append(page_of.sheet(corner, size, turn, len(turn_of), beside))
    return tuple(sheets)


def _room(paper_mm: tuple[float, float], told: Told) -> FloatArray:
    return np.array(paper_mm) - 2 * MARGIN_MM - (0.0, told.head_mm)


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


@dataclass(frozen=True, eq=False)
class _Pages:
    """What all sheets of a template have in common."""

    panel: Panel
    own: NDArray[np.bool_]
    low: FloatArray
    high: FloatArray
    told: Told
    paper_mm: tuple[float, float]
    mirrored: bool
    edges_mm: tuple[FloatArray, ...]

    def sheet(self, corner: FloatArray, size: FloatArray, turn: int, of: int, beside: _Beside) -> Sheet:
        """Return the sheet that shows a stretch of the panel from `corner` on; beside: its neighbours."""
        top = MARGIN_MM + self.told.head_mm
        shown = ((self.high >= corner) & (self.low <= corner + size)).all(axis=1)
        bar = min(BAR_MM, self.paper_mm[0] - 2 * MARGIN_MM)
        marks = [
            np.arange(math.ceil(a / CROSS_EVERY_MM), math.floor(b / CROSS_EVERY_MM) + 1) * CROSS_EVERY_MM
            for a, b in zip(corner, corner + size, strict=True)
        ]
        places = [(x, y) for y in marks[1].tolist() for x in marks[0].tolist()]
        return Sheet(
            paper_mm=self.paper_mm,
            window_mm=(MARGIN_MM, top, float(size[0]), float(size[1])),
            title=self._title(turn, of),
            pieces=tuple(self._piece(k, corner, size) for k in np.flatnonzero(shown).tolist()),
            crosses=tuple((*self._spot((x, y), corner, size), f"{x:g}, {y:g}") for x, y in places),
            bar_mm=((MARGIN_MM, top - 4.0), (MARGIN_MM + bar, top - 4.0)),
            overlaps=tuple(
                Overlap(self._overlap(way, corner, size), other) for way, other in beside.items() if other
            ),
            edges_mm=tuple(self._on_sheet(line, corner, size) for line in self.edges_mm),
            legend=self.told.legend,
        )

    def _overlap(self, way: tuple[int, int], corner: FloatArray, size: FloatArray) -> _Ends:
        """Return the line on which the sheet next to this one ends. [mm]"""
        low, high = corner, corner + size
        if way[0]:
            x = high[0] - OVERLAP_MM if way[0] > 0 else low[0] + OVERLAP_MM
            ends = (x, low[1]), (x, high[1])
        else:
            y = high[1] - OVERLAP_MM if way[1] > 0 else low[1] + OVERLAP_MM
            ends = (low[0], y), (high[0], y)
        return self._spot(ends[0], corner, size), self._spot(ends[1], corner, size)

    def _title(self, turn: int, of: int) -> str:
        title = self.told.title
        return say("{title}, sheet {turn} of {of}", title=title, turn=turn, of=of) if of > 1 else title

    def _piece(self, tessera: int, corner: FloatArray, size: FloatArray) -> Piece:
        own = bool(self.own[tessera])
        white = np.full(3, 255.0)
        r, g, b = np.rint(white + _PALE * (self.panel.colour[tessera] - white)).astype(int).tolist()
        middle = self.panel.centroid_mm[tessera].tolist()
        return Piece(
            tuple(self._on_sheet(ring, corner, size) for ring in self.panel.rings_mm(tessera)),
            (r, g, b),
            own,
            self.told.marks[tessera] if own and self.told.marks is not None else "",
            self._spot((middle[0], middle[1]), corner, size),
            0.85 * math.sqrt(float(self.panel.area_mm2[tessera])),
        )

    def _spot(self, at: tuple[float, float], corner: FloatArray, size: FloatArray) -> tuple[float, float]:
        x, y = self._on_sheet(np.array([at]), corner, size)[0].tolist()
        return x, y

    def _on_sheet(self, points: FloatArray, corner: FloatArray, size: FloatArray) -> FloatArray:
        moved = points - corner
        if self.mirrored:
            moved = np.stack([size[0] - moved[:, 0], moved[:, 1]], axis=1)
        return np.asarray(moved + np.array([MARGIN_MM, MARGIN_MM + self.told.head_mm]))

"""A picture of a line drawing in which every tessera is drawn → a panel, and what there is to check."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from bench.drawing.built import MOST_TESSERAE, Pieces, panel_of
from bench.drawing.flatten import Counts, Rings
from bench.drawing.lines.colours import NEUTRAL, colours_of, is_coloured
from bench.drawing.lines.faults import BlankPage, NoClosedRegion, ReadingStopped, SizeNeeded, TooManyRegions
from bench.drawing.lines.gaps import Breaks, breaks_of, drawn, finely_closed
from bench.drawing.lines.how import LineHow, Stroke
from bench.drawing.lines.ink import ink_of, line_px
from bench.drawing.lines.leaks import necks
from bench.drawing.lines.regions import Regions, regions_of
from bench.drawing.lines.report import Gap, Leak, LinesReport
from bench.drawing.numbers import IDENTITY, PX_PER_MM
from bench.drawing.page import Page, panel_size_mm
from bench.drawing.panel import FloatArray, LeftOut, Panel
from bench.drawing.photo.read import Picture
from bench.drawing.rings import holds, moments
from bench.drawing.trace import traced

WATCHED_MM = 3.0  # beyond gap_mm: a break this much wider is reported
_NECK_MM = 1.5  # beyond gap_mm: a neck this much wider is reported
_LEAST_TOLERANCE_MM = 0.05

Progress = Callable[[float], bool]


@dataclass(frozen=True)
class _Scale:
    """Millimetres of a pixel, across and down."""

    x_mm: float
    y_mm: float

    @property
    def mm(self) -> float:
        return math.sqrt(self.x_mm * self.y_mm)

    def to_mm(self, points_px: FloatArray) -> FloatArray:
        scaled: FloatArray = points_px * (self.x_mm, self.y_mm)
        return scaled


def panel_of_lines(
    picture: Picture,
    *,
    width_mm: float | None = None,
    height_mm: float | None = None,
    how: LineHow | None = None,
    strokes: Sequence[Stroke] = (),
    colours: Picture | None = None,
    progress: Progress | None = None,
) -> tuple[Panel, LinesReport]:
    """Return the panel whose tesserae the lines of the picture enclose, and what there is to check.

    width_mm, height_mm: true size of the picture; one given keeps the proportion, none is the scanner's.
    strokes: lines drawn by the maker in addition. colours: a picture of the same proportions to take each
    piece's colour from; None: the drawing's own fills, or one neutral grey where it is not coloured.
    progress: told the share that is done, 0 to 1; what returns False stops the reading.
    Raises SizeNeeded, SizeOutOfRange, BlankPage, NoClosedRegion, TooManyRegions or ReadingStopped.
    """
    how = how or LineHow()
    size_mm = _size_mm(picture, width_mm, height_mm)
    rows, columns = picture.pixels.shape[:2]
    scale = _Scale(size_mm[0] / columns, size_mm[1] / rows)
    tell = _teller(picture.name, progress)
    tell(0.0)
    ink = ink_of(picture.pixels, scale.mm)
    if ink is None and not strokes:
        raise BlankPage(picture.name)
    dark = np.zeros((rows, columns), bool) if ink is None else ink.dark
    dark = drawn(dark, [_stroke_px(stroke, scale) for stroke in strokes])
    wide_px = line_px(dark) if ink is None else ink.line_px
    tell(0.25)
    dark = finely_closed(dark, wide_px)
    breaks = breaks_of(dark, wide_px, (how.gap_mm + WATCHED_MM) / scale.mm)
    closing = breaks.take(breaks.width_px * scale.mm <= how.gap_mm)
    closed = zip(closing.from_px, closing.to_px, strict=True)
    dark = drawn(dark, [(np.stack(ends), wide_px) for ends in closed])
    tell(0.4)
    regions = regions_of(dark, how.least_mm2 / scale.mm**2)
    _check_count(picture.name, regions, how)
    tell(0.5)
    rings, owner, outline_mm = _outlines(regions, _tolerance_px(how, wide_px, scale.mm), scale)
    tell(0.75)
    seen = colours_of(regions.labels, regions.count, (colours or picture).pixels)
    coloured = colours is not None or is_coloured(seen)
    if not coloured:
        seen[:] = NEUTRAL
    leaks = _leaks(breaks.take(breaks.width_px * scale.mm > how.gap_mm), regions, how, scale)
    panel = panel_of(
        Pieces(rings, owner, seen),
        size_mm,
        picture.name,
        outline_mm=outline_mm,
        left_out=_left_out(regions, how),
        warnings=_warnings(regions, leaks),
    )
    tell(1.0)
    gaps = tuple(
        Gap(*map(float, (*one, *other, width)))
        for one, other, width in zip(
            scale.to_mm(closing.from_px), scale.to_mm(closing.to_px), closing.width_px * scale.mm, strict=True
        )
    )
    area = panel.area_mm2
    return panel, LinesReport(
        count=panel.tessera_count,
        smallest_mm2=float(area.min()),
        median_mm2=float(np.median(area)),
        largest_mm2=float(area.max()),
        line_mm=wide_px * scale.mm,
        specks=regions.specks,
        gaps=gaps,
        leaks=leaks,
        coloured=coloured,
    )


def _teller(name: str, progress: Progress | None) -> Callable[[float], None]:
    def tell(done: float) -> None:
        if progress is not None and not progress(done):
            raise ReadingStopped(name)

    return tell


def _size_mm(picture: Picture, width_mm: float | None, height_mm: float | None) -> tuple[float, float]:
    if picture.mm_per_px is None and width_mm is None and height_mm is None:
        raise SizeNeeded(picture.name)
    rows, columns = picture.pixels.shape[:2]
    px = (picture.mm_per_px or 1.0) * PX_PER_MM
    page = Page(columns * px, rows * px, IDENTITY, (columns * px, rows * px))
    return panel_size_mm(page, picture.name, width_mm, height_mm)


def _stroke_px(stroke: Stroke, scale: _Scale) -> tuple[FloatArray, float]:
    return np.array(stroke.points_mm, float) / (scale.x_mm, scale.y_mm), stroke.width_mm / scale.mm


def _tolerance_px(how: LineHow, wide_px: float, mm_per_px: float) -> float:
    if how.tolerance_mm is not None:
        return how.tolerance_mm / mm_per_px
    return min(max(1.0, _LEAST_TOLERANCE_MM / mm_per_px), max(0.5, wide_px / 3))


def _check_count(name: str, regions: Regions, how: LineHow) -> None:
    if not regions.count:
        raise NoClosedRegion(name, how.gap_mm, regions.specks, how.least_mm2)
    if regions.count > MOST_TESSERAE:
        raise TooManyRegions(name, regions.count, MOST_TESSERAE)


def _outlines(
    regions: Regions, tolerance_px: float, scale: _Scale
) -> tuple[Rings, Counts, tuple[FloatArray, ...]]:
    """Return the outlines of the pieces and their owners, and of the whole where paper goes around it.

    A hole in which no piece lies is a stroke or a speck within a piece, and is filled.
    """
    rings, owner = traced(regions.labels, mm_per_px=1.0, tolerance_mm=tolerance_px)
    area, _ = moments(rings)
    first = rings.points_mm[rings.start[np.searchsorted(owner, np.arange(regions.count))]]
    smallest = float(regions.area_px.min())
    keep = area > 0
    for k in np.flatnonzero(area <= -smallest / 2).tolist():
        keep[k] = holds(rings.points_mm[rings.start[k] : rings.start[k + 1]], first).any()
    paper = owner == regions.count
    outline = np.flatnonzero(paper & keep & (area < 0) & regions.around)
    outline_mm = tuple(scale.to_mm(rings.points_mm[rings.start[k] : rings.start[k + 1]]) for k in outline)
    pieces = np.flatnonzero(keep & ~paper)
    kept = rings.take(pieces)
    return Rings(scale.to_mm(kept.points_mm), kept.start), owner[pieces], outline_mm


def _leaks(open_ends: Breaks, regions: Regions, how: LineHow, scale: _Scale) -> tuple[Leak, ...]:
    """Return where lines end short of others, then the necks that no such end explains."""
    place, wide = necks(regions, (how.gap_mm + _NECK_MM) / scale.mm)
    at = scale.to_mm((open_ends.from_px + open_ends.to_px) / 2)
    width_mm = open_ends.width_px * scale.mm
    found = [
        Leak(x, y, w, f"a line ends here, {w:.1f} mm short of the next")
        for (x, y), w in zip(at.tolist(), width_mm.tolist(), strict=True)
    ]
    for (x, y), w in zip(scale.to_mm(place).tolist(), (wide * scale.mm).tolist(), strict=True):
        if not (np.hypot(*(at - (x, y)).T) < how.gap_mm + WATCHED_MM).any():
            found.append(Leak(x, y, w, f"a large region goes on through a neck of {w:.1f} mm here"))
    return tuple(found)


def _left_out(regions: Regions, how: LineHow) -> tuple[LeftOut, ...]:
    specks = LeftOut("speck", regions.specks, f"it is smaller than {how.least_mm2:g} mm²")
    return (*regions.left_out, *([specks] if specks.count else []))


def _warnings(regions: Regions, leaks: tuple[Leak, ...]) -> tuple[str, ...]:
    said = []
    if n := regions.at_edge:
        said.append(f"{n} {'piece is' if n == 1 else 'pieces are'} bounded by the edge of the picture itself")
    if leaks:
        places = ", ".join(f"{one.x_mm:.0f}/{one.y_mm:.0f}" for one in leaks[:5])
        more = f" and {len(leaks) - 5} more" if len(leaks) > 5 else ""
        said.append(f"lines may be open at (mm from the left/from the top) {places}{more}")
    return tuple(said)

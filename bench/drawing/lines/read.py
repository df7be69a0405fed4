"""A picture of a line drawing in which every tessera is drawn → a panel, and what there is to check."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.built import MOST_TESSERAE, Pieces, panel_of
from bench.drawing.from_picture import picture_size_mm
from bench.drawing.lines.colours import NEUTRAL, colours_of, is_coloured
from bench.drawing.lines.faults import BlankPage, NoClosedRegion, ReadingStopped, TooManyRegions
from bench.drawing.lines.gaps import Breaks, breaks_of, drawn, finely_closed
from bench.drawing.lines.how import LineHow, Stroke
from bench.drawing.lines.ink import Bools, ink_of, line_px, patches_in
from bench.drawing.lines.leaks import necks
from bench.drawing.lines.outlined import Scale, outlines_of, tolerance_px
from bench.drawing.lines.regions import Regions, regions_of
from bench.drawing.lines.report import Gap, Leak, LinesReport
from bench.drawing.panel import FloatArray, LeftOut, Panel
from bench.drawing.photo.read import Picture
from bench.drawing.rings import Counts
from bench.speech import length, say, say_n

WATCHED_MM = 3.0  # beyond gap_mm: a break this much wider is reported
_NECK_MM = 2.0  # beyond gap_mm: a neck this much wider is reported
_READING_PX = 1.0  # how much too wide a gap may have been measured

Progress = Callable[[float], bool]


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
    size_mm = picture_size_mm(picture, width_mm, height_mm)
    scale = Scale(size_mm[0] / picture.pixels.shape[1], size_mm[1] / picture.pixels.shape[0])
    tell = _teller(picture.name, progress)
    tell(0.0)
    dark, wide_px, patches = _lines(picture, strokes, scale)
    tell(0.25)
    dark, closed, still_open = _mended(dark, wide_px, how, scale)
    tell(0.4)
    regions = regions_of(dark, how.least_mm2 / scale.mm**2)
    _check_count(picture.name, regions, how)
    tell(0.5)
    rings, owner, outline_mm = outlines_of(regions, tolerance_px(how, wide_px, scale.mm), scale)
    tell(0.75)
    colour, coloured = _colours(regions, rings.points_mm[rings.start[:-1]], owner, picture, colours)
    leaks = _leaks(still_open, regions, how, scale)
    panel = panel_of(
        Pieces(rings, owner, colour),
        size_mm,
        picture.name,
        outline_mm=outline_mm,
        left_out=_left_out(regions, patches, how),
        warnings=_warnings(regions, leaks),
    )
    tell(1.0)
    return panel, _report(panel, regions, wide_px * scale.mm, _gaps(closed, scale), leaks, coloured)


def _lines(picture: Picture, strokes: Sequence[Stroke], scale: Scale) -> tuple[Bools, float, int]:
    """Return the lines of picture and hand, how wide they are in px, and how many dark patches there are."""
    ink = ink_of(picture.pixels, scale.mm)
    if ink is None and not strokes:
        raise BlankPage(picture.name)
    dark = np.zeros(picture.pixels.shape[:2], bool) if ink is None else ink.dark
    more = [
        (np.array(one.points_mm, float) / (scale.x_mm, scale.y_mm), one.width_mm / scale.mm)
        for one in strokes
    ]
    dark = drawn(dark, more)
    if ink is None:
        return dark, line_px(dark), 0
    return dark, ink.line_px, patches_in(ink)


def _mended(dark: Bools, wide_px: float, how: LineHow, scale: Scale) -> tuple[Bools, Breaks, Breaks]:
    """Return the lines with their gaps closed, the breaks that were, and those that are too wide."""
    gap_px = how.gap_mm / scale.mm
    dark = finely_closed(dark, wide_px, gap_px)
    breaks = breaks_of(dark, wide_px, gap_px, (how.gap_mm + WATCHED_MM) / scale.mm)
    near = (breaks.width_px <= gap_px + _READING_PX) & (how.gap_mm > 0)
    closed = breaks.take(near)
    strokes = zip(closed.from_px, closed.to_px, strict=True)
    return drawn(dark, [(np.stack(ends), wide_px) for ends in strokes]), closed, breaks.take(~near)


def _colours(
    regions: Regions, start_mm: FloatArray, owner: Counts, picture: Picture, colours: Picture | None
) -> tuple[NDArray[np.uint8], bool]:
    """Return the colour of each piece, and whether there was any to see."""
    found = colours_of(regions.labels, regions.count, (colours or picture).pixels)
    coloured = colours is not None or is_coloured(
        found, start_mm[np.searchsorted(owner, np.arange(regions.count))]
    )
    if not coloured:
        found[:] = NEUTRAL
    return found, coloured


def _gaps(closed: Breaks, scale: Scale) -> tuple[Gap, ...]:
    ends = np.hstack([scale.to_mm(closed.from_px), scale.to_mm(closed.to_px)])
    return tuple(Gap(*row) for row in np.column_stack([ends, closed.width_px * scale.mm]).tolist())


def _report(
    panel: Panel,
    regions: Regions,
    line_mm: float,
    gaps: tuple[Gap, ...],
    leaks: tuple[Leak, ...],
    coloured: bool,
) -> LinesReport:
    return LinesReport(
        count=panel.tessera_count,
        smallest_mm2=float(panel.area_mm2.min()),
        median_mm2=float(np.median(panel.area_mm2)),
        largest_mm2=float(panel.area_mm2.max()),
        line_mm=line_mm,
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


def _check_count(name: str, regions: Regions, how: LineHow) -> None:
    if not regions.count:
        raise NoClosedRegion(name, how.gap_mm, regions.specks, how.least_mm2)
    if regions.count > MOST_TESSERAE:
        raise TooManyRegions(name, regions.count, MOST_TESSERAE)


def _leaks(open_ends: Breaks, regions: Regions, how: LineHow, scale: Scale) -> tuple[Leak, ...]:
    """Return where lines end short of others, then the necks that no such end explains."""
    place, wide = necks(regions, (how.gap_mm + _NECK_MM) / scale.mm)
    at = scale.to_mm((open_ends.from_px + open_ends.to_px) / 2)
    width_mm = open_ends.width_px * scale.mm
    found = [
        Leak(x, y, w, say("a line ends here, {gap} short of the next", gap=length(w, 1)))
        for (x, y), w in zip(at.tolist(), width_mm.tolist(), strict=True)
    ]
    for (x, y), w in zip(scale.to_mm(place).tolist(), (wide * scale.mm).tolist(), strict=True):
        if not (np.hypot(*(at - (x, y)).T) < how.gap_mm + WATCHED_MM).any():
            why = say("a large region goes on through a neck of {width} here", width=length(w, 1))
            found.append(Leak(x, y, w, why))
    return tuple(found)


def _left_out(regions: Regions, patches: int, how: LineHow) -> tuple[LeftOut, ...]:
    more = (
        LeftOut("speck", regions.specks, say("it is smaller than {least:g} mm²", least=how.least_mm2)),
        LeftOut("dark patch", patches, say("it is as dark as the lines, so it was taken for one")),
    )
    return (*regions.left_out, *(one for one in more if one.count))


def _warnings(regions: Regions, leaks: tuple[Leak, ...]) -> tuple[str, ...]:
    said = []
    if n := regions.at_edge:
        said.append(
            say_n(
                "{count} piece is bounded by the edge of the picture itself",
                "{count} pieces are bounded by the edge of the picture itself",
                n,
            )
        )
    if leaks:
        places = ", ".join(f"{one.x_mm:.0f}/{one.y_mm:.0f}" for one in leaks[:5])
        if len(leaks) > 5:
            places = say("{names} and {count} more", names=places, count=len(leaks) - 5)
        said.append(say("lines may be open at (mm from the left/from the top) {places}", places=places))
    return tuple(said)

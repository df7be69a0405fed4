"""Lay a graph out on a sheet: lines, marks and words at their places, y upwards from the lower left.

Screen and picture draw from the same layout, so that they agree in everything but the pen.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from bench.pace.graph.axes import Axis, axis_over
from bench.pace.graph.model import Graph, Mark, Span
from bench.pace.graph.shapes import Point, Segment, dashes, hatching

Measure = Callable[[str], tuple[float, float]]
THIN, PLAIN, THICK = 0.8, 1.4, 2.6  # widths of lines, in units
DASH_ON, DASH_OFF = 13.0, 8.0
PITCH = 13.0  # of the hatching
MARK, LEAST_MARK = 9.0, 2.0  # radius of a mark, and where there are very many
SAMPLE = 52.0  # width of a sample in the key


@dataclass(frozen=True)
class Line:
    points: tuple[Point, ...]
    width: float


@dataclass(frozen=True)
class Word:
    """Text with its lower left corner."""

    x: float
    y: float
    text: str


@dataclass(frozen=True)
class Placed:
    """A mark at its place; `spot` is its number in the graph, None in the key."""

    x: float
    y: float
    mark: Mark
    radius: float
    spot: int | None = None


@dataclass(frozen=True)
class Layout:
    """All of a graph, drawn in this order: lines, marks, words. box: left, low, right, high of the field."""

    lines: tuple[Line, ...]
    marks: tuple[Placed, ...]
    words: tuple[Word, ...]
    box: tuple[float, float, float, float]


class _Sheet:
    """What has been laid so far."""

    def __init__(self, unit: float, measure: Measure) -> None:
        self.unit, self.measure = unit, measure
        self.text_high = measure("0")[1]
        self.lines: list[Line] = []
        self.marks: list[Placed] = []
        self.words: list[Word] = []

    def line(self, points: tuple[Point, ...], width: float) -> None:
        self.lines.append(Line(points, width * self.unit))

    def segments(self, pieces: list[Segment], width: float) -> None:
        for x1, y1, x2, y2 in pieces:
            self.line(((x1, y1), (x2, y2)), width)

    def stroke(self, points: tuple[Point, ...], dashed: bool) -> None:
        if dashed:
            self.segments(list(dashes(points, DASH_ON * self.unit, DASH_OFF * self.unit)), 1.2 * THICK)
        else:
            self.line(points, THICK)

    def band(self, points: tuple[tuple[float, float, float], ...]) -> None:
        """Hatch between two lines given as (x, low, high), and draw their edges thin."""
        x, low, high = np.array(points, dtype=np.float64).T
        self.segments(list(hatching(x, low, high, PITCH * self.unit)), THIN)
        self.line(tuple((a, b) for a, b, _ in points), THIN)
        self.line(tuple((a, b) for a, _, b in points), THIN)


def lay_out(graph: Graph, width: float, height: float, *, unit: float, measure: Measure) -> Layout:
    """Lay a graph out on so much room. unit: a length that lines and marks are multiples of, 1 for a screen
    of 160 dots an inch; measure: how wide and high a text is.

    Room too small for axes and words still gives a field of at least one unit. A graph without a spot has
    its axes only.
    """
    sheet = _Sheet(unit, measure)
    high = _key(sheet, graph, width, height)
    gap = 6 * unit
    words_high = sheet.text_high
    y = _axis(graph.y, 2 + int(max(0.0, high - 4 * words_high) / (2.6 * words_high)), to_ticks=True)
    left = max(measure(label)[0] for label in y.labels) + 2 * gap
    right = max(left + unit, width - 2 * gap)
    x = _x_axis(graph.x, measure, right - left)
    low = 2.6 * words_high + 2 * gap
    high = max(low + unit, high - 1.5 * words_high - gap)
    x, y = x.laid(left, right), y.laid(low, high)
    _frame(sheet, x, y, graph, gap, width)
    _field(sheet, graph, x, y)
    return Layout(tuple(sheet.lines), tuple(sheet.marks), tuple(sheet.words), (left, low, right, high))


def nearest(layout: Layout, x: float, y: float, *, reach: float) -> int | None:
    """Return the number of the spot nearest to a place, None where none is within reach."""
    spots = [mark for mark in layout.marks if mark.spot is not None]
    if not spots:
        return None
    off = np.hypot([s.x - x for s in spots], [s.y - y for s in spots])
    best = int(np.argmin(off))
    return spots[best].spot if off[best] <= reach else None


def _axis(span: Span, most: int, *, to_ticks: bool) -> Axis:
    return axis_over(
        span.low, span.high, most=most, whole=span.whole, least_span=span.least_span, to_ticks=to_ticks
    )


def _x_axis(span: Span, measure: Measure, room: float) -> Axis:
    """Return an axis with as many ticks as their labels leave clear of each other."""
    for most in range(12, 2, -1):
        axis = _axis(span, most, to_ticks=False)
        wide = max((measure(label)[0] for label in axis.labels), default=0.0)
        if len(axis.ticks) * 1.7 * wide <= room:
            return axis
    return _axis(span, 2, to_ticks=False)


def _key(sheet: _Sheet, graph: Graph, width: float, height: float) -> float:
    """Name marks, lines and bands along the top, in as many rows as it takes; return the height left."""
    named = [(one.name, "mark", one.mark) for one in graph.marks]
    named += [(one.name, "dashed" if one.dashed else "line", "dot") for one in graph.strokes]
    named += [(one.name, "band", "dot") for one in graph.bands]
    unit, x, top = sheet.unit, 0.0, height
    row_high = sheet.text_high + 4 * unit
    for name, kind, mark in dict.fromkeys(named):
        sample = (2.6 * MARK if kind == "mark" else SAMPLE) * unit
        wide = sample + 8 * unit + sheet.measure(name)[0]
        if x > 0 and x + wide > width:
            x, top = 0.0, top - row_high
        y = top - row_high / 2
        if kind == "mark":
            sheet.marks.append(Placed(x + sample / 2, y, mark, MARK * unit))
        elif kind == "band":
            half = 0.32 * row_high
            sheet.band(((x, y - half, y + half), (x + sample, y - half, y + half)))
        else:
            sheet.stroke(((x, y), (x + sample, y)), kind == "dashed")
        sheet.words.append(Word(x + sample + 8 * unit, y - sheet.text_high / 2, name))
        x += wide + 22 * unit
    return top - row_high if named else top


def _frame(sheet: _Sheet, x: Axis, y: Axis, graph: Graph, gap: float, width: float) -> None:
    """Draw the two axes with their ticks, and write what they measure."""
    left, right, low, high = x.start, x.end, y.start, y.end
    sheet.line(((left, high), (left, low), (right, low)), PLAIN)
    for value, label in zip(x.ticks, x.labels, strict=True):
        at, wide = x.place(value), sheet.measure(label)[0]
        sheet.line(((at, low), (at, low - gap)), PLAIN)
        sheet.words.append(Word(min(at - wide / 2, width - wide), low - gap - 1.5 * sheet.text_high, label))
    for value, label in zip(y.ticks, y.labels, strict=True):
        at, wide = y.place(value), sheet.measure(label)[0]
        sheet.line(((left - gap, at), (left, at)), PLAIN)
        sheet.words.append(Word(left - 1.6 * gap - wide, at - sheet.text_high / 2, label))
    sheet.words.append(Word(0.0, high + 0.5 * sheet.text_high + 0.5 * gap, graph.y.title))
    wide = sheet.measure(graph.x.title)[0]
    sheet.words.append(Word(max(0.0, right - wide), 0.0, graph.x.title))


def _field(sheet: _Sheet, graph: Graph, x: Axis, y: Axis) -> None:
    """Draw what was believed under what was seen."""
    for band in graph.bands:
        if len(band.x) > 1:
            rows = zip(band.x, band.low, band.high, strict=True)
            sheet.band(tuple((x.place(a), y.place(b), y.place(c)) for a, b, c in rows))
    for stroke in graph.strokes:
        sheet.stroke(tuple((x.place(a), y.place(b)) for a, b in stroke.points), stroke.dashed)
    radius = _radius(len(graph.spots), x.end - x.start) * sheet.unit
    for k, spot in enumerate(graph.spots):
        sheet.marks.append(Placed(x.place(spot.x), y.place(spot.y), spot.mark, radius, k))


def _radius(count: int, room: float) -> float:
    """Return the radius of marks that are told apart as long as there are not too many. [units]"""
    return max(LEAST_MARK, min(MARK, MARK * math.sqrt(60 / count))) if count and room else MARK

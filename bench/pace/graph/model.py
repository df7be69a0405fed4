"""What a graph shows, in the units of its axes; how large it is drawn, and with what, is decided later."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

# dot: seen exactly; ring: as it was reckoned; cross: missed; up: at least so much; square: weighed afterwards
Mark = Literal["dot", "ring", "cross", "up", "square"]


@dataclass(frozen=True)
class Spot:
    """One thing seen: where it lies, and which entry of which panel's book it stands for."""

    x: float
    y: float
    mark: Mark
    seq: int
    panel_id: int
    says: str


@dataclass(frozen=True)
class Stroke:
    """A line through points; it is told from another by being dashed, never by its colour."""

    points: tuple[tuple[float, float], ...]
    name: str
    dashed: bool = False


@dataclass(frozen=True)
class Band:
    """A hatched band between two lines over the same x, which rise; fewer than two points show nothing."""

    x: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    name: str


@dataclass(frozen=True)
class Span:
    """What an axis measures, and over what it must reach.

    whole: only whole numbers are named. least_span: it reaches over so much at least. held: the end that
    stays where fewer spots are shown.
    """

    title: str
    low: float
    high: float
    whole: bool = False
    least_span: float = 1e-9
    held: Literal["low", "high", "both"] = "both"


@dataclass(frozen=True)
class Named:
    """What a mark means, for the key of the graph."""

    mark: Mark
    name: str


@dataclass(frozen=True)
class Graph:
    """One graph. key: its name in code; says: what is to be seen in it, in a sentence.

    Without a spot there is nothing to draw, and `says` tells what will be seen. Spots come oldest first.
    in_order: x counts them. about: what it is of, by its name in the book; "" for the hands.
    """

    key: str
    title: str
    says: str
    x: Span
    y: Span
    spots: tuple[Spot, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    bands: tuple[Band, ...] = ()
    marks: tuple[Named, ...] = ()
    in_order: bool = False
    about: str = ""


def newest(graph: Graph, count: int) -> Graph:
    """Return a graph of its newest spots alone; where x counts them, lines and bands begin there too.

    No more spots than that: the graph itself.
    """
    if len(graph.spots) <= count:
        return graph
    spots = graph.spots[-count:]
    if not graph.in_order:
        return replace(graph, spots=spots)
    start = spots[0].x - 0.5
    strokes = tuple(replace(s, points=tuple(p for p in s.points if p[0] >= start)) for s in graph.strokes)
    bands = tuple(_from(band, start) for band in graph.bands)
    seen = [s.y for s in spots] + [y for s in strokes for _, y in s.points]
    seen += [y for band in bands for y in (*band.low, *band.high)]
    y = graph.y
    if y.held != "both":
        y = replace(y, high=max(seen)) if y.held == "low" else replace(y, low=min(seen))
    return replace(graph, spots=spots, x=replace(graph.x, low=start), y=y, strokes=strokes, bands=bands)


def _from(band: Band, start: float) -> Band:
    """Return the part of a stepped band from a step on: the second of two equal x begins it."""
    first = max((k for k, x in enumerate(band.x) if x <= start), default=0)
    return replace(band, x=band.x[first:], low=band.low[first:], high=band.high[first:])

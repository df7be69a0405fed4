"""Lay rows of cells in a form; nip.py makes tesserae of them.

`rings`, `bands` and `outline_row` divide a form into rows that follow its contour, a family of lines or
what stands in front of it; `cut_row` cuts a row across, its cells about equally long.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPoint, Polygon
from shapely.geometry.base import BaseGeometry

FAR_MM = 4000.0


@dataclass(frozen=True)
class Row:
    """A strip of a form and the line its tesserae are strung along."""

    strip: BaseGeometry
    line: BaseGeometry
    length_mm: float  # of a tessera along the row, joint included


@dataclass(frozen=True, eq=False)
class Cell:
    """A tessera with half of its joints, before it is shaped. row: number within the form."""

    outline: Polygon
    row: int


def polygons(geometry: BaseGeometry, least_mm2: float = 1e-3) -> list[Polygon]:
    """Return the polygons of any geometry, crumbs and lines left out."""
    parts = shapely.get_parts(shapely.make_valid(geometry))
    flat = [deep for part in parts for deep in shapely.get_parts(part)]
    return [part for part in flat if part.geom_type == "Polygon" and part.area > least_mm2]


def rings(form: Polygon, row_mm: float, length_mm: float) -> Iterator[Row]:
    """Yield rows that follow the contour of a form inwards, the last one a core along its long axis."""
    depth_mm = shapely.maximum_inscribed_circle(form, tolerance=0.1).length
    count = max(1, round(depth_mm / row_mm - 0.6))
    step_mm = depth_mm / (count + 0.6)
    for k in range(count):
        outer, inner = form.buffer(-k * step_mm), form.buffer(-(k + 1) * step_mm)
        yield Row(outer.difference(inner), form.buffer(-(k + 0.5) * step_mm).boundary, length_mm)
    for core in polygons(form.buffer(-count * step_mm)):
        yield Row(core, long_axis(core), length_mm)


def long_axis(form: Polygon) -> LineString:
    """Return the middle line of a form's smallest rectangle, along its longer side."""
    a, b, c, d = list(form.minimum_rotated_rectangle.exterior.coords)[:4]
    if math.dist(a, b) > math.dist(b, c):
        a, b, c, d = b, c, d, a
    return LineString([np.add(a, b) / 2, np.add(c, d) / 2])


def bands(line_at: Callable[[float], np.ndarray], levels: Sequence[float], length_mm: float) -> Iterator[Row]:
    """Yield the rows between neighbouring lines of a family. line_at(level): (points, 2). [mm]"""
    for low, high in itertools.pairwise(levels):
        strip = Polygon(np.vstack([line_at(low), line_at(high)[::-1]])).buffer(0)
        yield Row(strip, LineString(line_at((low + high) / 2)), length_mm)


def outline_row(forms: BaseGeometry, row_mm: float, length_mm: float) -> Row:
    """Return the row of background that runs round a group of forms, narrow bays filled."""
    closed = forms.buffer(row_mm + 2.0).buffer(-2.0)
    return Row(closed.difference(forms), forms.buffer(row_mm / 2).boundary, length_mm)


def cut_row(row: Row, region: BaseGeometry, rng: np.random.Generator) -> list[Polygon]:
    """Cut what a row covers of a region across its line, into about equal lengths."""
    return [cell for part in polygons(row.strip.intersection(region)) for cell in cut_part(part, row, rng)]


def cut_part(part: Polygon, row: Row, rng: np.random.Generator) -> list[Polygon]:
    """Cut one connected part of a row; one without enough line for two lengths stays whole.

    The cuts are the borders between nearest points of the line, so they stand square on it.
    """
    parts = shapely.get_parts(shapely.line_merge(row.line.intersection(part)))
    lines = [line for line in parts if line.geom_type == "LineString"]
    seeds = [seed for line in lines for seed in string_of(line, row.length_mm, rng)]
    if len(seeds) < 2:
        return [part]
    far = [(-FAR_MM, -FAR_MM), (FAR_MM, -FAR_MM), (FAR_MM, FAR_MM), (-FAR_MM, FAR_MM)]  # for seeds in line
    cells = shapely.voronoi_polygons(MultiPoint([*seeds, *far]))
    pieces = [piece for cell in shapely.get_parts(cells) for piece in polygons(cell.intersection(part))]
    return sorted(pieces, key=lambda piece: row.line.project(piece.centroid))


def string_of(line: LineString, length_mm: float, rng: np.random.Generator) -> list[tuple[float, float]]:
    """Return points along a line, one a tessera; a closed line starts anywhere."""
    count = max(1, round(line.length / length_mm))
    at = np.arange(count) + 0.5 + rng.uniform(-0.13, 0.13, count)
    if line.is_closed:
        at = (at + rng.random()) % count
    points = (line.interpolate(float(s), normalized=True) for s in np.sort(at) / count)
    return [(point.x, point.y) for point in points]

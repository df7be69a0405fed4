"""SVG written on the spot from bodies and shapely polygons, and random panels to write."""

import numpy as np
import shapely

from bench.drawing.panel import Panel
from bench.drawing.svg import read_drawing

XMLNS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def page(
    body: str, *, size: str = 'width="100mm" height="100mm" viewBox="0 0 100 100"', more: str = ""
) -> bytes:
    """Return an SVG whose unit is 1 mm unless `size` says otherwise."""
    return f"<svg {XMLNS} {size} {more}>{body}</svg>".encode()


def read(body: str, *, name: str = "lemons.svg", **keys) -> Panel:
    """Return the panel of a body on a page of 100 × 100 mm; width_mm and height_mm go to the reader."""
    rescale = {key: keys.pop(key) for key in ("width_mm", "height_mm") if key in keys}
    return read_drawing(page(body, **keys), name, **rescale)


def square(x: float, y: float, side: float = 10, attributes: str = "") -> str:
    return f'<path d="M{x},{y}h{side}v{side}h{-side}z" {attributes}/>'


def path_data(polygon: shapely.Polygon, digits: int = 6) -> str:
    """Return a polygon with its holes as path data."""
    rings = (polygon.exterior, *polygon.interiors)
    return "".join(
        "M" + "L".join(f"{x:.{digits}f},{y:.{digits}f}" for x, y in np.array(ring.coords)[:-1]) + "Z"
        for ring in rings
    )


def svg_of(polygons, width_mm: float, height_mm: float, digits: int = 6) -> bytes:
    """Return a drawing of the polygons, ids p0, p1 …"""
    body = "".join(f'<path id="p{k}" d="{path_data(p, digits)}"/>' for k, p in enumerate(polygons))
    return page(
        body, size=f'width="{width_mm}mm" height="{height_mm}mm" viewBox="0 0 {width_mm} {height_mm}"'
    )


def polygons_of(panel: Panel) -> list[shapely.Polygon]:
    """Return the tesserae of a panel as shapely sees them: the first ring minus the others."""
    return [shapely.Polygon(rings[0], rings[1:]) for rings in map(panel.rings_mm, range(panel.tessera_count))]


def voronoi(count: int, *, width_mm=100.0, height_mm=80.0, gap_mm=0.8, seed=0) -> list[shapely.Polygon]:
    """Return Voronoi cells of random points that fill a page, joints of `gap_mm` between them."""
    rng = np.random.default_rng(seed)
    points = shapely.MultiPoint(rng.random((count, 2)) * [width_mm, height_mm])
    frame = shapely.box(0, 0, width_mm, height_mm)
    cells = shapely.get_parts(shapely.voronoi_polygons(points, extend_to=frame))
    cells = shapely.intersection(cells, frame)
    if gap_mm:
        cells = shapely.buffer(cells, -gap_mm / 2, join_style="mitre")
    return [cell for cell in cells if cell.geom_type == "Polygon" and cell.area > 0.01]

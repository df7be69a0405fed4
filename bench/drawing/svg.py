"""An SVG drawing → a Panel: count, find the page, walk, lay out in mm, and gather the glass."""

from __future__ import annotations

from bench.drawing.boxes import TooManyPairs
from bench.drawing.census import Census, take_census
from bench.drawing.faults import DrawingEmpty, DrawingTooLarge, NoTesserae, TooTangled
from bench.drawing.gather import gather
from bench.drawing.layout import lay_out
from bench.drawing.numbers import PX_PER_MM, Affine, then
from bench.drawing.page import Page, page_of, panel_size_mm
from bench.drawing.panel import Panel
from bench.drawing.walk import Walk
from bench.drawing.xmltree import Node, read_tree

MOST_BYTES = 64 * 2**20


def read_drawing(
    data: bytes, name: str, *, width_mm: float | None = None, height_mm: float | None = None
) -> Panel:
    """Return the panel that an SVG drawing shows, its tesserae in the order drawn.

    A width or height in mm rescales it; one alone keeps the proportion. Curves are straightened to
    within 0.05 mm. `name` is what faults call the file. Raises a DrawingFault that says what is wrong,
    where, and what to do.
    """
    if not data.strip():
        raise DrawingEmpty(name)
    if len(data) > MOST_BYTES:
        raise DrawingTooLarge(name, MOST_BYTES)
    root = read_tree(data, name)
    census = take_census(root, name)
    page = page_of(root, name)
    try:
        sized = page.width_px > 0
        if not sized:
            page = _page_around(root, census, page)
        size = panel_size_mm(page, name, width_mm, height_mm)
        walk = Walk(root, census, page, _scale(size[0] / page.width_px, size[1] / page.height_px))
        return gather(walk, lay_out(walk.shapes, name), name, size, sized=sized)
    except TooManyPairs:
        raise TooTangled(name) from None


def _scale(x: float, y: float) -> Affine:
    return (x, 0.0, 0.0, y, 0.0, 0.0)


def _page_around(root: Node, census: Census, page: Page) -> Page:
    """Return the page that just holds all closed shapes, for a drawing that gives no size."""
    walk = Walk(root, census, page, _scale(1 / PX_PER_MM, 1 / PX_PER_MM))
    points = lay_out(walk.shapes, census.name).rings.points_mm * PX_PER_MM
    if not len(points):
        raise NoTesserae(census.name, "")
    low, high = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    inner = then((1.0, 0.0, 0.0, 1.0, -low[0], -low[1]), page.inner)
    return Page(high[0] - low[0], high[1] - low[1], inner, page.whole_px)

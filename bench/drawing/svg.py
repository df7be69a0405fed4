"""An SVG drawing → a Panel: count, walk, lay out in mm, sort the glass from everything else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from bench.drawing.boxes import TooManyPairs
from bench.drawing.census import Census, take_census
from bench.drawing.faults import DrawingEmpty, DrawingTooLarge, NoTesserae, OutlineNotClosed, TooTangled
from bench.drawing.flatten import Counts, Rings
from bench.drawing.joints import joints_of
from bench.drawing.layout import Layout, lay_out
from bench.drawing.leftout import report
from bench.drawing.names import unique_names
from bench.drawing.numbers import PX_PER_MM, Affine, then
from bench.drawing.page import Page, page_of, panel_size_mm
from bench.drawing.panel import GLASS_KINDS, IntArray, Panel
from bench.drawing.scene import Shape
from bench.drawing.walk import Walk
from bench.drawing.warn import warnings_of
from bench.drawing.xmltree import Node, read_tree

MOST_BYTES = 64 * 2**20
LEAST_MM2 = 1e-4  # an outline around less than that encloses nothing
BACKGROUND = 0.95  # of the panel


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
    sized = page.width_px > 0
    if not sized:
        page = _page_around(root, census, page, name)
    size = panel_size_mm(page, name, width_mm, height_mm)
    to_mm = (size[0] / page.width_px, 0.0, 0.0, size[1] / page.height_px, 0.0, 0.0)
    walk = Walk(root, census, page, to_mm)
    layout = lay_out(walk.shapes, name)
    try:
        return _panel(walk, layout, name, size, sized=sized)
    except TooManyPairs:
        raise TooTangled(name) from None


def _page_around(root: Node, census: Census, page: Page, name: str) -> Page:
    """Return the page that just holds all closed shapes, for a drawing that gives no size."""
    to_mm = (1 / PX_PER_MM, 0.0, 0.0, 1 / PX_PER_MM, 0.0, 0.0)
    points = lay_out(Walk(root, census, page, to_mm).shapes, name).rings.points_mm * PX_PER_MM
    if not len(points):
        raise NoTesserae(name, "")
    low, high = points.min(axis=0), points.max(axis=0)
    inner: Affine = (1.0, 0.0, 0.0, 1.0, -float(low[0]), -float(low[1]))
    return Page(float(high[0] - low[0]), float(high[1] - low[1]), then(inner, page.inner), page.whole_px)


def _panel(walk: Walk, layout: Layout, name: str, size: tuple[float, float], *, sized: bool) -> Panel:
    shapes = walk.shapes
    outline = _outline(shapes, layout, name)
    outline_mm2 = float(layout.area_mm2[outline].sum()) if len(outline) else size[0] * size[1]
    kept = _kept(shapes, layout, walk.left_out, outline_mm2)
    left_out = report(walk.left_out)
    if not len(kept):
        raise NoTesserae(name, ", ".join(f"{one.count} × {one.what}" for one in left_out))
    tesserae = [shapes[k] for k in kept]
    ids = unique_names([shape.node.attributes.get("id", "") for shape in tesserae])
    rings, tessera_ring = _rings_of(layout, kept)
    points, ring_start = rings.points_mm, rings.start.astype(np.int32)
    area = layout.area_mm2[kept]
    group, group_names = _groups(walk, tesserae)
    outline_rings, _ = _rings_of(layout, outline)
    return Panel(
        width_mm=size[0],
        height_mm=size[1],
        ids=ids,
        points_mm=points,
        ring_start=ring_start,
        tessera_ring=tessera_ring,
        area_mm2=area,
        centroid_mm=layout.moment_mm3[kept] / area[:, None],
        colour=np.array([(shape.scene.fill or (0, 0, 0))[:3] for shape in tesserae], np.uint8),
        glass=np.array([_glass(shape) for shape in tesserae], np.uint8),
        adhesive=tuple(shape.scene.adhesive for shape in tesserae),
        group=group,
        group_names=group_names,
        joints=joints_of(points, ring_start, tessera_ring, area),
        outline_area_mm2=outline_mm2,
        outline_mm=tuple(outline_rings.points_mm[a:b] for a, b in pairwise(outline_rings.start)),
        left_out=left_out,
        warnings=warnings_of(ids, tesserae, rings, tessera_ring, area, outline_mm2, size, sized=sized),
        name=name,
    )


def _outline(shapes: Sequence[Shape], layout: Layout, name: str) -> Counts:
    """Return which shapes mark the panel's outline; raise OutlineNotClosed for one that cannot."""
    marked = [k for k, shape in enumerate(shapes) if shape.scene.outline]
    for k in marked:
        if not layout.area_mm2[k] > LEAST_MM2:
            raise OutlineNotClosed(name, shapes[k].told)
    return np.array(marked, np.int64)


def _kept(shapes: Sequence[Shape], layout: Layout, left_out: Counter[str], outline_mm2: float) -> Counts:
    """Return which shapes are tesserae, and count what each of the others is."""
    has_ring = np.bincount(layout.shape, minlength=len(shapes)) > 0
    kept = []
    for k, shape in enumerate(shapes):
        if shape.scene.outline:
            continue
        if shape.node.tag == "line" or (layout.has_open[k] and not has_ring[k]):
            left_out["open stroke"] += 1
        elif not shape.filled:
            left_out["unfilled shape"] += 1
        elif not layout.area_mm2[k] > LEAST_MM2:
            left_out["empty shape"] += 1
        elif layout.area_mm2[k] >= BACKGROUND * outline_mm2:
            left_out["background"] += 1
        else:
            kept.append(k)
    return np.array(kept, np.int64)


def _rings_of(layout: Layout, shapes: Counts) -> tuple[Rings, IntArray]:
    """Return the rings of the given shapes, and where each shape's rings start."""
    wanted = np.isin(layout.shape, shapes)
    counts = np.bincount(layout.shape, minlength=len(layout.area_mm2))[shapes]
    start = np.concatenate([[0], np.cumsum(counts)]).astype(np.int32)
    return layout.rings.take(np.flatnonzero(wanted)), start


def _glass(shape: Shape) -> int:
    """Return the index of the glass; opaque where it is not given or not known."""
    return GLASS_KINDS.index(shape.scene.glass) if shape.scene.glass in GLASS_KINDS else 0


def _groups(walk: Walk, tesserae: Sequence[Shape]) -> tuple[IntArray, tuple[str, ...]]:
    """Return the innermost named group of each tessera, and the names of those that hold any."""
    of = np.array([shape.scene.group for shape in tesserae], np.int64)
    used = np.unique(of[of >= 0])
    names = unique_names([walk.groups[k] for k in used])
    return np.where(of >= 0, np.searchsorted(used, of), -1).astype(np.int32), names

"""Sort the shapes of a drawing: tesserae, the panel's outline, and what is left out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from bench.drawing.built import LEAST_MM2
from bench.drawing.faults import NoTesserae, OutlineNotClosed
from bench.drawing.joints import joints_of
from bench.drawing.layout import Layout
from bench.drawing.leftout import report
from bench.drawing.names import unique_names
from bench.drawing.overlaps import overlapping, spans
from bench.drawing.paint import BLACK
from bench.drawing.panel import GLASS_KINDS, IntArray, Panel
from bench.drawing.rings import Counts, Rings, rings_of
from bench.drawing.scene import Scene, Shape
from bench.drawing.walk import Walk
from bench.drawing.warn import Findings, warnings_of

BACKGROUND = 0.95  # of the panel


def gather(walk: Walk, layout: Layout, name: str, size_mm: tuple[float, float], *, sized: bool) -> Panel:
    """Return the panel of all tesserae; raise NoTesserae or OutlineNotClosed."""
    outline = _outline(walk.shapes, layout, name)
    panel_mm2 = float(layout.area_mm2[outline].sum()) if len(outline) else size_mm[0] * size_mm[1]
    kept = _kept(walk.shapes, layout, walk.left_out, panel_mm2)
    left_out = report(walk.left_out)
    if not len(kept):
        raise NoTesserae(name, ", ".join(f"{one.count} × {one.told}" for one in left_out))
    scenes = [walk.shapes[k].scene for k in kept]
    rings, tessera_ring = rings_of(layout.rings, layout.first, kept)
    points_mm, ring_start, area_mm2 = rings.points_mm, rings.start.astype(np.int32), layout.area_mm2[kept]
    group, group_names = _groups(walk, scenes)
    ids = unique_names([walk.shapes[k].node.attributes.get("id", "") for k in kept])
    findings = Findings(
        ids=ids,
        area_mm2=area_mm2,
        panel_mm2=panel_mm2,
        crosses=layout.crosses[kept],
        parts=_parts(layout)[kept],
        outside=_outside(rings, tessera_ring, size_mm),
        glass=[scene.glass for scene in scenes],
        clipped=np.array([scene.clipped for scene in scenes]),
        true_colour=np.array([scene.true_fill for scene in scenes]),
        overlaps=overlapping(rings, tessera_ring, area_mm2),
        sized=sized,
    )
    return Panel(
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        ids=ids,
        points_mm=points_mm,
        ring_start=ring_start,
        tessera_ring=tessera_ring,
        area_mm2=area_mm2,
        centroid_mm=layout.moment_mm3[kept] / area_mm2[:, None],
        colour=np.array([(scene.fill or BLACK)[:3] for scene in scenes], np.uint8),
        glass=np.array([_glass(scene) for scene in scenes], np.uint8),
        adhesive=tuple(scene.adhesive for scene in scenes),
        board=tuple(scene.board for scene in scenes) if any(scene.board for scene in scenes) else (),
        group=group,
        group_names=group_names,
        joints=joints_of(points_mm, ring_start, tessera_ring, area_mm2),
        outline_area_mm2=panel_mm2,
        outline_mm=tuple(ring for k in outline.tolist() for ring in layout.outlines(k)),
        left_out=left_out,
        warnings=warnings_of(findings),
        name=name,
    )


def _outline(shapes: Sequence[Shape], layout: Layout, name: str) -> Counts:
    """Return which shapes mark the panel's outline; raise OutlineNotClosed for one that cannot."""
    marked = [k for k, shape in enumerate(shapes) if shape.scene.outline]
    for k in marked:
        if not layout.area_mm2[k] > LEAST_MM2:
            raise OutlineNotClosed(name, shapes[k].told)
    return np.array(marked, np.int64)


def _kept(shapes: Sequence[Shape], layout: Layout, left_out: Counter[str], panel_mm2: float) -> Counts:
    """Return which shapes are tesserae, and count what each of the others is."""
    has_ring = np.diff(layout.first) > 0
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
        elif layout.area_mm2[k] >= BACKGROUND * panel_mm2:
            left_out["background"] += 1
        else:
            kept.append(k)
    return np.array(kept, np.int64)


def _glass(scene: Scene) -> int:
    """Return the index of the glass; opaque where it is not given or not known."""
    return GLASS_KINDS.index(scene.glass) if scene.glass in GLASS_KINDS else 0


def _groups(walk: Walk, scenes: Sequence[Scene]) -> tuple[IntArray, tuple[str, ...]]:
    """Return the innermost named group of each tessera, and the names of those that hold any."""
    of = np.array([scene.group for scene in scenes], np.int64)
    used = np.unique(of[of >= 0])
    names = unique_names([walk.groups[k] for k in used.tolist()])
    return np.where(of >= 0, np.searchsorted(used, of), -1).astype(np.int32), names


def _parts(layout: Layout) -> Counts:
    """Return of how many outer outlines each shape is made."""
    total = np.concatenate([[0], np.cumsum(layout.depth % 2 == 0)])
    return np.diff(total[layout.first])


def _outside(rings: Rings, tessera_ring: IntArray, size_mm: tuple[float, float]) -> NDArray[np.bool_]:
    """Tell which tesserae lie off the page, all of them."""
    low, high = spans(rings.points_mm, rings.start[tessera_ring[:-1]])
    off = (high <= 0) | (low >= np.array(size_mm))
    return np.asarray(off[:, 0] | off[:, 1])

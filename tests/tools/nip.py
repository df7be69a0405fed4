"""Make tesserae of cells: no slivers, straight cuts, a joint all round."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tests.tools.lay import Cell, polygons

MOST_CORNERS = 7
LEAST_AREA_MM2 = 7.0  # a little over the 6 mm² that nippers still hold
LEAST_WIDTH_MM = 1.9
LONGEST_ASPECT = 3.5

Option = tuple[float, list[Cell], list[Polygon]]  # the worse piece's quality, cells taken up, pieces laid


def join_scraps(cells: Sequence[Cell], most_mm2: float = 150.0) -> list[Cell]:
    """Lay cells that no nippers would cut anew: the smallest first, with the neighbour that suits best.

    The two become one piece, or two by another straight cut, whichever is the better shape. A crooked
    cell may also be cut in two by itself. A cell that nothing improves stays as it is.
    """
    left, done = list(cells), set[Cell]()
    scrap = {cell: is_scrap(cell.outline) for cell in left}
    while waiting := [cell for cell in left if scrap[cell] and cell not in done]:
        least = min(waiting, key=lambda cell: cell.outline.area)
        near = shapely.dwithin([cell.outline for cell in left], least.outline, 1e-6)
        others = [cell for cell, touches in zip(left, near, strict=True) if touches and cell is not least]
        score, taken, laid = max(options(least, others, most_mm2), key=lambda option: option[0])
        done.add(least)
        if score <= quality(least.outline):
            continue
        fresh = [replace(taken[-1], outline=outline) for outline in laid]
        scrap |= {cell: is_scrap(cell.outline) for cell in fresh}
        left = [cell for cell in left if cell not in taken] + fresh
    return left


def options(scrap: Cell, others: Sequence[Cell], most_mm2: float) -> Iterator[Option]:
    """Yield what can be done about a scrap: how good the worse piece is, cells taken up, pieces laid."""
    yield 0.0, [scrap], [scrap.outline]
    alone = cut_in_two(scrap.outline)
    yield 0.97 * worst(alone), [scrap], alone
    for other in others:
        if scrap.outline.boundary.intersection(other.outline.buffer(0.02)).length < 0.6:
            continue
        joined = union(scrap.outline, other.outline)
        same_row = 0.03 if scrap.row == other.row else 0.0
        whole = quality(joined) + same_row - joined.area / 2000
        if joined.area <= most_mm2:
            yield whole, [scrap, other], [joined]
        if whole < 0.92 or joined.area > most_mm2:
            two = cut_in_two(joined)
            yield 0.97 * worst(two) + same_row, [scrap, other], two


def cut_in_two(form: Polygon) -> list[Polygon]:
    """Cut a form by the straight line that leaves the better worse piece; [form] where it is tiny."""
    if form.area < 26:
        return [form]
    best = [form]
    centre = np.array(form.centroid.coords[0])
    reach = 0.25 * math.sqrt(form.area)
    for turn in np.arange(0, math.pi, math.pi / 9):
        across = np.array([-math.sin(turn), math.cos(turn)])
        for shift in (-reach, 0.0, reach):
            side = half_plane(centre + shift * across, across)
            halves = [form.intersection(side), form.difference(side)]
            if all(half.geom_type == "Polygon" and half.area > 9 for half in halves) and (
                len(best) == 1 or worst(halves) > worst(best)
            ):
                best = halves
    return best


def half_plane(point: np.ndarray, towards: np.ndarray) -> Polygon:
    """Return what lies beyond a line through a point, as far as the page goes. towards: unit normal."""
    along = 500 * np.array([towards[1], -towards[0]])
    start, end = point - along, point + along
    return Polygon([start, end, end + 1000 * towards, start + 1000 * towards])


def worst(forms: Sequence[Polygon]) -> float:
    return min(quality(form) for form in forms)


def union(a: Polygon, b: Polygon) -> Polygon:
    """Join two cells that share an edge, the seam closed."""
    return max(polygons(a.buffer(0.005).union(b.buffer(0.005)).buffer(-0.005)), key=lambda part: part.area)


def is_scrap(outline: Polygon) -> bool:
    """Say whether a cell leaves too little, too thin or too crooked a piece once the joint is off."""
    return quality(outline) < 0.86


def quality(outline: Polygon) -> float:
    """Score a cell as a piece of glass: 1 is convex, stout and large enough; below 0.86 is scrap."""
    piece = outline.buffer(-0.38, join_style="mitre")
    if piece.geom_type != "Polygon" or piece.is_empty:
        return 0.0
    small = min(1.0, piece.area / LEAST_AREA_MM2)
    thin = 0.6 if outline.buffer(-0.38 - LEAST_WIDTH_MM / 2).is_empty else 1.0
    long = min(1.0, LONGEST_ASPECT / aspect(piece))
    return piece.area / piece.convex_hull.area * small**2 * thin * long**2


def aspect(outline: BaseGeometry) -> float:
    """Return length over width of the smallest rectangle around a form; 1 for an empty one."""
    if outline.is_empty:
        return 1.0
    ring = outline.minimum_rotated_rectangle
    if ring.geom_type != "Polygon":
        return math.inf
    a, b, c = list(ring.exterior.coords)[:3]
    sides = sorted((math.dist(a, b), math.dist(b, c)))
    return sides[1] / max(sides[0], 1e-9)


def shape(cell: BaseGeometry, joint_mm: float) -> Polygon | None:
    """Take half a joint off all round and straighten the cuts; None where no glass is left.

    A piece has 3 to 7 corners on a grid of 0.01 mm. A contour a little hollow is cut straight as far as
    a quarter of the joint allows.
    """
    inner = polygons(cell.buffer(-joint_mm / 2, join_style="mitre", mitre_limit=2.5))
    if not inner:
        return None
    piece = max(inner, key=lambda part: part.area)
    hull = piece.convex_hull
    if piece.area / hull.area > 0.97:
        room = cell.buffer(-joint_mm / 4, join_style="mitre")
        piece = max(polygons(hull.intersection(room)), key=lambda part: part.area)
    return straight(piece)


def straight(piece: Polygon, tolerance_mm: float = 0.08) -> Polygon | None:
    """Return a piece with 3 to 7 corners on a grid of 0.01 mm, None if it is under 6 mm²."""
    cut = piece.simplify(tolerance_mm)
    while len(cut.exterior.coords) - 1 > MOST_CORNERS:
        tolerance_mm *= 1.3
        cut = piece.simplify(tolerance_mm)
    cut = Polygon(np.round(np.asarray(cut.exterior.coords), 2))
    return cut if cut.is_valid and cut.area >= 6.0 else None


def keep_joints(pieces: Sequence[Polygon], joint_mm: float, near_mm: float) -> list[Polygon]:
    """Nip one of two pieces wherever they are closer than near_mm: the one that loses less glass by it."""
    kept = np.array(pieces)
    first, second = shapely.STRtree(kept).query(kept, predicate="dwithin", distance=near_mm)
    for a, b in sorted((int(i), int(j)) for i, j in zip(first, second, strict=True) if i < j):
        if kept[a].distance(kept[b]) >= near_mm:
            continue
        nips = [(i, cut) for i, j in ((a, b), (b, a)) for cut in nipped(kept[i], kept[j], joint_mm)]
        cuts = [
            (kept[i].area - cut.area, i, cut) for i, cut in nips if cut.distance(kept[a + b - i]) >= near_mm
        ]
        if cuts:
            _, which, cut = min(cuts, key=lambda option: option[:2])
            kept[which] = cut
    return list(kept)


def nipped(piece: Polygon, other: Polygon, joint_mm: float) -> Iterator[Polygon]:
    """Yield what is left of a piece moved off another, by one straight cut or along the other's contour."""
    rest = piece.difference(other.buffer(0.05, join_style="mitre"))
    near, far = np.array(shapely.shortest_line(other, rest).coords)
    towards = (far - near) / np.linalg.norm(far - near)
    straight_off = rest.intersection(half_plane(near + joint_mm * towards, towards))
    for cut in (straight_off, piece.difference(other.buffer(joint_mm, join_style="mitre"))):
        for part in sorted(polygons(cut), key=lambda part: part.area)[-1:]:
            if left := straight(part, 0.02):
                yield left

"""Generated panels of every outline that a maker might bring, each from a seed.

Tesserae are Voronoi cells of jittered points laid in rows; cells of points beyond the outline are dropped,
so that outlines follow whole tesserae. Joints are the ridges between cells: nothing here is shared with
the code that reads drawings or divides them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import Voronoi

from bench.drawing.panel import Joints, Panel
from bench.sections.ground import Ground, ground_of

Points = NDArray[np.float64]
PITCH_MM = 6.8  # a foot square of over 2,000 tesserae (common practice, no source)
BLUE, PALE, YELLOW = (40, 70, 150), (95, 125, 190), (235, 200, 40)


def inside_square(xy: Points, size: float) -> NDArray[np.bool_]:
    return np.asarray((np.abs(xy) < size / 2).all(axis=1))


def inside_ring(xy: Points, size: float) -> NDArray[np.bool_]:
    away = np.hypot(*xy.T)
    return np.asarray((away < size * 0.62) & (away > size * 0.34))


def inside_ell(xy: Points, size: float) -> NDArray[np.bool_]:
    return inside_square(xy, size * 1.15) & ~((xy[:, 0] > 0) & (xy[:, 1] > 0))


def inside_you(xy: Points, size: float) -> NDArray[np.bool_]:
    return inside_square(xy, size * 1.2) & ~((np.abs(xy[:, 0]) < size * 0.25) & (xy[:, 1] > -size * 0.25))


def inside_parts(xy: Points, size: float) -> NDArray[np.bool_]:
    return inside_square(xy, size * 1.1) & (np.abs(xy[:, 0] + 0.17 * size) > 1.5 * PITCH_MM)


def inside_border(xy: Points, size: float) -> NDArray[np.bool_]:
    """Two tesserae wide: much longer than its size says, so that the count comes out alike."""
    side = (size / PITCH_MM) ** 2 * PITCH_MM / 8
    return inside_square(xy, side + 2 * PITCH_MM) & ~inside_square(xy, side - 2 * PITCH_MM)


OUTLINES: dict[str, Callable[[Points, float], NDArray[np.bool_]]] = {
    "square": inside_square,
    "ring": inside_ring,
    "ell": inside_ell,
    "you": inside_you,
    "parts": inside_parts,
    "border": inside_border,
}


Seeds = tuple[Points, NDArray[np.intp]]  # points, and the tessera that each belongs to


def scattered(extent: float, rng: np.random.Generator, jitter: float) -> Seeds:
    """Roundish tesserae: one point each, in loose rows, each row offset by half a tessera."""
    places = np.arange(-extent, extent, PITCH_MM)
    x, y = np.meshgrid(places, places)
    x = x + PITCH_MM / 2 * (np.arange(len(places)) % 2)[:, None]
    points = np.stack([x.ravel(), y.ravel()], 1) + rng.uniform(-jitter, jitter, (x.size, 2)) * PITCH_MM
    return points, np.arange(len(points))


def bricks(extent: float, rng: np.random.Generator) -> Seeds:
    """Straight rows of oblong tesserae, each row offset against the one before; four points make one."""
    high, step = PITCH_MM / 1.26, PITCH_MM * 1.26 / 4
    rows, columns = np.arange(-extent, extent, high), np.arange(-extent, extent, step)
    shift = 2 * (np.arange(len(rows)) % 2) + rng.integers(0, 2, len(rows))
    owner = (np.arange(len(columns)) + shift[:, None]) // 4 + np.arange(len(rows))[:, None] * len(columns)
    x, y = np.meshgrid(columns, rows)
    points = np.stack([x.ravel(), y.ravel()], 1) + rng.uniform(-0.04, 0.04, (x.size, 2)) * PITCH_MM
    return points, owner.ravel()


def circles(centre: Points, radius: float, rng: np.random.Generator) -> Seeds:
    """Rows of oblong tesserae that run around a disc."""
    high, wide = PITCH_MM / 1.26, PITCH_MM * 1.26
    points, owner, first = [np.zeros((1, 2))], [np.zeros(1, np.intp)], 1
    for r in np.arange(high, radius - high / 3, high):
        count = max(4, round(2 * np.pi * r / wide))
        turn = (np.arange(4 * count) + rng.uniform(0, 4)) * np.pi / (2 * count)
        points.append(r * np.stack([np.cos(turn), np.sin(turn)], 1))
        owner.append(first + np.arange(4 * count) // 4)
        first += count
    flat = np.concatenate(points)
    return centre + flat + rng.uniform(-0.04, 0.04, flat.shape) * PITCH_MM, np.concatenate(owner)


def panel(kind: str, count: int, seed: int, *, motifs: int = 0, jitter: float = 0.22) -> Panel:
    """Return a panel of about count tesserae with the outline `kind`.

    Without motifs, roundish tesserae; with them, rows of oblong ones, and round forms laid into them
    whose rows run around.
    """
    rng = np.random.default_rng([seed, count, len(kind)])
    size = count**0.5 * PITCH_MM
    extent = size * 0.8 if kind != "border" else (size / PITCH_MM) ** 2 * PITCH_MM / 16 + 4 * PITCH_MM
    extent += 3 * PITCH_MM
    points, owner = bricks(extent, rng) if motifs else scattered(extent, rng, jitter)
    if kind == "border":
        near = ~inside_square(points, 2 * extent - 20 * PITCH_MM)
        points, owner = points[near], owner[near]
    tint = np.where(owner[:, None] % 3 == 0, (48, 78, 158), BLUE)
    for _ in range(motifs):
        centre, radius = rng.uniform(-0.38, 0.38, 2) * size, rng.uniform(2.2, 5.5) * PITCH_MM
        free = np.hypot(*(points - centre).T) > radius
        form, fresh = circles(centre, radius, rng)
        points, owner = (
            np.concatenate((points[free], form)),
            np.concatenate((owner[free], fresh + owner.max() + 1)),
        )
        colour = YELLOW if rng.random() < 0.6 else PALE
        tint = np.concatenate((tint[free], np.broadcast_to(colour, (len(form), 3))))
    return _of_cells(points, owner, OUTLINES[kind](points, size), tint.astype(np.uint8), kind)


def _of_cells(
    points: Points, owner: NDArray[np.intp], inside: NDArray[np.bool_], tint: NDArray[np.uint8], name: str
) -> Panel:
    cells = Voronoi(points)
    inside = inside & np.array([-1 not in cells.regions[r] for r in cells.point_region])
    names, place = np.unique(owner[inside], return_inverse=True)
    whose = np.full(len(points), -1)
    whose[inside] = place.reshape(-1)
    shapes: list[list[Points]] = [[] for _ in names]
    for i in np.flatnonzero(inside):
        shapes[whose[i]].append(_turned(cells.vertices[cells.regions[cells.point_region[i]]], points[i]))
    rings = [_joined(pieces) for pieces in shapes]
    low = np.concatenate(rings).min(axis=0)
    rings = [ring - low for ring in rings]
    area, centroid = np.array([_area(r) for r in rings]), np.array([_centroid(r) for r in rings])
    pair, length = _ridges(cells, whose, len(names))
    n = len(names)
    colour = np.zeros((n, 3), np.uint8)
    colour[whose[inside]] = tint[inside]
    width, height = np.concatenate(rings).max(axis=0)
    return Panel(
        width_mm=float(width),
        height_mm=float(height),
        ids=tuple(f"t{i}" for i in range(n)),
        points_mm=np.concatenate(rings),
        ring_start=np.concatenate(([0], np.cumsum([len(r) for r in rings]))).astype(np.int32),
        tessera_ring=np.arange(n + 1, dtype=np.int32),
        area_mm2=area,
        centroid_mm=centroid,
        colour=colour,
        glass=np.zeros(n, np.uint8),
        adhesive=("",) * n,
        group=np.full(n, -1, np.int32),
        group_names=(),
        joints=Joints(pair, length, np.zeros(len(pair))),
        outline_area_mm2=float(width * height),
        name=name,
    )


def _ridges(cells: Voronoi, whose: NDArray[np.intp], n: int) -> tuple[NDArray[np.int32], Points]:
    ends, sides = np.array(cells.ridge_vertices), np.sort(whose[cells.ridge_points], axis=1)
    between = (sides[:, 0] >= 0) & (sides[:, 0] != sides[:, 1]) & (ends >= 0).all(axis=1)
    ends, sides = ends[between], sides[between]
    mm = np.hypot(*(cells.vertices[ends[:, 0]] - cells.vertices[ends[:, 1]]).T)
    key, place = np.unique(sides[:, 0] * n + sides[:, 1], return_inverse=True)
    length = np.bincount(place.reshape(-1), mm, len(key))
    kept = length >= 1.0
    return np.stack(np.divmod(key[kept], n), axis=1).astype(np.int32), length[kept]


def _joined(pieces: list[Points]) -> Points:
    """Outline of one or several cells that touch; of cells torn apart by a form, the largest."""
    if len(pieces) == 1:
        return pieces[0]
    whole = shapely.union_all([shapely.Polygon(p) for p in pieces], grid_size=1e-6)
    largest = max(shapely.get_parts(whole), key=lambda part: part.area)
    return np.asarray(shapely.orient_polygons(largest).exterior.coords)[:-1]


def _turned(ring: Points, centre: Points) -> Points:
    away = ring - centre
    return ring[np.argsort(np.arctan2(away[:, 1], away[:, 0]))]


def _area(ring: Points) -> float:
    after = np.roll(ring, -1, axis=0)
    return float((ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]).sum() / 2)


def _centroid(ring: Points) -> Points:
    middle = ring.mean(axis=0)
    here = ring - middle
    after = np.roll(here, -1, axis=0)
    cross = here[:, 0] * after[:, 1] - after[:, 0] * here[:, 1]
    return np.asarray(middle + ((here + after) * cross[:, None]).sum(axis=0) / (3 * cross.sum()))


def times_s(panel: Panel, seed: int, *, spread: float = 0.25) -> NDArray[np.float64]:
    """Expected seconds about 12 each, log-normal with the given spread."""
    return np.random.default_rng([seed, 7]).lognormal(np.log(12.0), spread, panel.tessera_count)


def ground(
    kind: str,
    count: int,
    seed: int,
    *,
    per_section: float = 80.0,
    spread: float = 0.25,
    prefer: str = "fewest",
    adhesives: int = 1,
    motifs: int = 0,
) -> Ground:
    """Return the ground of a generated panel; adhesives = 2 lays patches of a second one into it."""
    whole = panel(kind, count, seed, motifs=motifs)
    times = times_s(whole, seed, spread=spread)
    glue = np.zeros(whole.tessera_count, np.int32)
    rng = np.random.default_rng([seed, 11])
    for _ in range(3 if adhesives == 2 else 0):
        centre = rng.uniform(0.2, 0.8, 2) * (whole.width_mm, whole.height_mm)
        glue[np.hypot(*(whole.centroid_mm - centre).T) < rng.uniform(0.1, 0.25) * whole.width_mm] = 1
    mean = float(times.mean()) if len(times) else 1.0
    capacity = np.array([per_section * mean, 0.8 * per_section * mean][:adhesives])
    return ground_of(whole, expected_s=times, adhesive=glue, capacity_s=capacity, prefer=prefer)


def lattice(columns: int, rows: int, *, seconds: float = 12.0, capacity_s: float = 100.0) -> Ground:
    """Return square tesserae edge to edge, 10 mm each: joints of 10 mm, corners touch but are none."""
    place = np.arange(columns * rows).reshape(rows, columns)
    across = np.stack([place[:, :-1].ravel(), place[:, 1:].ravel()], 1)
    down = np.stack([place[:-1].ravel(), place[1:].ravel()], 1)
    pair = np.concatenate((across, down)).astype(np.int32)
    y, x = np.divmod(np.arange(columns * rows), max(columns, 1))
    n = columns * rows
    return Ground(
        expected_s=np.full(n, seconds),
        area_mm2=np.full(n, 100.0),
        centroid_mm=np.stack([x, y], 1) * 10.0 + 5.0,
        pair=pair,
        joint_mm=np.full(len(pair), 10.0),
        cut_cost=np.full(len(pair), 10.0),
        adhesive=np.zeros(n, np.int32),
        capacity_s=np.array([capacity_s]),
        prefer="fewest",
    )


def with_capacity(ground: Ground, factor: float) -> Ground:
    """Return the same ground on a day when the capacity is so many times as large."""
    return replace(ground, capacity_s=ground.capacity_s * factor)

"""Generated panels of every outline that a maker might bring, each from a seed.

Tesserae are Voronoi cells of jittered points laid in rows; cells of points beyond the outline are dropped,
so that outlines follow whole tesserae. Joints are the ridges between cells: nothing here is shared with
the code that reads drawings or divides them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
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


def bricks(extent: float, rng: np.random.Generator, jitter: float, slender: float) -> Points:
    """Points of straight rows, each row offset by half a tessera against the one before."""
    high, wide = PITCH_MM / slender**0.5, PITCH_MM * slender**0.5
    rows, columns = np.arange(-extent, extent, high), np.arange(-extent, extent, wide)
    x, y = np.meshgrid(columns, rows)
    x = x + wide / 2 * (np.arange(len(rows)) % 2)[:, None]
    return np.stack([x.ravel(), y.ravel()], 1) + rng.uniform(-jitter, jitter, (x.size, 2)) * (wide, high)


def circles(centre: Points, radius: float, rng: np.random.Generator, jitter: float, slender: float) -> Points:
    """Points of rows that run around a disc."""
    high, wide = PITCH_MM / slender**0.5, PITCH_MM * slender**0.5
    points = [np.zeros((1, 2))]
    for number, r in enumerate(np.arange(high, radius - high / 2, high)):
        count = max(4, round(2 * np.pi * r / wide))
        turn = (np.arange(count) + 0.5 * (number % 2)) * 2 * np.pi / count
        points.append(r * np.stack([np.cos(turn), np.sin(turn)], 1))
    flat = np.concatenate(points)
    return centre + flat + rng.uniform(-jitter, jitter, flat.shape) * high


def panel(
    kind: str, count: int, seed: int, *, motifs: int = 0, jitter: float = 0.22, slender: float = 1.3
) -> Panel:
    """Return a panel of about count tesserae with the outline `kind`; motifs: round forms laid into it."""
    rng = np.random.default_rng([seed, count, len(kind)])
    size = count**0.5 * PITCH_MM
    extent = size * 0.8 if kind != "border" else (size / PITCH_MM) ** 2 * PITCH_MM / 16 + 4 * PITCH_MM
    points = bricks(extent + 3 * PITCH_MM, rng, jitter, slender)
    if kind == "border":
        points = points[~inside_square(points, 2 * extent - 14 * PITCH_MM)]
    colour = np.where(np.arange(len(points))[:, None] % 3 == 0, (48, 78, 158), BLUE)
    for _ in range(motifs):
        centre, radius = rng.uniform(-0.38, 0.38, 2) * size, rng.uniform(2.2, 5.5) * PITCH_MM
        free = np.hypot(*(points - centre).T) > radius
        form = circles(centre, radius, rng, jitter, slender)
        points = np.concatenate((points[free], form))
        tint = YELLOW if rng.random() < 0.6 else PALE
        colour = np.concatenate((colour[free], np.broadcast_to(tint, (*form.shape[:1], 3))))
    return _of_cells(points, OUTLINES[kind](points, size), colour.astype(np.uint8), kind)


def _of_cells(points: Points, inside: NDArray[np.bool_], colour: NDArray[np.uint8], name: str) -> Panel:
    cells = Voronoi(points)
    inside = inside & np.array([-1 not in cells.regions[r] for r in cells.point_region])
    chosen = np.flatnonzero(inside)
    place = np.cumsum(inside) - 1
    rings = [_turned(cells.vertices[cells.regions[cells.point_region[i]]], points[i]) for i in chosen]
    low = np.concatenate(rings).min(axis=0)
    rings = [ring - low for ring in rings]
    area, centroid = np.array([_area(r) for r in rings]), np.array([_centroid(r) for r in rings])
    ends = np.array(cells.ridge_vertices)
    length = np.hypot(*(cells.vertices[ends[:, 0]] - cells.vertices[ends[:, 1]]).T)
    kept = inside[cells.ridge_points].all(axis=1) & (ends >= 0).all(axis=1) & (length >= 1.0)
    pair = np.sort(place[cells.ridge_points[kept]], axis=1)
    order = np.lexsort((pair[:, 1], pair[:, 0]))
    n = len(chosen)
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
        colour=colour[chosen],
        glass=np.zeros(n, np.uint8),
        adhesive=("",) * n,
        group=np.full(n, -1, np.int32),
        group_names=(),
        joints=Joints(pair[order].astype(np.int32), length[kept][order], np.zeros(int(kept.sum()))),
        outline_area_mm2=float(width * height),
        name=name,
    )


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

"""Joints by looking: rays cast with shapely from points along each outline, straight out.

An independent, slow way to the same rule: neighbours face each other with nothing between, across at most
max(2 mm, 0.3 × √ of the smaller area), the outlines within 60° of each other.
"""

from collections import defaultdict
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.polygon import orient


def seen_lengths(pieces: list[shapely.Polygon], step_mm: float = 0.1) -> dict[tuple[int, int], float]:
    """Return for each pair that sees one another the mean of the lengths that either side sees. [mm]"""
    areas = np.array([piece.area for piece in pieces])
    tree = shapely.STRtree([piece.boundary for piece in pieces])
    seen: dict[tuple[int, int], float] = defaultdict(float)
    for k, piece in enumerate(pieces):
        start, out, length = _rays(piece, step_mm)
        reach = max(2.0, 0.3 * np.sqrt(areas[k]))
        rays = shapely.linestrings(np.stack([start + 1e-7 * out, start + reach * out], axis=1))
        own = shapely.distance(piece.boundary, shapely.points(start + 1e-3 * out))
        for ray, place, way, width, clear in zip(rays, start, out, length, own, strict=True):
            hit = _first_hit(ray, place, way, k, pieces, tree) if clear > 1e-9 else None
            if hit is None:
                continue
            other, distance = hit
            if distance <= max(2.0, 0.3 * np.sqrt(min(areas[k], areas[other]))):
                seen[min(k, other), max(k, other)] += width / 2
    return dict(seen)


def _rays(piece: shapely.Polygon, step_mm: float):
    """Return the middles of short pieces of outline, the way straight out of each, and their lengths."""
    starts, ways, lengths = [], [], []
    piece = orient(piece)  # outer ring counter-clockwise, holes clockwise: glass on the left
    for ring in (piece.exterior, *piece.interiors):
        corners = np.array(ring.coords)
        for a, b in pairwise(corners):
            length = float(np.hypot(*(b - a)))
            count = max(1, int(np.ceil(length / step_mm)))
            t = (np.arange(count) + 0.5) / count
            starts.append(a + t[:, None] * (b - a))
            ways.append(np.tile(np.array([b[1] - a[1], a[0] - b[0]]) / length, (count, 1)))
            lengths.append(np.full(count, length / count))
    return np.concatenate(starts), np.concatenate(ways), np.concatenate(lengths)


def _first_hit(ray, place, way, own, pieces, tree):
    """Return (piece, distance) of what the ray meets first, if that is another piece that faces it."""
    hits = []
    for other in tree.query(ray, predicate="intersects"):
        points = shapely.get_coordinates(ray.intersection(pieces[other].boundary))
        hits += [(float((point - place) @ way), int(other), point) for point in points]
    if not hits:
        return None
    distance, other, point = min(hits, key=lambda hit: (hit[0], hit[1] == own))
    if other == own or not _faces(pieces[other], point, way):
        return None
    return other, distance


def _faces(piece: shapely.Polygon, point, way) -> bool:
    """Tell whether the outline at this point runs within 60° of square to the way it is looked at."""
    piece = orient(piece)
    best, cosine = np.inf, 1.0
    for ring in (piece.exterior, *piece.interiors):
        corners = np.array(ring.coords)
        along = np.diff(corners, axis=0)
        t = np.clip(((point - corners[:-1]) * along).sum(axis=1) / (along**2).sum(axis=1), 0, 1)
        far = np.hypot(*(corners[:-1] + t[:, None] * along - point).T)
        edge = int(np.argmin(far))
        if far[edge] < best:
            out = np.array([along[edge, 1], -along[edge, 0]]) / np.hypot(*along[edge])
            best, cosine = far[edge], float(out @ way)
    return cosine <= -0.5

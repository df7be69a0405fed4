"""An icon's dots: how much of each its strokes and shapes cover, so that edges are smooth at any size."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bench.screens.icons.drawings import GRID, STROKE

Floats = NDArray[np.floating[Any]]


def shapes(drawing: str) -> list[tuple[str, list[float]]]:
    """Return what a drawing is made of: each shape's letter and its numbers."""
    parts = [part.split() for part in drawing.split(";")]
    return [(letter, [float(number) for number in numbers]) for letter, *numbers in parts]


def covered(drawing: str, size_px: int) -> Floats:
    """Return how much of each dot a drawing covers, 0 to 1, the lowest row first. (size_px, size_px)

    Each part is reckoned only where it lies: a start has no time for the rest.
    """
    scale = size_px / GRID
    at = (np.arange(size_px, dtype=np.float32) + 0.5) / scale
    outside = np.full((size_px, size_px), np.inf, dtype=np.float32)
    for letter, numbers in _parts(drawing):
        left, low, right, high = _box(letter, numbers)
        rows = slice(max(0, int((low - 0.5) * scale)), int((high + 0.5) * scale) + 1)
        columns = slice(max(0, int((left - 0.5) * scale)), int((right + 0.5) * scale) + 1)
        there = outside[rows, columns]
        np.minimum(there, _OUTSIDE[letter](numbers, at[None, columns], at[rows, None]), out=there)
    return np.clip(0.5 - outside * scale, 0.0, 1.0)


def _parts(drawing: str) -> Iterator[tuple[str, list[float]]]:
    """Yield a drawing's shapes, lines taken apart into single stretches."""
    for letter, numbers in shapes(drawing):
        if letter in "LP":
            ends = numbers + numbers[:2] if letter == "P" else numbers
            for k in range(0, len(ends) - 2, 2):
                yield "L", ends[k : k + 4]
        else:
            yield letter, numbers


def _box(letter: str, numbers: list[float]) -> tuple[float, float, float, float]:
    """Return a box in which all of a part lies: left, low, right, high."""
    if letter in "OAD":
        x, y, reach = numbers[0], numbers[1], numbers[2] + STROKE / 2
        return x - reach, y - reach, x + reach, y + reach
    xs, ys, more = numbers[::2], numbers[1::2], STROKE / 2 if letter == "L" else 0.0
    return min(xs) - more, min(ys) - more, max(xs) + more, max(ys) + more


def _stretch(ends: list[float], x: Floats, y: Floats) -> Floats:
    x1, y1, x2, y2 = ends
    dx, dy, to_x, to_y = x2 - x1, y2 - y1, x - x1, y - y1
    along = np.minimum(np.maximum((to_x * dx + to_y * dy) / (dx * dx + dy * dy), 0.0), 1.0)
    return np.sqrt((to_x - along * dx) ** 2 + (to_y - along * dy) ** 2) - STROKE / 2


def _disc(numbers: list[float], x: Floats, y: Floats) -> Floats:
    cx, cy, radius = numbers
    return np.sqrt((x - cx) ** 2 + (y - cy) ** 2) - radius


def _ring(numbers: list[float], x: Floats, y: Floats) -> Floats:
    return np.abs(_disc(numbers, x, y)) - STROKE / 2


def _arc(numbers: list[float], x: Floats, y: Floats) -> Floats:
    cx, cy, radius, start_deg, end_deg = numbers
    on_it = (np.degrees(np.arctan2(y - cy, x - cx)) - start_deg) % 360 <= end_deg - start_deg
    away = np.where(on_it, _ring(numbers[:3], x, y), np.inf)
    for end in (math.radians(start_deg), math.radians(end_deg)):
        tip = [cx + radius * math.cos(end), cy + radius * math.sin(end), STROKE / 2]
        away = np.minimum(away, _disc(tip, x, y))
    return away


def _filled(corners: list[float], x: Floats, y: Floats) -> Floats:
    """Return how far each place lies outside a shape without dents, its corners against the clock."""
    ends = corners + corners[:2]
    away = np.full((y.size, x.size), -np.inf, dtype=np.float32)
    for k in range(0, len(corners), 2):
        x1, y1, x2, y2 = ends[k : k + 4]
        long = math.hypot(x2 - x1, y2 - y1)
        np.maximum(away, (x - x1) * ((y2 - y1) / long) - (y - y1) * ((x2 - x1) / long), out=away)
    return away


_OUTSIDE = {"L": _stretch, "O": _ring, "D": _disc, "A": _arc, "F": _filled}

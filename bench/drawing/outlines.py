"""Each kind of SVG shape → the sub-paths of its outline, in its own units."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache

from bench.drawing.flatten import TOLERANCE_MM
from bench.drawing.numbers import length_px, numbers
from bench.drawing.paths import Subpath, read_path

Whole = tuple[float, float]  # what 100 % is across and down
_ARC_HANDLE = 4 / 3 * math.tan(math.pi / 8)  # of a quarter circle drawn as one cubic


def outline_of(tag: str, look: Mapping[str, str], whole: Whole, stretch_mm: float) -> list[Subpath]:
    """Return a shape's sub-paths; none where it has no extent.

    `stretch_mm` is how many mm one of the shape's units may become; round shapes are cut finely enough
    for it. Raises Unreadable.
    """
    if tag == "path":
        return read_path(look.get("d", ""))
    if tag in ("polygon", "polyline"):
        return _poly(numbers(look.get("points", ""), "points"), closed=tag == "polygon")
    if tag == "rect":
        return _rect(look, whole)
    if tag in ("circle", "ellipse"):
        return _round(tag, look, whole, stretch_mm)
    return [Subpath([0.0, 0.0, 1.0, 0.0])] if tag == "line" else []


def _poly(values: list[float], *, closed: bool) -> list[Subpath]:
    """Return the outline through the points; an odd number at the end is dropped, as SVG says."""
    values = values[: len(values) // 2 * 2]
    return [Subpath(values, closed=closed)] if len(values) > 2 else []


def _length(look: Mapping[str, str], key: str, whole_px: float) -> float | None:
    text = look.get(key, "").strip()
    return None if text in ("", "auto") else length_px(text, key, whole_px)


def _radii(look: Mapping[str, str], whole: Whole) -> tuple[float, float]:
    """Return rx and ry; one that is not given is as great as the other."""
    rx, ry = _length(look, "rx", whole[0]), _length(look, "ry", whole[1])
    return (rx if rx is not None else ry or 0.0), (ry if ry is not None else rx or 0.0)


def _rect(look: Mapping[str, str], whole: Whole) -> list[Subpath]:
    x, y = (_length(look, key, size) or 0.0 for key, size in zip("xy", whole, strict=True))
    w, h = (_length(look, key, size) or 0.0 for key, size in zip(("width", "height"), whole, strict=True))
    if not (w > 0 and h > 0):
        return []
    rx, ry = _radii(look, whole)
    if not (rx > 0 and ry > 0):
        return [Subpath([x, y, x + w, y, x + w, y + h, x, y + h], closed=True)]
    return [_rounded(x, y, w, h, min(rx, w / 2), min(ry, h / 2))]


def _rounded(x: float, y: float, w: float, h: float, rx: float, ry: float) -> Subpath:
    kx, ky = rx * (1 - _ARC_HANDLE), ry * (1 - _ARC_HANDLE)
    right, low = x + w, y + h
    stroke = Subpath([x + rx, y, right - rx, y], closed=True)
    stroke.cubic_to(right - kx, y, right, y + ky, right, y + ry)
    stroke.flat += (right, low - ry)
    stroke.cubic_to(right, low - ky, right - kx, low, right - rx, low)
    stroke.flat += (x + rx, low)
    stroke.cubic_to(x + kx, low, x, low - ky, x, low - ry)
    stroke.flat += (x, y + ry)
    stroke.cubic_to(x, y + ky, x + kx, y, x + rx, y)
    return stroke


def _round(tag: str, look: Mapping[str, str], whole: Whole, stretch_mm: float) -> list[Subpath]:
    cx, cy = (_length(look, key, size) or 0.0 for key, size in zip(("cx", "cy"), whole, strict=True))
    if tag == "circle":
        rx = ry = _length(look, "r", math.hypot(*whole) / math.sqrt(2)) or 0.0
    else:
        rx, ry = _radii(look, whole)
    if not (rx > 0 and ry > 0):
        return []
    corners = math.ceil(math.pi * math.sqrt(max(rx, ry) * stretch_mm / (3 * TOLERANCE_MM)) / 4) * 4
    flat: list[float] = []
    for cos, sin in _unit_polygon(min(max(corners, 24), 2000)):
        flat += (cx + rx * cos, cy + ry * sin)
    return [Subpath(flat, closed=True)]


@lru_cache(maxsize=64)
def _unit_polygon(corners: int) -> tuple[tuple[float, float], ...]:
    """Return the regular polygon that has the area of the unit circle.

    Its corners stand π²/3n² of the radius outside, its sides half as much inside.
    """
    turn = 2 * math.pi / corners
    radius = math.sqrt(turn / math.sin(turn))
    return tuple((radius * math.cos(k * turn), radius * math.sin(k * turn)) for k in range(corners))

"""Which way rows run in an area, and where in its rows the first pieces lie."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.panel import FloatArray
from bench.drawing.study.model import Flow
from bench.drawing.trace import traced

Mask = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Rows:
    """angle_rad: (rows, columns) the way of the row at each pixel, from x towards y.
    depth: (rows, columns) how far each pixel of the area lies from its contour, 0 outside. [px]
    """

    angle_rad: FloatArray
    depth: FloatArray


def rows_in(mask: Mask, flow: Flow, across_px: float, *, square: bool) -> Rows:
    """Return how rows run in an area, (rows, columns), with nothing of it on the grid's own edge.

    Along the contour: at right angles to the slope of the distance from it, evened over half a piece; for
    square pieces a row and its own right angle are the same, so that rows meet in a mitre.
    """
    from scipy.ndimage import distance_transform_edt, gaussian_filter

    depth: FloatArray = distance_transform_edt(mask)
    if flow.kind != "contour":
        turn = np.radians(flow.angle_deg) if flow.kind == "straight" else 0.0
        return Rows(np.full(mask.shape, turn), depth)
    soft = gaussian_filter(depth, across_px / 4)
    down, right = np.gradient(soft)
    folds = 4 if square else 2
    slope = np.hypot(right, down)
    turn = np.arctan2(down, right) + np.pi / 2
    way = slope * np.exp(1j * folds * turn)
    for part in (way.real, way.imag):
        gaussian_filter(np.where(mask, part, 0.0), across_px / 2, output=part)
    return Rows(np.angle(way) / folds, depth)


def first_places(
    mask: Mask, rows: Rows, flow: Flow, pitch_px: tuple[float, float], rng: np.random.Generator
) -> FloatArray:
    """Return where the middles of pieces lie at first, (s, 2) x and y. [px]

    pitch_px: along and across the row. Along the contour: evenly on the lines at ½, 1½, 2½ … pieces from
    it. Straight: in rows, every other one shifted by half a piece. Loose: in rows, each piece somewhere
    near. At least one, where the area is deepest.
    """
    if flow.kind == "contour":
        found: FloatArray = _along_contours(rows.depth, pitch_px, rng)
    else:
        found = _lattice(mask.shape, flow, pitch_px, rng)
    x, y = np.floor(found).astype(int).T
    inside = (x >= 0) & (y >= 0) & (x < mask.shape[1]) & (y < mask.shape[0])
    found, x, y = found[inside], x[inside], y[inside]
    found = found[mask[y, x]]
    if found.size:
        return found
    deepest = np.unravel_index(int(np.argmax(rows.depth)), mask.shape)
    return np.array([[deepest[1] + 0.5, deepest[0] + 0.5]])


def _along_contours(depth: FloatArray, pitch_px: tuple[float, float], rng: np.random.Generator) -> FloatArray:
    along, across = pitch_px
    places = []
    for level in np.arange(0.5, depth.max() / across + 0.5) * across:
        outlines, _ = traced((depth > level).astype(np.int32), mm_per_px=1.0, tolerance_mm=0.5)
        for first, last in zip(outlines.start[:-1], outlines.start[1:], strict=True):
            places.append(_evenly(outlines.points_mm[first:last], along, rng.random()))
    return _apart(np.concatenate(places), 0.6 * min(pitch_px)) if places else np.empty((0, 2))


def _apart(places: FloatArray, least: float) -> FloatArray:
    """Return the places, two that lie nearer than `least` as one between them: where rows meet head on."""
    from scipy.spatial import cKDTree

    pairs = cKDTree(places).query_pairs(least, output_type="ndarray")
    far = np.hypot(*(places[pairs[:, 0]] - places[pairs[:, 1]]).T)
    taken = np.zeros(len(places), bool)
    gone = np.zeros(len(places), bool)
    out = places.copy()
    for i, j in pairs[np.argsort(far, kind="stable")].tolist():
        if not (taken[i] or taken[j]):
            taken[[i, j]] = True
            out[i] = (places[i] + places[j]) / 2
            gone[j] = True
    return out[~gone]


def _evenly(ring: FloatArray, step: float, shift: float) -> FloatArray:
    """Return places along a closed line, as near to `step` apart as fits its length."""
    closed = np.concatenate([ring, ring[:1]])
    run = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    count = max(1, round(run[-1] / step))
    at = (np.arange(count) + shift) * run[-1] / count
    return np.stack([np.interp(at, run, closed[:, k]) for k in (0, 1)], axis=1)


def _lattice(
    shape: tuple[int, ...], flow: Flow, pitch_px: tuple[float, float], rng: np.random.Generator
) -> FloatArray:
    along, across = pitch_px
    middle = np.array(shape[::-1]) / 2
    reach = float(np.hypot(*middle)) + max(pitch_px)
    v = np.arange(-reach, reach, across) + across * rng.random()
    u = np.arange(-reach, reach, along)
    shift = along * (rng.random() + 0.5 * (np.arange(len(v)) % 2))
    places = np.stack(
        [(u[None, :] + shift[:, None]).ravel(), np.broadcast_to(v[:, None], (len(v), len(u))).ravel()], axis=1
    )
    if flow.kind == "loose":
        return np.asarray(middle + places + rng.uniform(-0.35, 0.35, places.shape) * pitch_px)
    turn = np.radians(flow.angle_deg)
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    found: FloatArray = middle + places @ spin
    return found

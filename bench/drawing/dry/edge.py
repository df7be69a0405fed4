"""The edge of what is already set, in a photo squared up: where glass ends and bare board begins.

Near where the drawing has the edge, each spot is told work or bare by its colour: how often a like colour
stands where there surely is work, against where the board is surely bare (a likelihood ratio of two smoothed
histograms in CIELAB). Joints are closed, specks left out, and the outline of what remains is the edge.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.dry.faults import NoEdgeFound
from bench.drawing.dry.frame import Frame
from bench.drawing.panel import FloatArray, Panel
from bench.drawing.photo.read import Picture
from bench.drawing.trace import traced

REACH_MM = 10.0  # the edge lies no farther from where it is drawn
SURE_MM = 3.0  # within what is drawn as set there surely is work; beyond the reach there surely is none
JOINT_MM = 2.5  # and narrower gaps belong to the work
LEAST_MM2, LEAST_LINE_MM = 20.0, 6.0
BORDER_MM = 1.5  # of the photo and the panel: an edge there is no edge of the work
_STEP_MM, _MOST_PX = 0.3, 2_000_000
_BIN, _SMOOTH_BINS, _SMOOTH_MM = 5.0, 1.0, 0.35
_LEAST_SPOTS = 200
_MOST_SCORE = 3.0  # so that one sure spot does not outweigh those around it

Bools = NDArray[np.bool_]


def edge_lines(
    picture: Picture, frame: Frame, panel: Panel, tesserae: NDArray[np.integer]
) -> tuple[FloatArray, ...]:
    """Return the edge of what is set as lines on the panel, each (points, 2), the longest first. [mm]

    picture: squared up, of the frame. tesserae: those that are set. Raises NoEdgeFound where the photo shows
    nothing of them, or no bare board beside them.
    """
    from scipy.ndimage import distance_transform_edt

    pixels, step_mm = _coarse(picture, frame)
    left = np.setdiff1d(np.arange(panel.tessera_count), tesserae)
    drawn, still = (_drawn(panel, some, frame, pixels.shape[:2], step_mm) for some in (tesserae, left))
    if not drawn.any() or not still.any():
        raise NoEdgeFound(picture.name)
    to_work, to_bare = (distance_transform_edt(~mask) * step_mm for mask in (drawn, still))
    work, bare = drawn & (to_bare > SURE_MM), still & (to_work > REACH_MM)
    if work.sum() < _LEAST_SPOTS or bare.sum() < _LEAST_SPOTS:
        raise NoEdgeFound(picture.name)
    band = (to_bare <= REACH_MM) & (to_work <= REACH_MM)
    said = _likelier_work(srgb_to_lab(pixels), work, bare, step_mm)
    found = _closed(np.where(band, said, to_work < to_bare), step_mm)
    rings, _ = traced(found.astype(np.int32), mm_per_px=step_mm, tolerance_mm=step_mm)
    parts = (rings.points_mm[a:b] for a, b in zip(rings.start, rings.start[1:], strict=False))
    lines = [line for ring in parts for line in _open(ring, frame, panel)]
    if not lines:
        raise NoEdgeFound(picture.name)
    return tuple(sorted(lines, key=lambda line: -_length_mm(line)))


def _coarse(picture: Picture, frame: Frame) -> tuple[NDArray[np.uint8], float]:
    """Return the photo with square pixels of a few tenths of a mm."""
    from PIL import Image

    step_mm = max(_STEP_MM, float(np.sqrt(frame.width_mm * frame.height_mm / _MOST_PX)))
    size = (max(2, round(frame.width_mm / step_mm)), max(2, round(frame.height_mm / step_mm)))
    small = Image.fromarray(picture.pixels).resize(size, Image.Resampling.BOX)
    return np.asarray(small, np.uint8), frame.width_mm / size[0]


def _drawn(
    panel: Panel, tesserae: NDArray[np.integer], frame: Frame, shape: tuple[int, int], step_mm: float
) -> Bools:
    """Return where the drawing has these pieces, joints between them included."""
    from PIL import Image, ImageDraw

    mask = Image.new("1", (shape[1], shape[0]))
    draw = ImageDraw.Draw(mask)
    for k in tesserae.tolist():
        ring = frame.in_photo(panel.rings_mm(k)[0]) / step_mm
        draw.polygon([(float(x), float(y)) for x, y in ring], fill=1)
    return _closed(np.asarray(mask), step_mm)


def _closed(mask: Bools, step_mm: float) -> Bools:
    """Close joints, and leave out specks and small holes."""
    from scipy.ndimage import distance_transform_edt

    half = JOINT_MM / 2 / step_mm
    wide = np.pad(mask, int(half) + 2)  # so that closing does not end at the photo's border
    grown = distance_transform_edt(~wide) <= half
    closed = distance_transform_edt(grown) > half
    back = int(half) + 2
    found = closed[back:-back, back:-back] | mask
    least_px = LEAST_MM2 / step_mm**2
    return ~_large(~_large(found, least_px), least_px)


def _large(mask: Bools, least_px: float) -> Bools:
    from scipy.ndimage import label

    parts, count = label(mask)
    sizes = np.bincount(parts.ravel(), minlength=count + 1)
    sizes[0] = 0
    return np.asarray(sizes[parts] >= least_px)


def _likelier_work(lab: FloatArray, work: Bools, bare: Bools, step_mm: float) -> Bools:
    """Return where the colour is likelier that of work than that of bare board, a little smoothed."""
    from scipy.ndimage import gaussian_filter

    low = np.array([0.0, -100.0, -100.0])
    counts = np.array([100.0, 200.0, 200.0]) / _BIN
    place = np.clip((lab - low) / _BIN, 0, counts - 1).astype(np.intp)
    flat = np.ravel_multi_index(tuple(np.moveaxis(place, -1, 0)), tuple(counts.astype(int)))
    shares = []
    for sample in (work, bare):
        counted = np.bincount(flat[sample], minlength=int(counts.prod())).reshape(counts.astype(int))
        share = gaussian_filter(counted / sample.sum(), _SMOOTH_BINS)
        shares.append(np.log(share.ravel() + 1e-6))
    score = np.clip(shares[0] - shares[1], -_MOST_SCORE, _MOST_SCORE)[flat]
    return np.asarray(gaussian_filter(score, _SMOOTH_MM / step_mm) > 0)


def _open(ring: FloatArray, frame: Frame, panel: Panel) -> list[FloatArray]:
    """Return the stretches of an outline that lie off the borders of photo and panel, on the panel. [mm]"""
    closed = _dense(np.vstack([ring, ring[:1]]))
    here = frame.on_panel(closed)
    off = _within(here, panel.width_mm, panel.height_mm) & _within(closed, frame.width_mm, frame.height_mm)
    if off.all():
        return [here] if _length_mm(here) >= LEAST_LINE_MM else []
    first = int(np.argmin(off))  # begin on the border, so that no stretch is cut where the ring begins
    turned, kept = np.roll(here[:-1], -first, axis=0), np.roll(off[:-1], -first)
    runs = np.flatnonzero(np.diff(np.concatenate([[False], kept, [False]]).astype(np.int8)))
    lines = [turned[a:b] for a, b in zip(runs[::2], runs[1::2], strict=True)]
    return [line for line in lines if len(line) > 1 and _length_mm(line) >= LEAST_LINE_MM]


def _within(points: FloatArray, width_mm: float, height_mm: float) -> Bools:
    size = np.array([width_mm, height_mm]) - BORDER_MM
    return np.asarray(((points > BORDER_MM) & (points < size)).all(axis=1))


def _dense(line: FloatArray, step_mm: float = 1.0) -> FloatArray:
    """Return a line with a point at least every so many mm."""
    parts = [line[:1]]
    for a, b in pairwise(line):
        count = max(1, int(np.ceil(float(np.hypot(*(b - a))) / step_mm)))
        parts.append(a + (b - a) * (np.arange(1, count + 1) / count)[:, None])
    return np.concatenate(parts)


def _length_mm(line: FloatArray) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())

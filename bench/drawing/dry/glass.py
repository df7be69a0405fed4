"""Glass told from ground by its colour, and from other glass by the joint between them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.dry.ground import Ground
from bench.drawing.dry.split import parted
from bench.drawing.panel import FloatArray

Bools = NDArray[np.bool_]
Labels = NDArray[np.int32]

WIDEST_JOINT_MM = 2.0
LEAST_WIDTH_MM = 1.2  # of a piece, at its widest place
_LINE_MM = 0.8  # pencil lines are thinner
_LEAST_APART, _NOISES = 5.0, 4.0  # CIELAB: colour that is not the ground's
_PENCIL_MM, _PENCIL = 1.2, 0.2  # a line so narrow that is darker by that share than both its sides parts them
_PENCIL_L = 10.0  # and by so much: the grain of dark glass is no line
_LINE_SHARE = 0.12  # of its area that the widest circle in a piece has at least: less is a line
_DIP = 0.4  # of the difference to both sides: where it falls so far, a joint runs
_HALF = 0.45  # of a piece's own difference: its edge lies there
_RIM_MM = 0.3  # along the edge of a piece, where joints were seen too wide


def apart(lab: FloatArray, ground: Ground) -> FloatArray:
    """Return how far each pixel is from the ground in CIELAB (ΔE*ab of 1976), (rows, columns)."""
    off: FloatArray = np.sqrt(((lab - ground.lab) ** 2).sum(axis=-1))
    return off


def coloured_pieces(lab: FloatArray, ground: Ground, mm_per_px: float, least_mm2: float) -> Labels:
    """Return the pieces that differ from the ground, 1 … n.

    Glass is what differs by more than the ground's own noise, but for joints: where the difference dips
    between two sides no farther apart than a joint is wide (the black top-hat: Meyer 1979), or a dark line
    runs between lighter sides. Lines as thin as pencil on bare ground are opened away, glints within a piece
    filled. Each piece's edge then lies half-way to its own colour, so that neither its shadow nor the lens's
    blur counts as glass.
    """
    from scipy.ndimage import binary_opening, grey_closing

    off = apart(lab, ground)
    least = max(_LEAST_APART, _NOISES * ground.noise)
    sides = grey_closing(np.minimum(off, 60.0), _square(WIDEST_JOINT_MM, mm_per_px))
    lighter = grey_closing(lab[..., 0], _square(_PENCIL_MM, mm_per_px))
    pencil = lab[..., 0] < np.minimum((1 - _PENCIL) * lighter, lighter - _PENCIL_L)
    joint = (off < (1 - _DIP) * sides) | pencil
    glass = (off > least) & ~joint
    glass = binary_opening(glass, disc(_LINE_MM / 2 / mm_per_px))
    glass = _filled(glass, least_mm2 / mm_per_px**2)
    labels = parted(glass, LEAST_WIDTH_MM / 2 / mm_per_px)
    labels = _edged_half_way(labels, lab, off, _RIM_MM / mm_per_px)
    return kept(_no_lines(labels), least_mm2 / mm_per_px**2)


def _edged_half_way(labels: Labels, lab: FloatArray, off: FloatArray, rim_px: float) -> Labels:
    """Return the pieces without what differs less than half as much as they do, and with what lies along
    their rim and is liker to them than to the ground."""
    from scipy.ndimage import distance_transform_edt, median

    count = int(labels.max(initial=0))
    if not count:
        return labels
    which = np.arange(1, count + 1)
    colour = [np.append(0.0, median(lab[..., k], labels, which)) for k in range(3)]
    half = _HALF * np.append(0.0, median(off, labels, which))
    outside, (row, column) = distance_transform_edt(labels == 0, return_indices=True)
    nearest = labels[row, column]
    like = sum((lab[..., k] - colour[k][nearest]) ** 2 for k in range(3)) < off**2
    of_piece = (off >= half[nearest]) & ((labels > 0) | (like & (outside <= rim_px)))
    return np.where(of_piece, nearest, 0).astype(np.int32)


def _no_lines(labels: Labels) -> Labels:
    """Drop what is as thin as a line for its length: shadows, shaded joints."""
    from scipy.ndimage import distance_transform_edt

    area = np.bincount(labels.ravel())
    wide = np.zeros(len(area))
    np.maximum.at(wide, labels.ravel(), distance_transform_edt(labels > 0).ravel())
    return np.where((np.pi * wide**2 >= _LINE_SHARE * area)[labels], labels, 0)


def _square(wide_mm: float, mm_per_px: float) -> tuple[int, int]:
    size = 2 * max(1, round(wide_mm / 2 / mm_per_px)) + 1
    return size, size


def kept(labels: Labels, least_px: float) -> Labels:
    """Return the labels that cover at least so many pixels, numbered 1 … n in their order."""
    counts = np.bincount(labels.ravel())
    keep = counts >= max(1.0, least_px)
    keep[0] = False
    number = np.where(keep, np.cumsum(keep), 0).astype(np.int32)
    return number[labels]


def _filled(glass: Bools, least_px: float) -> Bools:
    """Return the mask with its holes filled that are too small to be bare ground."""
    from scipy.ndimage import label

    hole, _ = label(~glass)
    return np.asarray(glass | ((kept(hole, 2 * least_px) == 0) & ~glass))


def disc(radius_px: float) -> Bools:
    """Return a round structuring element."""
    reach = max(1, int(radius_px))
    y, x = np.mgrid[-reach : reach + 1, -reach : reach + 1]
    round_: Bools = x * x + y * y <= max(radius_px, 1.0) ** 2 + 0.25
    return round_

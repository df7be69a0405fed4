"""Glass that has nearly the ground's colour, clear or white on white, told by the edges around it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.dry.glass import LEAST_WIDTH_MM, disc, kept
from bench.drawing.dry.ground import Ground
from bench.drawing.panel import FloatArray

Bools = NDArray[np.bool_]
Labels = NDArray[np.int32]

_EDGE = 2.5  # CIELAB a tenth of a millimetre: a visible edge
_MOSTLY = 0.7  # covered by one known piece: nothing more to find
_STEEP_MM = 3.0  # how far off the light may be placed
_UNLIKE, _FAINT = 2.5, 14.0  # CIELAB from the ground: less is ground itself, more was found by its colour


def edged_pieces(
    lab: FloatArray, ground: Ground, taken: Labels, mm_per_px: float, least_mm2: float
) -> Labels:
    """Return the pieces that hardly differ from the ground, but that edges go around, 1 … n.

    Edges are where colour changes within a tenth of a millimetre. What they cut off from all ground, wider
    than any joint, is glass if its mean is not that of ground: a gap between pencil lines is ground itself.
    taken: what is known to be glass; where one piece of that covers most of it there is nothing to find.
    """
    from scipy.ndimage import binary_opening, gaussian_gradient_magnitude, label

    sigma = max(0.8, 0.12 / mm_per_px)
    slope = np.sqrt(sum(gaussian_gradient_magnitude(lab[..., k], sigma) ** 2 for k in range(3)))
    edge = slope * 0.1 / mm_per_px > max(_EDGE, 1.5 * ground.noise)
    cell, count = label(binary_opening(~edge, disc(LEAST_WIDTH_MM / 2 / mm_per_px)))
    if not count:
        return np.zeros(taken.shape, np.int32)
    glass = _unlike(lab, ground, cell, count, mm_per_px) & (_covered(cell, taken, count) < _MOSTLY)
    glass[np.unique(np.concatenate([cell[0], cell[-1], cell[:, 0], cell[:, -1]]))] = False
    found = kept(np.where(glass[cell], cell, 0), least_mm2 / mm_per_px**2 / 2)
    return _grown(found, round(0.3 / mm_per_px))


def _unlike(lab: FloatArray, ground: Ground, cell: Labels, count: int, mm_per_px: float) -> Bools:
    """Tell of each cell whether its mean is not that of ground, yet near to it, (count + 1,).

    Where the light changes fast, at the edge of a shadow, it must be off by more.
    """
    from scipy.ndimage import mean

    which, off = np.arange(1, count + 1), lab - ground.lab
    far = np.sqrt(sum(np.square(mean(off[..., k], cell, which)) for k in range(3)))
    steep = np.hypot(*np.gradient(ground.lab[..., 0])) / mm_per_px
    return np.append(False, (far > _UNLIKE + _STEEP_MM * mean(steep, cell, which)) & (far < _FAINT))


def _covered(cell: Labels, taken: Labels, count: int) -> FloatArray:
    """Return how much of each cell the one piece covers that covers most of it, (count + 1,)."""
    both = (cell > 0) & (taken > 0)
    pair, pixels = np.unique(np.stack([cell[both], taken[both]]), axis=1, return_counts=True)
    most = np.zeros(count + 1)
    np.maximum.at(most, pair[0], pixels)
    return most / np.maximum(np.bincount(cell.ravel(), minlength=count + 1), 1)


def _grown(labels: Labels, steps: int) -> Labels:
    """Return the labels grown into what lies around them, by so many pixels."""
    from scipy.ndimage import distance_transform_edt

    far, (row, column) = distance_transform_edt(labels == 0, return_indices=True)
    return np.where(far <= steps, labels[row, column], 0).astype(np.int32)


def together(coloured: Labels, edged: Labels) -> Labels:
    """Return both as one: what edges go around takes the place of fragments that lie mostly within it."""
    count = int(coloured.max(initial=0))
    area = np.maximum(np.bincount(coloured.ravel(), minlength=count + 1), 1)
    within = np.bincount(coloured[edged > 0], minlength=count + 1) / area
    stays = within < 0.5
    stays[0] = False
    labels = np.where(stays[coloured], coloured, 0)
    return np.where((labels == 0) & (edged > 0), edged + count, labels).astype(np.int32)

"""A photo of pieces laid dry, squared up → how many there are, and what each covers."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.dry.edged import edged_pieces, together
from bench.drawing.dry.faults import PhotoTooCoarse
from bench.drawing.dry.glass import coloured_pieces, kept
from bench.drawing.dry.ground import ground_of
from bench.drawing.panel import FloatArray
from bench.drawing.photo.read import Picture
from bench.drawing.rings import Counts, Rings
from bench.drawing.trace import traced

FINEST_PX_PER_MM = 8.0  # a joint of half a millimetre is then four pixels wide
MOST_LOOKED_AT_PX = 2_500_000
COARSEST_MM = 0.3  # of a pixel
LEAST_MM2 = 2.0

Labels = NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class Found:
    """Pieces in a photo; x right, y down from its top left.

    labels: (rows, columns) 0 ground, 1 … count the pieces. by_edges: (count,) those that have the colour of
    the ground and were found by their edges alone: clear glass, white on white.
    """

    labels: Labels
    mm_per_px: float
    by_edges: NDArray[np.bool_]
    name: str = ""

    @property
    def count(self) -> int:
        return len(self.by_edges)

    @property
    def size_mm(self) -> tuple[float, float]:
        rows, columns = self.labels.shape
        return columns * self.mm_per_px, rows * self.mm_per_px

    def area_mm2(self) -> FloatArray:
        """Return what each piece covers, (count,). [mm²]"""
        counts = np.bincount(self.labels.ravel(), minlength=self.count + 1)[1:]
        return np.asarray(counts, np.float64) * self.mm_per_px**2

    def centroid_mm(self) -> FloatArray:
        """Return the centroid of each piece, (count, 2). [mm]"""
        flat = self.labels.ravel()
        counts = np.maximum(np.bincount(flat, minlength=self.count + 1), 1)
        rows, columns = self.labels.shape
        x = np.bincount(flat, np.tile(np.arange(columns), rows), self.count + 1) / counts
        y = np.bincount(flat, np.repeat(np.arange(rows), columns), self.count + 1) / counts
        return np.stack([x, y], axis=1)[1:] * self.mm_per_px + self.mm_per_px / 2

    def outlines(self) -> tuple[Rings, Counts]:
        """Return the outlines in mm and the piece of each, from 0, sorted."""
        return traced(self.labels, mm_per_px=self.mm_per_px, tolerance_mm=1.5 * self.mm_per_px)

    def piece_at(self, x_mm: float, y_mm: float, slack_mm: float = 0.0) -> int:
        """Return the label of the piece at a place, or of the nearest one within the slack; 0 for none."""
        rows, columns = self.labels.shape
        x, y, reach = x_mm / self.mm_per_px, y_mm / self.mm_per_px, slack_mm / self.mm_per_px
        left, right = max(0, int(x - reach)), min(columns, int(x + reach) + 1)
        top, low = max(0, int(y - reach)), min(rows, int(y + reach) + 1)
        seen = self.labels[top:low, left:right]
        v, u = np.nonzero(seen)
        if not len(v):
            return 0
        far = (u + left + 0.5 - x) ** 2 + (v + top + 0.5 - y) ** 2
        best = int(np.argmin(far))
        return int(seen[v[best], u[best]]) if far[best] <= max(reach, 1.0) ** 2 else 0


def found_pieces(picture: Picture, *, least_mm2: float = LEAST_MM2) -> Found:
    """Return the pieces of glass in a photo taken from straight above, with mm_per_px known.

    Ground is paper under film, most of it bare along the picture's edge; joints are 0.5 to 2 mm wide. What
    covers less than least_mm2 is a speck. Clear glass, and white glass on white paper, is found only where
    its edges show and it is a shade off the paper; what is missed is added by hand.
    Raises PhotoTooCoarse where a joint would be no wider than two pixels.
    """
    mm_per_px = picture.mm_per_px
    if mm_per_px is None or mm_per_px > COARSEST_MM:
        raise PhotoTooCoarse(picture.name, mm_per_px or math.inf, COARSEST_MM)
    pixels, mm_per_px = _seen(picture, mm_per_px)
    lab = srgb_to_lab(pixels)
    ground = ground_of(lab, mm_per_px)
    coloured = coloured_pieces(lab, ground, mm_per_px, least_mm2)
    edged = edged_pieces(lab, ground, coloured, mm_per_px, least_mm2)
    labels = together(coloured, edged)
    by_edges = np.arange(int(labels.max(initial=0))) >= int(coloured.max(initial=0))
    return numbered(labels, Found(labels, mm_per_px, by_edges, picture.name), least_mm2 / mm_per_px**2)


def numbered(labels: Labels, found: Found, least_px: float = 1.0) -> Found:
    """Return what was found with other labels, numbered anew; a label beyond the old ones is a new piece."""
    was = np.concatenate([found.by_edges, np.zeros(int(labels.max(initial=0)), bool)])
    counts = np.bincount(labels.ravel())
    used = np.flatnonzero(counts[1:] >= max(1.0, least_px))
    return Found(kept(labels, least_px), found.mm_per_px, was[used], found.name)


def _seen(picture: Picture, mm_per_px: float) -> tuple[NDArray[np.uint8], float]:
    """Return the pixels as finely as they are looked at, a little of the sensor's grain smoothed away."""
    from PIL import Image, ImageFilter

    rows, columns = picture.pixels.shape[:2]
    shrink = max(1.0, 1 / (FINEST_PX_PER_MM * mm_per_px), math.sqrt(rows * columns / MOST_LOOKED_AT_PX))
    image = Image.fromarray(picture.pixels)
    if shrink > 1:
        size = (max(16, round(columns / shrink)), max(16, round(rows / shrink)))
        image = image.resize(size, Image.Resampling.BOX)
    image = image.filter(ImageFilter.GaussianBlur(0.08 * image.size[0] / (columns * mm_per_px)))
    return np.asarray(image, np.uint8), columns * mm_per_px / image.size[0]

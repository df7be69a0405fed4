"""A squared-up picture of a painted study → regions, each with the mix of glass its paint asks for."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from bench.drawing.colour import srgb_to_lab
from bench.drawing.colour_words import colour_words
from bench.drawing.names import unique_names
from bench.drawing.panel import FloatArray
from bench.drawing.photo import Picture
from bench.drawing.study.colours import mix_of
from bench.drawing.study.contours import drawn_smooth
from bench.drawing.study.faults import OneColour
from bench.drawing.study.model import Region, Study, edge_mm
from bench.drawing.study.patches import IntGrid, Patches, patches_of

LONG_SIDE_PX = 480  # finer, brush marks become areas; coarser, a stem of 2 mm in a foot is lost
MOST_REGIONS = 400
_SMOOTH = 0.2  # of a piece: what wanders less than that no piece can follow
_LEAST_PIECES = 0.5  # a scrap of a region smaller than half a piece is none
_FLAT_DELTA = 2.0  # of colour: below, paper and scanner differ more than any paint


class Proposal:
    """A painted study at hand: its picture on the study's grid, and the tree that regions are cut from."""

    def __init__(
        self, pixels: NDArray[np.uint8], patches: Patches, size_mm: tuple[float, float], name: str
    ) -> None:
        self.pixels, self.patches, self.size_mm, self.name = pixels, patches, size_mm, name
        self.lab: FloatArray = srgb_to_lab(pixels)
        self.count = patches.proposed()

    def study(self, count: int | None = None, *, piece_mm: float = 6.0) -> Study:
        """Return the study in so many regions, the largest first; as many as proposed for None."""
        labels = self.patches.regions(min(count or self.count, MOST_REGIONS))
        piece_px = piece_mm / edge_mm(self.size_mm, labels.shape)
        labels = drawn_smooth(labels, _SMOOTH * piece_px, _LEAST_PIECES * piece_px**2)
        used = np.bincount(labels.ravel()) > 0  # a region may be smoothed away
        labels = (np.cumsum(used) - 1).astype(np.int32)[labels]
        regions = [self.region(labels == k, piece_mm) for k in range(int(labels.max()) + 1)]
        names = unique_names([region.name for region in regions])
        named = tuple(r.model_copy(update={"name": n}) for r, n in zip(regions, names, strict=True))
        return Study((labels + 1).astype(np.int32), self.size_mm, named, name=self.name)

    def region(self, members: NDArray[np.bool_], piece_mm: float) -> Region:
        """Return how some pixels (rows, columns) are to be laid, named for their colour."""
        mix = mix_of(self.lab[members])
        return Region(name=colour_words(mix[0].colour), piece_mm=piece_mm, mix=mix)


def propose(picture: Picture, size_mm: tuple[float, float], seed: int = 0) -> Proposal:
    """Return what a squared-up picture shows; size_mm: its true width and height. Raises OneColour."""
    from PIL import Image

    high, wide = picture.pixels.shape[:2]
    scale = min(1.0, LONG_SIDE_PX / max(high, wide))
    size = (max(1, round(wide * scale)), max(1, round(high * scale)))
    small = np.asarray(Image.fromarray(picture.pixels).resize(size, Image.Resampling.BOX), np.uint8)
    patches = patches_of(small, edge_mm(size_mm, small.shape), seed)
    if patches.leaves < 2 or _flat(srgb_to_lab(small), patches.regions(2)):
        raise OneColour(picture.name)
    return Proposal(small, patches, size_mm, picture.name)


def _flat(lab: FloatArray, halves: IntGrid) -> bool:
    one, other = (np.median(lab[halves == k], axis=0) for k in (0, 1))
    return float(np.hypot.reduce(one - other)) < _FLAT_DELTA

"""A trial lay → the panel it makes: each piece with straight sides, a joint between it and the next."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from bench.drawing.built import Pieces, panel_of
from bench.drawing.colour import srgb_to_lab
from bench.drawing.inset import inset
from bench.drawing.lay.areas import pitch_mm
from bench.drawing.lay.glassed import glass_of
from bench.drawing.lay.laid import IntGrid, Lay
from bench.drawing.panel import GLASS_KINDS, FloatArray, LeftOut, Panel
from bench.drawing.photo import Picture
from bench.drawing.rings import Counts, Rings
from bench.drawing.study.model import pixel_mm
from bench.drawing.trace import traced
from bench.speech import say

_SMOOTH_PX = 0.75  # of the outline of all
# Of the smallest pitch: a side along a contour keeps to it so nearly; one between two pieces of an area is
# cut straight where that moves it by no more.
_TRUE, _STRAIGHT = 0.06, 0.2


def panel_of_lay(lay: Lay, paint: Picture | None = None) -> Panel:
    """Return the panel that a lay makes.

    Each piece is cut from a glass of its region's mix, in the shares asked for; where the paint is given,
    the lighter ones lie where it is lighter. A region is a group of the drawing. Pieces that the joint
    leaves nothing of are left out, and counted. Raises NoTesserae where that is all of them.
    """
    least_mm = min(min(pitch_mm(lay.regions[k], lay.joint_mm)) for k in np.unique(lay.of_piece).tolist())
    area_of = np.zeros(lay.piece_count + 1, np.int32)
    area_of[lay.cell.ravel()] = lay.area.ravel()
    least_px = least_mm / lay.mm_per_px
    rings, owner = _outlines(lay.cell, lay.size_mm, _TRUE * least_px, area_of, _STRAIGHT * least_px)
    rings, owner = inset(rings, owner, lay.joint_mm / 2)
    pieces = _pieces(lay, rings, owner, paint)
    gone = lay.piece_count - len(pieces.colour)
    left_out = (LeftOut("sliver", gone, say("the joint leaves nothing of it")),) if gone else ()
    return panel_of(pieces, lay.size_mm, lay.name, outline_mm=_outline_mm(lay), left_out=left_out)


def _pieces(lay: Lay, rings: Rings, owner: Counts, paint: Picture | None) -> Pieces:
    """Return the pieces with what each is cut from, those of a group together."""
    kept, owner = np.unique(owner, return_inverse=True)
    names = tuple(dict.fromkeys(lay.regions[k].name for k in np.unique(lay.of_piece[kept]).tolist()))
    of_region = np.array([names.index(r.name) if r.name in names else -1 for r in lay.regions], np.int32)
    order = np.argsort(of_region[lay.of_piece[kept]], kind="stable")  # a group's pieces stand together
    kept, turn = kept[order], np.argsort(order)[owner.reshape(-1)]
    by_piece = np.argsort(turn, kind="stable")
    colour, glass = _glasses(lay, kept, paint)
    return Pieces(
        rings.take(by_piece),
        turn[by_piece],
        colour,
        glass=glass,
        board=tuple(lay.board_names[b] for b in lay.board[kept].tolist()) if lay.board_names else (),
        group=of_region[lay.of_piece[kept]],
        group_names=names,
    )


def _outline_mm(lay: Lay) -> tuple[FloatArray, ...]:
    """Return the outline of all that is laid; none where that is the whole page."""
    if (lay.area > 0).all():
        return ()
    rings, _ = _outlines((lay.area > 0).astype(np.int32), lay.size_mm, _SMOOTH_PX)
    return tuple(rings.points_mm[a:b] for a, b in pairwise(rings.start))


def _outlines(
    label: IntGrid,
    size_mm: tuple[float, float],
    tolerance_px: float,
    group: NDArray[np.int32] | None = None,
    within_px: float = 0.0,
) -> tuple[Rings, Counts]:
    """Return the outlines of labels in mm of the page, and whose they are; for the rest see traced."""
    rings, owner = traced(label, mm_per_px=1.0, tolerance_mm=tolerance_px, group=group, within_mm=within_px)
    return Rings(rings.points_mm * pixel_mm(size_mm, label.shape), rings.start), owner


def _glasses(lay: Lay, kept: Counts, paint: Picture | None) -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
    """Return the colour (k, 3) and the kind of glass (k,) of the pieces that are kept."""
    region = lay.of_piece[kept]
    light = None if paint is None else light_under(lay, paint)[kept]
    place_mm = _middles_mm(lay)[kept]
    colour = np.zeros((len(kept), 3), np.uint8)
    kind = np.zeros(len(kept), np.uint8)
    for k in np.unique(region).tolist():
        own = np.flatnonzero(region == k)
        rng = np.random.default_rng(np.random.SeedSequence((lay.seed, 7, k)))
        mix = lay.regions[k].mix
        of = glass_of(lay.regions[k], place_mm[own], None if light is None else light[own], rng)
        colour[own] = np.array([glass.colour for glass in mix], np.uint8)[of]
        kind[own] = np.array([GLASS_KINDS.index(glass.finish) for glass in mix], np.uint8)[of]
    return colour, kind


def _middles_mm(lay: Lay) -> FloatArray:
    """Return the middle of each piece, (n, 2)."""
    flat = lay.cell.ravel()
    count = np.maximum(np.bincount(flat, minlength=lay.piece_count + 1), 1)
    y, x = np.divmod(np.arange(lay.cell.size), lay.cell.shape[1])
    sums = [np.bincount(flat, part, minlength=lay.piece_count + 1) for part in (x, y)]
    found: FloatArray = (np.stack(sums, axis=1) / count[:, None] + 0.5)[1:] * lay.mm_per_px
    return found


def light_under(lay: Lay, paint: Picture) -> FloatArray:
    """Return the mean lightness L* of the paint under each piece, (n,)."""
    from PIL import Image

    size = (lay.cell.shape[1], lay.cell.shape[0])
    pixels = np.asarray(Image.fromarray(paint.pixels).resize(size, Image.Resampling.BOX), np.uint8)
    light = srgb_to_lab(pixels)[..., 0].ravel()
    count = np.bincount(lay.cell.ravel(), minlength=lay.piece_count + 1)
    found: FloatArray = (np.bincount(lay.cell.ravel(), light, minlength=len(count)) / np.maximum(count, 1))[
        1:
    ]
    return found

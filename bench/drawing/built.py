"""Outlines that no file draws, found in a picture or laid by the house itself → a Panel like any other."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from bench.drawing.faults import NoTesserae, TooManyShapes
from bench.drawing.joints import joints_of
from bench.drawing.names import unique_names
from bench.drawing.panel import FloatArray, LeftOut, Panel
from bench.drawing.rings import Counts, Rings, clean, moments, nest

MOST_TESSERAE = 150_000
LEAST_MM2 = 1e-4  # an outline around less than that encloses nothing


@dataclass(frozen=True, eq=False)
class Pieces:
    """n pieces of glass: their outlines, and what each is cut from.

    rings: outlines in mm, none crossing itself, either way round; owner: (r,) the piece of each, sorted,
    every piece having one at least. colour: (n, 3) sRGB. glass: (n,) index into GLASS_KINDS. adhesive,
    board: (n,) names, empty for none at all. group: (n,) index into group_names, -1 for none.
    """

    rings: Rings
    owner: Counts
    colour: NDArray[np.uint8]
    glass: NDArray[np.uint8] | None = None
    adhesive: tuple[str, ...] = ()
    board: tuple[str, ...] = ()
    group: NDArray[np.int32] | None = None
    group_names: tuple[str, ...] = ()
    ids: tuple[str, ...] = field(default=())


def panel_of(
    pieces: Pieces,
    size_mm: tuple[float, float],
    name: str,
    *,
    outline_mm: tuple[FloatArray, ...] = (),
    left_out: tuple[LeftOut, ...] = (),
    warnings: tuple[str, ...] = (),
) -> Panel:
    """Return the panel that the pieces make, with their joints.

    size_mm: width and height of the page. outline_mm: rings of the panel's own outline; empty: the page.
    Raises NoTesserae for none, TooManyShapes beyond 150,000.
    """
    n = len(pieces.colour)
    if not n:
        raise NoTesserae(name, "")
    if n > MOST_TESSERAE:
        raise TooManyShapes(name, n, MOST_TESSERAE)
    rings, _ = nest(clean(pieces.rings), pieces.owner)
    signed_mm2, moment_mm3 = moments(rings)
    area_mm2 = np.bincount(pieces.owner, signed_mm2, minlength=n).astype(np.float64)
    moment = np.stack([np.bincount(pieces.owner, part, minlength=n) for part in moment_mm3.T], axis=1)
    tessera_ring = np.concatenate([[0], np.cumsum(np.bincount(pieces.owner, minlength=n))]).astype(np.int32)
    ring_start = rings.start.astype(np.int32)
    return Panel(
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        ids=unique_names(pieces.ids or ("",) * n),
        points_mm=rings.points_mm,
        ring_start=ring_start,
        tessera_ring=tessera_ring,
        area_mm2=area_mm2,
        centroid_mm=moment / np.maximum(area_mm2, LEAST_MM2)[:, None],
        colour=pieces.colour,
        glass=np.zeros(n, np.uint8) if pieces.glass is None else pieces.glass,
        adhesive=pieces.adhesive or ("",) * n,
        board=pieces.board,
        group=np.full(n, -1, np.int32) if pieces.group is None else pieces.group,
        group_names=pieces.group_names,
        joints=joints_of(rings.points_mm, ring_start, tessera_ring, area_mm2),
        outline_area_mm2=_outlined_mm2(outline_mm) if outline_mm else size_mm[0] * size_mm[1],
        outline_mm=outline_mm,
        left_out=left_out,
        warnings=warnings,
        name=name,
    )


def _outlined_mm2(outline_mm: tuple[FloatArray, ...]) -> float:
    start = np.concatenate([[0], np.cumsum([len(ring) for ring in outline_mm])])
    rings, _ = nest(Rings(np.concatenate(outline_mm), start), np.zeros(len(outline_mm), np.int64))
    return float(moments(rings)[0].sum())

"""A revised drawing laid over a panel in progress: what is dry or set stays, bare ground is drawn anew.

Tesserae are matched by place: by what an old and a new one share, over what both together cover.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.across import Across, shared_across
from bench.drawing.boxes import TooManyPairs
from bench.drawing.faults import TooTangled
from bench.drawing.merged import boards_of, merged
from bench.drawing.overlaps import SHARE
from bench.drawing.panel import FloatArray, IntArray, Panel

SAME_PLACE = 0.5  # beyond half of what both cover no tessera has two partners, where none overlap
AS_IT_WAS = 0.9  # a 6 mm piece moved by 0.3 mm, which a joint takes up

Bools = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Revision:
    """The panel as it would be, and what becomes of each of the n tesserae that it has now.

    panel: the kept tesserae exactly as they are, and the new drawing's on all other ground; in the order in
    which `write_svg` writes them. to_new: (n,) the index in it of each old tessera, -1 where it is gone.
    kept: (n,) dry or set. unlike: (n,) kept ones that the new drawing has otherwise or not at all. Of the
    others, all (n,): same as it was; recoloured, of other glass, adhesive or board in the same place;
    reshaped, in its place but of another outline. added: (k,) tesserae of panel without an old one.
    left_out: (l,) tesserae of the new drawing that would lie over kept ones and are not these. reaching: how
    many new ones reach over a kept one by so little that they stay.
    """

    panel: Panel
    to_new: IntArray
    kept: Bools
    unlike: Bools
    same: Bools
    recoloured: Bools
    reshaped: Bools
    added: IntArray
    left_out: IntArray
    reaching: int

    @property
    def gone(self) -> Bools:
        return np.asarray(self.to_new < 0)

    @property
    def changed(self) -> Bools:
        return self.recoloured | self.reshaped


def revised(old: Panel, kept: Bools, new: Panel) -> Revision:
    """Return what a panel becomes under a new drawing of the same page.

    kept: (n,) tesserae that stay. A new tessera is left out where it shares more than `overlaps.SHARE` of
    the smaller with a kept one, or of itself with all of them. Page and outline are the new drawing's.
    Raises TooTangled, and TooManyShapes where both together are too many.
    """
    try:
        return _laid_over(old, np.asarray(kept, bool), new)
    except TooManyPairs:
        raise TooTangled(new.name) from None


def _laid_over(old: Panel, kept: Bools, new: Panel) -> Revision:
    across = shared_across(old, new, kept)
    alike, as_was = _look_alike(old, new, across), across.likeness >= AS_IT_WAS
    over = kept[across.pair[:, 0]]
    barred = _barred(across, over, new.area_mm2)
    laid = across.pair[over & alike & as_was]
    match = _one_to_one(across, ~over & ~barred[across.pair[:, 1]])
    panel, place = merged(old, np.flatnonzero(kept), new, np.flatnonzero(~barred))
    to_new = np.where(kept, place[: old.tessera_count], -1).astype(np.int32)
    matched = across.pair[match, 0]
    to_new[matched] = place[old.tessera_count + across.pair[match, 1]]
    same, recoloured, reshaped = np.zeros((3, old.tessera_count), bool)
    same[matched] = (as_was & alike)[match]
    recoloured[matched] = (as_was & ~alike)[match]
    reshaped[matched] = ~as_was[match]
    return Revision(
        panel,
        to_new,
        kept,
        kept & ~_among(laid[:, 0], old.tessera_count),
        same,
        recoloured,
        reshaped,
        np.setdiff1d(np.arange(panel.tessera_count), to_new).astype(np.int32),
        np.flatnonzero(barred & ~_among(laid[:, 1], new.tessera_count)).astype(np.int32),
        int((_among(across.pair[over, 1], new.tessera_count) & ~barred).sum()),
    )


def _among(some: NDArray[np.int64], count: int) -> Bools:
    """Tell for each of 0..count-1 whether it is among some."""
    return np.bincount(some, minlength=count) > 0


def _barred(across: Across, over: Bools, new_mm2: FloatArray) -> Bools:
    """Tell which tesserae of the new drawing, (m,), lie over what is kept."""
    shared_mm2, j = across.shared_mm2[over], across.pair[over, 1]
    barred: Bools = np.bincount(j, shared_mm2, minlength=len(new_mm2)) > SHARE * new_mm2
    barred[j[shared_mm2 > SHARE * across.smaller_mm2[over]]] = True
    return barred


def _look_alike(old: Panel, new: Panel, across: Across) -> Bools:
    """Tell which pairs are of the same glass, in the same adhesive, on the same board."""
    i, j = across.pair.T
    alike: Bools = (old.colour[i] == new.colour[j]).all(axis=1) & (old.glass[i] == new.glass[j])
    for here, there in ((old.adhesive, new.adhesive), (boards_of(old), boards_of(new))):
        alike &= np.array(here, object)[i] == np.array(there, object)[j]
    return alike


def _one_to_one(across: Across, free: Bools) -> list[int]:
    """Return which of the free pairs stand for one another, the likest first: no tessera has two partners."""
    seen_old: set[int] = set()
    seen_new: set[int] = set()
    chosen = []
    for k in np.argsort(-across.likeness, kind="stable").tolist():
        i, j = across.pair[k].tolist()
        if free[k] and across.likeness[k] > SAME_PLACE and i not in seen_old and j not in seen_new:
            seen_old.add(i)
            seen_new.add(j)
            chosen.append(k)
    return chosen

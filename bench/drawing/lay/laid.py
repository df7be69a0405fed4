"""A trial lay: a study's regions filled with pieces, so that counts, joints, glass and sections are real.

It is a count and a picture, not an order: the maker lays what the eye wants, and the dry count corrects it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.drawing.lay.areas import areas_of, check, pitch_mm
from bench.drawing.lay.cells import PASSES, settle
from bench.drawing.lay.flow import first_places, rows_in
from bench.drawing.lay.fragments import in_one_piece
from bench.drawing.study.model import Region, Study

IntGrid = NDArray[np.int32]
Mask = NDArray[np.bool_]
_PX_TO_SETTLE = 7  # across a piece are enough while pieces still move
Progress = Callable[[float], bool]  # the share that is done → whether to go on


class LayStopped(Exception):
    """The maker stopped the lay; nothing is kept of it."""


@dataclass(frozen=True, eq=False)
class Lay:
    """cell: (rows, columns) the piece of each pixel, 1 to n, 0 where none lies. area: (rows, columns) the
    area of each pixel, 0 for none. mm_per_px: of both grids. of_piece: (n,) how each piece is laid, index
    into regions. board: (n,) index into board_names. seed: of the chance it was laid with.
    """

    cell: IntGrid
    area: IntGrid
    mm_per_px: float
    of_piece: NDArray[np.int32]
    board: NDArray[np.int32]
    regions: tuple[Region, ...]
    joint_mm: float
    seed: int
    size_mm: tuple[float, float]
    board_names: tuple[str, ...] = ()
    name: str = ""

    @property
    def piece_count(self) -> int:
        return len(self.of_piece)


def lay(study: Study, *, joint_mm: float = 0.8, seed: int = 0, progress: Progress | None = None) -> Lay:
    """Return the study laid in pieces: the same for the same study, joint and seed.

    Raises NothingToLay, PieceTooLarge, JointTooWide or TooManyPieces; LayStopped where progress says so.
    """
    check(study, joint_mm)
    areas = areas_of(study, joint_mm)
    told = Told(progress, [int(n) for n in np.bincount(areas.label.ravel())[1:]])
    cell = np.zeros(areas.label.shape, np.int32)
    area_of = np.empty(0, np.int32)
    for k, region in enumerate(areas.region.tolist(), start=1):
        rng = np.random.default_rng(np.random.SeedSequence((seed, k)))
        way = Way(study.regions[region - 1], joint_mm, areas.mm_per_px)
        count = fill(cell, areas.label == k, way, len(area_of), rng, told.passed(k))
        area_of = np.concatenate([area_of, np.full(count, k - 1, np.int32)])
    cell, area_of = numbered(in_one_piece(cell, areas.label), area_of)
    return Lay(
        cell=cell,
        area=areas.label,
        mm_per_px=areas.mm_per_px,
        of_piece=(areas.region - 1)[area_of],
        board=areas.board[area_of],
        regions=study.regions,
        joint_mm=joint_mm,
        seed=seed,
        size_mm=study.size_mm,
        board_names=study.board_names,
        name=study.name,
    )


@dataclass(frozen=True)
class Way:
    """How an area is laid: as its region says, with such joints, on such a grid."""

    region: Region
    joint_mm: float
    mm_per_px: float

    @property
    def pitch_px(self) -> tuple[float, float]:
        along, across = pitch_mm(self.region, self.joint_mm)
        return along / self.mm_per_px, across / self.mm_per_px


class Told:
    """Tells how much is done, in pixels times passes, and stops where that is asked for."""

    def __init__(self, progress: Progress | None, weights: list[int]) -> None:
        self._progress, self._weights = progress, weights
        self._done, self._total = 0.0, float(sum(weights)) * PASSES

    def passed(self, area: int) -> Callable[[], None]:
        def step() -> None:
            self._done += self._weights[area - 1]
            if self._progress is not None and not self._progress(min(1.0, self._done / self._total)):
                raise LayStopped

        return step


def fill(
    cell: IntGrid, mask: Mask, way: Way, first: int, rng: np.random.Generator, passed: Callable[[], None]
) -> int:
    """Fill an area with pieces numbered from first + 1, in `cell` itself; return how many."""
    box = _box(mask)
    here = np.pad(mask[box], 1)
    flow, pitch_px = way.region.flow, way.pitch_px
    rows = rows_in(here, flow, pitch_px[1], square=way.region.aspect == 1.0)
    place = first_places(here, rows, flow, pitch_px, rng)
    stride = max(1, int(min(pitch_px) // _PX_TO_SETTLE))
    found = settle(here, rows, place, pitch_px, loose=flow.kind == "loose", stride=stride, passed=passed)
    cell[box][mask[box]] = found.of_pixel + (first + 1)
    return len(found.place)


def _box(mask: Mask) -> tuple[slice, slice]:
    rows, columns = np.flatnonzero(mask.any(axis=1)), np.flatnonzero(mask.any(axis=0))
    return slice(int(rows[0]), int(rows[-1]) + 1), slice(int(columns[0]), int(columns[-1]) + 1)


def numbered(cell: IntGrid, of: NDArray[np.int32]) -> tuple[IntGrid, NDArray[np.int32]]:
    """Number the pieces anew without gaps."""
    there = np.bincount(cell.ravel(), minlength=len(of) + 1) > 0
    there[0] = True
    place = (np.cumsum(there) - 1).astype(np.int32)
    return place[cell], of[there[1:]]

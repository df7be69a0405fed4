"""Measure sections: their batch, their working time, how much fits, and how sure they are in time."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from bench.adhesive.batch import Batch
from bench.adhesive.product import Product
from bench.adhesive.working_time import working_time_s
from bench.book.events import BenchSet, Promise
from bench.drawing.panel import Panel
from bench.drawing.sizes import size_class
from bench.job.bedding import adhesives_of, batch_for, bed_area_mm2, working_product
from bench.job.learning import Known
from bench.job.state import Mix
from bench.pace.capacity import DEFAULT_PIECE_MM2, Capacity, capacity, probability_in_time
from bench.pace.coverage import Coverage
from bench.pace.patches import patch_counts
from bench.pace.routine import Routine
from bench.speech.measures import MM2_PER_CM2

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]

ROUTINE = Routine()
_LEAST_FILLED = 0.3  # of the capacity: sections of one class of pieces that hold less are not looked for
_TYPICAL_MASS_G = 10.0  # a section's batch is 4 to 15 g; far below any label's test mass


def routine_of(product: Product) -> Routine:
    """Return what stands around the setting with this adhesive: one that is ready is not stirred."""
    return ROUTINE if product.is_two_part else replace(ROUTINE, stir_s=0.0)


def routine_of_mix(product: Product, mix: Mix) -> Routine:
    """Return what stands around the setting of one mix: what is weighed late is stirred from then on."""
    routine = routine_of(product)
    if mix.poured_s is None or not product.is_two_part:
        return routine
    return replace(routine, stir_s=mix.poured_s + routine.stir_s)


@dataclass(frozen=True, eq=False)
class Sizing:
    """What every section of one adhesive is measured with."""

    adhesive: str
    working_time_s: float
    capacity: Capacity


class Sizer:
    """Measure sections of one panel under one set of assumptions: hands, adhesives, room, promise."""

    def __init__(
        self,
        panel: Panel,
        bench: BenchSet,
        products: Mapping[str, Product],
        known: Known,
        temperature_C: float | None = None,
        adhesive_C: float | None = None,
    ) -> None:
        known = replace(known, hands=known.hands.together(bench.hands))
        self.panel, self.bench, self.known = panel, bench, known
        self.temperature_C = bench.temperature_C if temperature_C is None else temperature_C
        self.adhesive_C = adhesive_C  # the bottles', where they were kept colder or warmer than the room
        self.products = {name: working_product(p, bench) for name, p in products.items()}
        self.tessera_adhesive = adhesives_of(panel, bench)
        self.bed_area_mm2 = bed_area_mm2(panel)
        self.size_class = size_class(panel.area_mm2)
        self.by_patch = known.hands.by_patch
        self.expected_s: FloatArray = (
            np.asarray(known.hands.expected_s, dtype=float)[self.size_class]
            if self.by_patch is None
            else self.bed_area_mm2 / (self.by_patch.patch_cm2 * MM2_PER_CM2) * known.hands.one_s
        )

    def sizing(self, adhesive: str, *, mass_g: float = _TYPICAL_MASS_G) -> Sizing:
        """Return the working time and capacity of an adhesive at the room's temperature."""
        time_s = self.working_time_s(adhesive, mass_g=mass_g)
        found = capacity(
            self.known.hands,
            self.known.life_of(adhesive),
            working_time_s=time_s,
            routine=routine_of(self.products[adhesive]),
            sure=self.bench.sure,
            area_per_piece_mm2=self._bed_per_piece_mm2() if self.by_patch is None else None,
        )
        return Sizing(adhesive, time_s, found)

    def working_time_s(self, adhesive: str, *, mass_g: float = _TYPICAL_MASS_G) -> float:
        """Return how long a mix of this mass may be worked in this room. [s]"""
        return working_time_s(
            self.products[adhesive],
            temperature_C=self.temperature_C,
            mass_g=mass_g,
            mix_C=self.adhesive_C,
        )

    def divider_s(self, sizing: Sizing) -> FloatArray:
        """Return what each tessera counts for the divider's linear bound. (n,) [s]

        At least its expected_s, so that the bound holds for that too. Where small or large pieces make
        the promise dearer than medium ones, or a piece lies on more bed than the usual, it counts for
        more: then a section within the bound keeps the promise as a rule, whatever it is made of. By the
        patch all goes with the bed, and so does the bound.
        """
        if self.by_patch is not None:
            return self.expected_s
        dearer = np.array([self._dearer(sizing, k) for k in range(3)])
        found = sizing.capacity
        promise_share = found.capacity_s / max(found.capacity_s + found.reserve_s, 1e-9)
        per_mm2_s = (ROUTINE.spread_s_per_cm2 + ROUTINE.clean_s_per_cm2) / MM2_PER_CM2 * promise_share
        more_bed_mm2 = np.maximum(0.0, self.bed_area_mm2 - self._bed_per_piece_mm2())
        counted_s: FloatArray = self.expected_s * dearer[self.size_class] + per_mm2_s * more_bed_mm2
        return counted_s

    def _dearer(self, sizing: Sizing, size: int) -> float:
        """Return capacity over what a section of this size class alone may hold; 1 for medium pieces."""
        if size == 1 or not (self.size_class == size).any():
            return 1.0
        one_s = float(self.known.hands.expected_s[size])
        filled_s = sizing.capacity.capacity_s * np.linspace(_LEAST_FILLED, 1.0, 57)
        counts = np.zeros((len(filled_s), 3))
        counts[:, size] = filled_s / one_s
        sure = probability_in_time(
            self.known.hands,
            self.known.life_of(sizing.adhesive),
            counts=counts,
            area_mm2=filled_s / one_s * self._bed_per_piece_mm2(),
            working_time_s=sizing.working_time_s,
            routine=routine_of(self.products[sizing.adhesive]),
        )
        kept = filled_s[np.asarray(sure) >= self.bench.sure]
        return float(sizing.capacity.capacity_s / kept.max()) if kept.size else 1.0 / _LEAST_FILLED

    def _bed_per_piece_mm2(self) -> float:
        """Bed of a medium piece on this panel: the median of its medium pieces, joints included."""
        medium = self.bed_area_mm2[self.size_class == 1]
        return float(np.median(medium)) if medium.size else DEFAULT_PIECE_MM2

    def counts(self, tesserae: IntArray) -> IntArray:
        """Return how many small, medium and large pieces these are. (3,)"""
        return np.bincount(self.size_class[tesserae], minlength=3).astype(np.int32)

    def patches(self, tesserae: IntArray, said: float | None = None) -> float | None:
        """Return the patches these are set in, as said, else as many as are usual; None: piece by piece."""
        if self.by_patch is None:
            return None
        return self.by_patch.patches_on(self.bed_mm2(tesserae)) if said is None else said

    def effort(
        self, tesserae: IntArray, *, pieces: float | None = None, patches: float | None = None
    ) -> FloatArray:
        """Return what effort counts of these: pieces by class, or patches and their bed. (3,)

        pieces, patches: as counted, where they differ from the drawn ones and the usual ones.
        """
        cut = self.patches(tesserae, patches)
        if cut is not None:
            return patch_counts(cut, self.bed_mm2(tesserae))
        counts = self.counts(tesserae).astype(float)
        return counts if pieces is None else counts * (pieces / counts.sum())

    def bed_mm2(self, tesserae: IntArray) -> float:
        """Return the bed of these tesserae with their share of the joints. [mm²]"""
        return float(self.bed_area_mm2[tesserae].sum())

    def coverage(self, adhesive: str) -> Coverage:
        """Return what a bed of this adhesive takes and what its cup keeps."""
        return self.known.coverage_of(adhesive, self.bench)

    def batch(self, adhesive: str, tesserae: IntArray) -> Batch:
        """Prescribe the batch for a section of these tesserae."""
        return batch_for(
            self.products[adhesive],
            self.bench,
            self.coverage(adhesive),
            glass_mm2=float(self.panel.area_mm2[tesserae].sum()),
            bed_mm2=self.bed_mm2(tesserae),
        )

    def in_time(
        self,
        adhesive: str,
        groups: list[IntArray],
        pieces: Sequence[float] | None = None,
        patches: Sequence[float | None] | None = None,
    ) -> FloatArray:
        """Return P(stir + spread + setting + clean ≤ life) of each group of tesserae. (k,)

        pieces: the counted pieces of each group, where they differ from the drawn; the classes are
        scaled alike. patches: of each group, as they are said to be cut. The working time is that of the
        largest batch among the groups.
        """
        if not groups:
            return np.zeros(0)
        time_s = self.working_time_s(adhesive, mass_g=max(self.batch(adhesive, g).total_g for g in groups))
        nothing: list[float | None] = [None] * len(groups)
        said = zip(groups, pieces or nothing, patches or nothing, strict=True)
        counts = np.array([self.effort(g, pieces=n, patches=cut) for g, n, cut in said])
        found = probability_in_time(
            self.known.hands,
            self.known.life_of(adhesive),
            counts=counts,
            area_mm2=np.array([self.bed_mm2(g) for g in groups]),
            working_time_s=time_s,
            routine=routine_of(self.products[adhesive]),
        )
        return np.atleast_1d(np.asarray(found, dtype=float))

    def promise(
        self,
        number: int,
        adhesive: str,
        members: IntArray,
        capacity_s: float,
        in_time: float,
        *,
        by_hand: bool = False,
    ) -> Promise:
        """Return a section as it is promised: these tesserae under this number, with what it rests on."""
        return Promise(
            number=number,
            adhesive=adhesive,
            tesserae=tuple(members.tolist()),
            expected_s=float(self.expected_s[members].sum()),
            capacity_s=float(capacity_s),
            in_time=float(np.clip(in_time, 0.0, 1.0)),
            by_hand=by_hand,
        )

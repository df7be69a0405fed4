"""From a drawing, the adhesives and what is known of the hands to sections that keep the promise.

The divider works with a linear bound, `capacity_s` for each adhesive. The hard rule is each section's
own probability, with its own pieces, area and batch; where one misses it, the bound of its adhesive is
tightened and the ground divided again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.adhesive import Batch, Product, Scale, prescribe, working_time_s
from bench.book.events import BenchSet, Promise
from bench.drawing import GLASS_KINDS, Panel, size_class
from bench.job.faults import UnknownAdhesive
from bench.job.learning import Known
from bench.pace import Capacity, Routine, capacity, probability_in_time
from bench.sections import Ground, best_division, ground_of, lower_bound, oversize, redivide

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int32]

ROUTINE = Routine()
_TYPICAL_MASS_G = 10.0  # a section's batch is 4 to 15 g; far below any label's test mass
_TIGHTENINGS = 8
USUAL_BED_MM2 = 46.5  # a foot square over 2,000 pieces, common practice, no source


@dataclass(frozen=True, eq=False)
class Plan:
    """Sections for all ground asked for, and the figures that they rest on.

    promises: the sections, by number. capacities: the bound of each adhesive as it was first found.
    lower_bound: the fewest sections there can be. warnings: what the maker should know.
    """

    promises: tuple[Promise, ...]
    capacities: Mapping[str, Capacity]
    expected_s: FloatArray
    lower_bound: int
    warnings: tuple[str, ...]


def adhesives_of(panel: Panel, bench: BenchSet) -> tuple[str, ...]:
    """Return each tessera's adhesive: its own, else white for clear glass, else the panel's."""
    clear = GLASS_KINDS.index("clear")
    return tuple(
        own or (bench.clear_glass_adhesive if kind == clear else bench.adhesive)
        for own, kind in zip(panel.adhesive, panel.glass, strict=True)
    )


def products_of(
    panel: Panel, bench: BenchSet, look_up: Callable[[str], Product], choices: Iterable[str]
) -> dict[str, Product]:
    """Return the product of every adhesive on the panel; one that is not known names its tessera."""
    products: dict[str, Product] = {}
    for tessera, name in zip(panel.ids, adhesives_of(panel, bench), strict=True):
        if name not in products:
            try:
                products[name] = look_up(name)
            except Exception as fault:
                if name in (bench.adhesive, bench.clear_glass_adhesive):
                    raise
                raise UnknownAdhesive(name, tessera, tuple(choices)) from fault
    return products


def working_product(product: Product, bench: BenchSet) -> Product:
    """Return the product with the maker's own working time in place of the label's, where one is set."""
    if bench.working_time_s is None:
        return product
    timed = product.working_time.model_copy(update={"minutes": bench.working_time_s / 60})
    return product.model_copy(update={"working_time": timed})


def batch_for(product: Product, bench: BenchSet, *, glass_mm2: float, bed_mm2: float) -> Batch:
    """Prescribe the batch of a section: the whole bed, or the glass alone where pieces are buttered."""
    area_mm2 = bed_mm2 if bench.bed == "spread" else glass_mm2
    return prescribe(
        product,
        bed_area_mm2=area_mm2,
        bed_mm=bench.bed_mm,
        waste=bench.waste,
        residue_g=bench.residue_g,
        scale=Scale(step_g=bench.scale_g, cumulative=bench.cumulative),
    )


def bed_area_mm2(panel: Panel) -> FloatArray:
    """Return each tessera's bed: its glass and half of every joint beside it. (n,) [mm²]

    Joints are taken as they lie, length × gap, so that a drawing which fills only part of its page is
    not bedded beyond it. Small corners between three pieces are not counted.
    """
    joints = panel.joints
    half_mm2 = np.tile(joints.length_mm * joints.gap_mm / 2.0, 2)
    around: FloatArray = np.bincount(
        joints.pair.T.ravel(), weights=half_mm2, minlength=panel.tessera_count
    ).astype(float)
    return panel.area_mm2 + around


@dataclass(frozen=True, eq=False)
class Sizing:
    """What every section of one adhesive is measured with."""

    product: Product
    life_name: str
    working_time_s: float
    capacity: Capacity


class Planner:
    """Plan one panel under one set of assumptions; see `plan_panel`."""

    def __init__(
        self,
        panel: Panel,
        bench: BenchSet,
        products: Mapping[str, Product],
        known: Known,
        temperature_C: float | None = None,
    ) -> None:
        self.panel, self.bench, self.known = panel, bench, known
        self.temperature_C = bench.temperature_C if temperature_C is None else temperature_C
        self.products = {name: working_product(p, bench) for name, p in products.items()}
        self.tessera_adhesive = adhesives_of(panel, bench)
        self.bed_area_mm2 = bed_area_mm2(panel)
        self.size_class = size_class(panel.area_mm2)
        self.expected_s: FloatArray = np.asarray(known.hands.expected_s, dtype=float)[self.size_class]

    def sizing(self, adhesive: str, *, mass_g: float = _TYPICAL_MASS_G) -> Sizing:
        """Return the working time and capacity of an adhesive at the room's temperature."""
        product = self.products[adhesive]
        time_s = working_time_s(product, temperature_C=self.temperature_C, mass_g=mass_g)
        found = capacity(
            self.known.hands,
            self.known.life_of(adhesive),
            working_time_s=time_s,
            routine=ROUTINE,
            sure=self.bench.sure,
            area_per_piece_mm2=self._bed_per_piece_mm2(),
        )
        return Sizing(product, adhesive, time_s, found)

    def _bed_per_piece_mm2(self) -> float:
        """Bed of a medium piece on this panel: the median of its medium pieces, joints included."""
        medium = self.bed_area_mm2[self.size_class == 1]
        return float(np.median(medium)) if medium.size else USUAL_BED_MM2

    def counts(self, tesserae: IntArray) -> IntArray:
        """Return how many small, medium and large pieces these are. (3,)"""
        return np.bincount(self.size_class[tesserae], minlength=3).astype(np.int32)

    def bed_mm2(self, tesserae: IntArray) -> float:
        """Return the bed of these tesserae with their share of the joints. [mm²]"""
        return float(self.bed_area_mm2[tesserae].sum())

    def batch(self, adhesive: str, tesserae: IntArray) -> Batch:
        """Prescribe the batch for a section of these tesserae."""
        return batch_for(
            self.products[adhesive],
            self.bench,
            glass_mm2=float(self.panel.area_mm2[tesserae].sum()),
            bed_mm2=self.bed_mm2(tesserae),
        )

    def in_time(self, adhesive: str, groups: list[IntArray], pieces: list[float] | None = None) -> FloatArray:
        """Return P(stir + spread + setting + clean ≤ life) of each group of tesserae. (k,)

        pieces: the counted pieces of each group, where they differ from the drawn; the classes are
        scaled alike. The working time is that of the largest batch among the groups.
        """
        if not groups:
            return np.zeros(0)
        product = self.products[adhesive]
        mass_g = max(self.batch(adhesive, g).total_g for g in groups)
        time_s = working_time_s(product, temperature_C=self.temperature_C, mass_g=mass_g)
        counts = np.array([self.counts(g) for g in groups], dtype=float)
        if pieces is not None:
            counts *= (np.asarray(pieces, dtype=float) / counts.sum(axis=1))[:, None]
        found = probability_in_time(
            self.known.hands,
            self.known.life_of(adhesive),
            counts=counts,
            area_mm2=np.array([self.bed_mm2(g) for g in groups]),
            working_time_s=time_s,
            routine=ROUTINE,
        )
        return np.atleast_1d(np.asarray(found, dtype=float))

    def divide(
        self,
        *,
        keep: IntArray | None = None,
        before: IntArray | None = None,
        used_numbers: frozenset[int] = frozenset(),
        seed: int = 0,
    ) -> Plan:
        """Divide the ground so that every section keeps the promise; see the module."""
        names = tuple(dict.fromkeys(self.tessera_adhesive))
        adhesive = np.array([names.index(n) for n in self.tessera_adhesive], dtype=np.int32)
        sizings = {name: self.sizing(name) for name in names}
        capacity_s = np.array([sizings[n].capacity.capacity_s for n in names])
        bound = 0
        for attempt in range(_TIGHTENINGS + 1):
            ground = ground_of(
                self.panel,
                expected_s=self.expected_s,
                adhesive=adhesive,
                capacity_s=capacity_s,
                prefer=self.bench.prefer,
                keep=keep,
            )
            if attempt == 0:
                bound = lower_bound(ground)
            label, numbers = self._label(ground, before, used_numbers, seed)
            groups = _groups(ground, label, len(numbers))
            in_time = self._in_time_of(groups, names, adhesive)
            missed = self._missed(groups, in_time)
            if not missed or attempt == _TIGHTENINGS:
                break
            capacity_s = capacity_s * self._tighten(names, adhesive, groups, in_time, missed)
        promises = tuple(
            Promise(
                number=number,
                adhesive=names[adhesive[group[0]]],
                tesserae=tuple(group.tolist()),
                expected_s=float(self.expected_s[group].sum()),
                capacity_s=float(capacity_s[adhesive[group[0]]]),
                in_time=float(p),
            )
            for number, group, p in sorted(zip(numbers, groups, in_time, strict=True), key=lambda x: x[0])
        )
        return Plan(
            promises,
            {n: sizings[n].capacity for n in names},
            self.expected_s,
            bound,
            self._warnings(ground, promises),
        )

    def _label(
        self, ground: Ground, before: IntArray | None, used_numbers: frozenset[int], seed: int
    ) -> tuple[IntArray, tuple[int, ...]]:
        if before is not None:
            label, numbers = redivide(
                ground, before[ground.tessera], used_numbers=set(used_numbers), seed=seed
            )
            return label, tuple(numbers)
        label = best_division(ground, seed=seed).label
        first = max(used_numbers, default=0) + 1
        return label, tuple(range(first, first + int(label.max(initial=-1)) + 1))

    def _in_time_of(self, groups: list[IntArray], names: tuple[str, ...], adhesive: IntArray) -> FloatArray:
        in_time = np.zeros(len(groups))
        for k, name in enumerate(names):
            of_it = [i for i, g in enumerate(groups) if adhesive[g[0]] == k]
            in_time[of_it] = self.in_time(name, [groups[i] for i in of_it])
        return in_time

    def _missed(self, groups: list[IntArray], in_time: FloatArray) -> list[int]:
        """Return the sections below the promise that a division could help: those of more than a piece."""
        return [i for i, p in enumerate(in_time) if p < self.bench.sure - 1e-9 and len(groups[i]) > 1]

    def _tighten(
        self,
        names: tuple[str, ...],
        adhesive: IntArray,
        groups: list[IntArray],
        in_time: FloatArray,
        missed: list[int],
    ) -> FloatArray:
        """Return the factor for each adhesive's bound: a few per cent, more the further a section missed."""
        factor = np.ones(len(names))
        for i in missed:
            short = min(0.2, 0.01 + 0.6 * (self.bench.sure - in_time[i]))
            k = adhesive[groups[i][0]]
            factor[k] = min(factor[k], 1.0 - short)
        return factor

    def _warnings(self, ground: Ground, promises: tuple[Promise, ...]) -> tuple[str, ...]:
        told = [
            f"tessera {self.panel.ids[ground.tessera[t]]} alone takes longer than a batch allows; "
            "it has a section of its own"
            for t in oversize(ground)
        ]
        below = [p.number for p in promises if p.in_time < self.bench.sure - 1e-9]
        if below:
            told.append(
                f"section {', '.join(map(str, below))}: less sure than the promise of {self.bench.sure:g}"
            )
        return tuple(told)


def _groups(ground: Ground, label: IntArray, count: int) -> list[IntArray]:
    """Return the panel's tesserae of each label."""
    order = np.argsort(label, kind="stable")
    ends = np.cumsum(np.bincount(label, minlength=count))[:-1]
    return [ground.tessera[part].astype(np.int32) for part in np.split(order, ends)]

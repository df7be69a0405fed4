"""Tell which adhesive lies under which pieces, on how much bed, and what batch that takes."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np
from numpy.typing import NDArray

from bench.adhesive.batch import Batch, prescribe
from bench.adhesive.product import Product
from bench.adhesive.scale import Scale
from bench.book.events import BenchSet
from bench.drawing.panel import GLASS_KINDS, Panel
from bench.fault import Fault
from bench.job.faults import UnknownAdhesive
from bench.pace.coverage import Coverage

FloatArray = NDArray[np.float64]


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
            except Fault as fault:
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


def bedded_mm2(bench: BenchSet, *, glass_mm2: float, bed_mm2: float) -> float:
    """Return what adhesive is spread on: the bed, or the glass alone where pieces are buttered. [mm²]"""
    return bed_mm2 if bench.bed == "spread" else glass_mm2


def reckoned_g_per_cm2(product: Product, bench: BenchSet) -> float:
    """Return what the settings reckon for a bed: thickness × density of the mix, without waste. [g/cm²]"""
    return bench.bed_mm / 10.0 * product.mixed_density_g_per_cm3


def batch_for(
    product: Product,
    bench: BenchSet,
    coverage: Coverage,
    *,
    glass_mm2: float,
    bed_mm2: float,
    poured_resin_g: float | None = None,
) -> Batch:
    """Prescribe the batch of a section, its bed as thick as weighed cups have shown it to be."""
    return prescribe(
        product,
        bed_area_mm2=bedded_mm2(bench, glass_mm2=glass_mm2, bed_mm2=bed_mm2),
        bed_mm=float(np.clip(bench.bed_mm * coverage.bed_factor, 0.1, 10.0)),
        waste=min(coverage.waste(bench.waste), 3.0),
        residue_g=coverage.batch_residue_g,
        scale=Scale(step_g=bench.scale_g, cumulative=bench.cumulative),
        poured_resin_g=poured_resin_g,
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

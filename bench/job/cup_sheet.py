"""What the cup shows of a mix before first contact: figures, ladder, cautions, warmth, bottles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bench.adhesive.batch import Batch, Rung, ladder
from bench.adhesive.cautions import Caution, asks_after_hardener, cautions
from bench.adhesive.product import Product
from bench.adhesive.scale import Scale
from bench.job.acts.dry import in_time
from bench.job.cup_heat import CupHeat, cup_heat
from bench.job.job import Job
from bench.job.learning import coverage_from_book
from bench.job.mixing import (
    amounts_g,
    batch_and_time,
    learned_time_s,
    settled_resin_g,
    warmth_of,
)
from bench.job.state import Mix
from bench.job.stock_need import Drawn, drawn_for
from bench.pace.coverage import Coverage

ROOM_CHANGED_C, BATCH_CHANGED = 3.0, 1.5  # from which the cautions are read in full again


@dataclass(frozen=True, eq=False)
class CupSheet:
    """All that the cup shows for one mix: figures, ladder, cautions, and whether it still fits.

    working_time_s: as the book has shown, label_s: by the label alone. coverage: what the bed is
    reckoned by. drawn: which bottles it comes out of, and what is wrong with them.
    """

    mix: int
    section: int
    product: Product
    temperature_C: float
    working_time_s: float
    label_s: float
    batch: Batch
    rungs: tuple[Rung, ...]
    cautions: tuple[Caution, ...]
    asks_after_hardener: bool
    in_time: float
    fits: bool
    coverage: Coverage
    drawn: tuple[Drawn, ...]


def sheet(job: Job, mix_number: int, *, burns: bool | None = None) -> CupSheet:
    """Return what the cup shows for a mix, worked out from what is known now.

    burns: what the maker found on a hardener's label whose file lists no H314; None: not asked yet.
    """
    mix = job.mix(mix_number)
    section = job.section(mix.section)
    product, batch, label_s = batch_and_time(
        job, section, mix.temperature_C, settled_resin_g(mix), adhesive_C=mix.adhesive_C
    )
    sure = in_time(job, section, temperature_C=mix.temperature_C, adhesive_C=mix.adhesive_C)
    in_full = reads_all(job, mix, batch.total_g)
    return CupSheet(
        mix=mix.number,
        section=section.number,
        product=product,
        temperature_C=mix.temperature_C,
        working_time_s=learned_time_s(job, section, label_s),
        label_s=label_s,
        batch=batch,
        rungs=ladder(product, batch, scale_of(job)),
        cautions=cautions(
            product,
            temperature_C=mix.temperature_C,
            mass_g=batch.total_g,
            first_today=in_full,
            mix_C=mix.adhesive_C,
            burns=bool(burns),
        ),
        asks_after_hardener=in_full and asks_after_hardener(product),
        in_time=sure,
        fits=sure >= job.state.bench.sure - 1e-9,
        coverage=coverage_from_book(job.store, section.adhesive, job.state.bench),
        drawn=drawn_for(job, mix, product.name, amounts_g(product, batch)),
    )


def heat(job: Job, mix_number: int) -> CupHeat | None:
    """Return how a mix warms in its cup and spread, None where that is not worth showing."""
    return cup_heat(**in_cup(job, job.mix(mix_number)))


def in_cup(job: Job, mix: Mix, resin_g: float | None = None) -> dict[str, Any]:
    """Return what the heat of a cup depends on, by the resin poured where it is known."""
    product, batch, _ = batch_and_time(job, job.section(mix.section), mix.temperature_C)
    resin_g = mix.poured_resin_g if resin_g is None else resin_g
    mass_g = batch.total_g if resin_g is None else resin_g * (1 + product.mass_ratio)
    return warmth_of(job, mix, mass_g)


def scale_of(job: Job) -> Scale:
    """Return the maker's scale."""
    return Scale(step_g=job.state.bench.scale_g, cumulative=job.state.bench.cumulative)


def is_first_today(job: Job, mix: Mix) -> bool:
    """Tell whether no earlier mix of this panel was opened on the same day."""
    return not any(
        other.opened_utc.date() == mix.opened_utc.date()
        for other in job.state.mixes.values()
        if other.number < mix.number
    )


def reads_all(job: Job, mix: Mix, total_g: float) -> bool:
    """Tell whether all cautions are due: at the day's first mix, and where what was read no longer holds.

    That is another product than at the last mix read for today, room or bottles warmer or colder by
    ROOM_CHANGED_C, or a batch larger or smaller by BATCH_CHANGED times.
    """
    today = mix.opened_utc.date()
    read = [
        m
        for m in job.state.mixes.values()
        if m.number < mix.number and m.acknowledged and m.batch and m.opened_utc.date() == today
    ]
    if not read:
        return True
    last = read[-1]
    assert last.batch is not None
    section = job.state.sections.get(last.section)
    other_product = section is None or section.adhesive != job.section(mix.section).adhesive
    other_room = any(abs(a - b) >= ROOM_CHANGED_C for a, b in zip(_warmth(last), _warmth(mix), strict=True))
    small_g, large_g = sorted((total_g, last.batch.total_g))
    return other_product or other_room or large_g > BATCH_CHANGED * small_g


def _warmth(mix: Mix) -> tuple[float, float]:
    """Return the room's temperature and the bottles'. [°C]"""
    return mix.temperature_C, mix.temperature_C if mix.adhesive_C is None else mix.adhesive_C

"""The batch of a mix: by the section's pieces, the bed as it is known, and what is settled of it already."""

from __future__ import annotations

from typing import Any

from bench.adhesive.batch import Batch
from bench.adhesive.product import Product
from bench.adhesive.working_time import working_time_s
from bench.book.events import Part
from bench.job.bedding import batch_for, bed_area_mm2, working_product
from bench.job.job import Job
from bench.job.learning import coverage_from_book, learn_for
from bench.job.state import Mix, Section


def batch_and_time(
    job: Job,
    section: Section,
    temperature_C: float,
    resin_g: float | None = None,
    *,
    adhesive_C: float | None = None,
) -> tuple[Product, Batch, float]:
    """Return product, batch and working time of a section; with this much resin, where settled. [g, s]

    adhesive_C: the bottles', where they were kept colder or warmer than the room.
    """
    bench = job.state.bench
    product = working_product(job.product(section.adhesive), bench)
    members = list(section.tesserae)
    batch = batch_for(
        product,
        bench,
        coverage_from_book(job.store, section.adhesive, bench),
        glass_mm2=float(job.panel.area_mm2[members].sum()),
        bed_mm2=float(bed_area_mm2(job.panel)[members].sum()),
        poured_resin_g=resin_g,
    )
    time_s = working_time_s(
        product, temperature_C=temperature_C, mass_g=batch.total_g, mix_C=adhesive_C
    )
    return product, batch, time_s


def learned_time_s(job: Job, section: Section, label_s: float) -> float:
    """Return how long a mix may be worked: its median life, out of the bottle in use, as the book has it. [s]

    No longer than the label allows, but where the maker let it last.
    """
    products = {section.adhesive: job.product(section.adhesive)}
    known = learn_for(job.store, job.state.bench, products, job.clock.utc())
    return known.life_of(section.adhesive).quantile_s(0.5, label_s)


def product_of_mix(job: Job, mix: Mix) -> Product:
    """Return the adhesive of a mix, with the maker's own working time where one is set."""
    return working_product(job.product(job.section(mix.section).adhesive), job.state.bench)


def warmth_of(job: Job, mix: Mix, mass_g: float) -> dict[str, Any]:
    """Return what the heat of so much of a mix in its cup depends on, as `cup_heat` takes it."""
    return {
        "product": product_of_mix(job, mix),
        "mass_g": mass_g,
        "temperature_C": mix.temperature_C,
        "bed_mm": job.state.bench.bed_mm,
        "mix_C": mix.adhesive_C,
    }


def times_for_s(job: Job, mix: Mix, mass_g: float) -> tuple[float, float]:
    """Return how long so much of a mix may be worked, from first contact, and how long by the label. [s]

    More than was prescribed shortens both alike; less never lengthens what was promised.
    """
    promised = mix.working_time_s, mix.label_s
    if promised[0] is None and mix.batch is not None:
        promised = mix.batch.working_time_s, mix.batch.label_s
    found_s = working_time_s(
        product_of_mix(job, mix), temperature_C=mix.temperature_C, mass_g=mass_g, mix_C=mix.adhesive_C
    )
    time_s = found_s if promised[0] is None else promised[0]
    label_s = time_s if promised[1] is None else promised[1]
    shorter = min(1.0, found_s / label_s)
    return time_s * shorter, label_s * shorter


def time_for_s(job: Job, mix: Mix, mass_g: float) -> float:
    """Return how long so much of a mix may be worked, from first contact; never more than promised. [s]"""
    return times_for_s(job, mix, mass_g)[0]


def settled_resin_g(mix: Mix) -> float | None:
    """Return the resin that a mix is held to: as poured, or as promised before gloves went on. [g]"""
    if mix.poured_resin_g is not None:
        return mix.poured_resin_g
    return mix.batch.resin_g if mix.batch is not None else None


def amounts_g(product: Product, batch: Batch) -> dict[Part, float]:
    """Return the grams that a batch takes of each part. [g]"""
    if product.is_two_part:
        return {"resin": batch.resin_g, "hardener": batch.hardener_g}
    return {"adhesive": batch.resin_g}

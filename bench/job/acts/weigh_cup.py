"""After the glue-up, gloves off: weigh cup and stick with what stayed on them, so that the bed is learned."""

from __future__ import annotations

import math

from bench.book.events import CupWeighed
from bench.job.bedding import bed_area_mm2, bedded_mm2, reckoned_g_per_cm2, working_product
from bench.job.cup_faults import CupGrams
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.settings import CUP_TARE_G
from bench.job.state import Mix
from bench.pace.coverage import Cup
from bench.speech import say

MOST_CUP_G = 5000.0


def cup_to_weigh(job: Job) -> Mix | None:
    """Return the newest closed mix whose cup has not been weighed, None where there is none."""
    closed = [m for m in job.state.mixes.values() if m.closed is not None]
    newest = max(closed, key=lambda m: m.number, default=None)
    can = newest is not None and newest.cup_weighed is None and newest.section in job.state.sections
    return newest if can else None


def known_tare_g(job: Job) -> float | None:
    """Return what cup and stick weigh empty, as it was told last; None where it never was. [g]"""
    kept = job.store.setting(CUP_TARE_G)
    return None if kept is None else float(kept)


def check_cup(job: Job, mix_number: int, gross_g: float, tare_g: float) -> float:
    """Return what stayed in the cup of a closed mix, or raise what is wrong with the weighing. [g]"""
    mix = job.mix(mix_number)
    if mix.closed is None:
        raise WrongOrder(say("the glue-up is not closed"), say("say done first; the cup can wait"))
    give = say("give grams from 0 to {most_g:g}", most_g=MOST_CUP_G)
    if not _can_weigh(gross_g):
        raise CupGrams(say("the cup cannot weigh {grams:g} g", grams=gross_g), give)
    if not _can_weigh(tare_g):
        raise CupGrams(say("the empty cup cannot weigh {grams:g} g", grams=tare_g), give)
    stayed_g = gross_g - tare_g
    if stayed_g < 0:
        raise CupGrams(
            say(
                "the cup weighs {gross_g:g} g, less than the {tare_g:g} g of an empty one",
                gross_g=gross_g,
                tare_g=tare_g,
            ),
            say("weigh it with its stick, or weigh an empty cup and stick again"),
        )
    if stayed_g >= mix.mixed_g:
        raise CupGrams(
            say(
                "{stayed_g:g} g would have stayed of the {mixed_g:g} g that were mixed",
                stayed_g=stayed_g,
                mixed_g=mix.mixed_g,
            ),
            say("read the scale again, or weigh an empty cup and stick again"),
        )
    return stayed_g


def _can_weigh(grams: float) -> bool:
    return math.isfinite(grams) and 0 <= grams <= MOST_CUP_G


def weigh_cup(job: Job, mix_number: int, *, gross_g: float, tare_g: float, cup: Cup) -> None:
    """Tell what cup and stick weigh with what stayed, what they weigh empty, and whether it sufficed.

    The bed is that of the section as it was set. A cup may be weighed again; the last word counts.
    """
    check_cup(job, mix_number, gross_g, tare_g)
    mix = job.mix(mix_number)
    section, bench = job.section(mix.section), job.state.bench
    members = list(section.tesserae)
    bed_mm2 = bedded_mm2(
        bench,
        glass_mm2=float(job.panel.area_mm2[members].sum()),
        bed_mm2=float(bed_area_mm2(job.panel)[members].sum()),
    )
    product = working_product(job.product(section.adhesive), bench)
    job.write(
        CupWeighed(
            mix=mix_number,
            gross_g=gross_g,
            tare_g=tare_g,
            mixed_g=mix.mixed_g,
            bed_mm2=bed_mm2,
            reckoned_g_per_cm2=reckoned_g_per_cm2(product, bench),
            bed=bench.bed,
            adhesive=section.adhesive,
            cup=cup,
        ),
        settings={CUP_TARE_G: repr(tare_g)},
    )

"""What is in the cup once both parts are poured: judged, put right, and kept in the book."""

from __future__ import annotations

import math

from bench.adhesive.poured import Poured, judge_poured
from bench.adhesive.scale import checked_reading_g
from bench.book.events import HardenerPoured
from bench.job.cup_faults import GramsOutOfRange, NotRunning
from bench.job.cup_heat import check_cup
from bench.job.cup_sheet import scale_of
from bench.job.faults import WrongOrder
from bench.job.job import Job
from bench.job.mixing import product_of_mix, time_for_s, warmth_of
from bench.job.state import Mix
from bench.speech import say

MOST_TIMES = 20.0  # as far off what belongs in the cup as a slip of the pen is taken for a reading


def resin_in_cup_g(mix: Mix) -> float:
    """Return the resin told, or prescribed where none was told. [g]"""
    if mix.poured_resin_g is not None:
        return mix.poured_resin_g
    return mix.batch.resin_g if mix.batch is not None else 0.0


def judge_cup(job: Job, mix_number: int, *, resin_g: float, hardener_g: float) -> Poured:
    """Return how far a mix would be off its ratio with these readings; nothing is written.

    Raises AmountNotAllowed for readings that cannot be (0.0, kilograms for grams, hardener before
    resin), GramsOutOfRange for hardener that is out of all proportion.
    """
    mix = job.mix(mix_number)
    product = product_of_mix(job, mix)
    scale = scale_of(job)
    for field, mass_g in (("poured_resin_g", resin_g), ("poured_hardener_g", hardener_g)):
        if mass_g != 0:  # what a bare scale means depends on both
            checked_reading_g(field, mass_g, scale.step_g)
    poured = judge_poured(product, resin_g=resin_g, hardener_g=hardener_g, scale=scale)
    most_g = max(MOST_TIMES * resin_g * product.mass_ratio, 50.0)
    if hardener_g > most_g:
        raise GramsOutOfRange(hardener_g, most_g, "hardener")
    return poured


def keep_poured(
    job: Job,
    mix_number: int,
    *,
    resin_g: float,
    hardener_g: float,
    resin_added_g: float = 0.0,
    hardener_added_g: float = 0.0,
) -> Poured:
    """Tell what is in the cup, and what was then added to put it right; return the cup as it is now.

    Stirring begins anew from here; first contact's clock runs on, counting down from less where so much
    may be worked for less long than was promised, never from more. Only while it is stirred or spread:
    once pieces are set nothing can be added. Raises as `judge_cup` does, RunsAway where what is added
    would be too much for one cup.
    """
    mix = job.mix(mix_number)
    if not mix.is_running:
        raise NotRunning(mix_number)
    if mix.counts or {"set", "clean"} & set(mix.steps_s):
        raise WrongOrder(
            say("pieces are being set from this mix"), say("weigh the next one before it is spread")
        )
    at_s = job.reading(mix_number).spent_s
    cups = [judge_cup(job, mix_number, resin_g=resin_g, hardener_g=hardener_g)]
    if resin_added_g or hardener_added_g:
        resin_g, hardener_g = resin_g + resin_added_g, hardener_g + hardener_added_g
        check_added(job, mix_number, resin_g + hardener_g)
        cups.append(judge_cup(job, mix_number, resin_g=resin_g, hardener_g=hardener_g))
    job.write(*(_hardener(job, mix, poured, at_s) for poured in cups))
    return cups[-1]


def check_added(job: Job, mix_number: int, mass_g: float) -> None:
    """Raise RunsAway where a cup of this mass, once more is added, would run away."""
    check_cup(**warmth_of(job, job.mix(mix_number), mass_g))


def _hardener(job: Job, mix: Mix, poured: Poured, at_s: float) -> HardenerPoured:
    worst = poured.worst_ratio_error
    time_s = time_for_s(job, mix, poured.resin_g + poured.hardener_g)
    return HardenerPoured(
        working_time_s=time_s if time_s != mix.working_time_s else None,
        mix=mix.number,
        resin_g=poured.resin_g,
        hardener_g=poured.hardener_g,
        ratio_error=poured.ratio_error,
        worst_ratio_error=worst if math.isfinite(worst) else None,
        at_s=at_s,
    )


def hardener_first(job: Job, mix_number: int, hardener_g: float) -> None:
    """Hardener lies in the cup before any resin: raise what says how much resin belongs onto it."""
    judge_cup(job, mix_number, resin_g=0.0, hardener_g=hardener_g)

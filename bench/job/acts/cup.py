"""At the cup: ask the room's temperature, read the cautions, weigh, and let resin meet hardener."""

from __future__ import annotations

import math

import numpy as np

from bench.adhesive.scale import checked_reading_g
from bench.book import countdown as cd
from bench.book.events import (
    BatchPrescribed,
    CautionsAcknowledged,
    ContactCorrected,
    ContactMade,
    MixOpened,
    MixPutAway,
    ResinPoured,
)
from bench.job.acts.dry import patches_of
from bench.job.acts.stock import taken
from bench.job.cup_faults import (
    AlreadyStarted,
    CautionsNotRead,
    CupInUse,
    GramsOutOfRange,
    LabelNotRead,
    NotRunning,
    TimeOutOfRange,
)
from bench.job.cup_heat import check_cup
from bench.job.cup_sheet import heat as heat
from bench.job.cup_sheet import in_cup
from bench.job.cup_sheet import sheet as sheet
from bench.job.faults import BesideSoftWork, WrongStage
from bench.job.ground import soft_neighbours
from bench.job.job import Job, glue_key
from bench.job.mixing import (
    amounts_g,
    batch_and_time,
    times_for_s,
)
from bench.job.state import Mix
from bench.job.stock import stock_of
from bench.job.stock_faults import LotPast
from bench.job.stock_need import today_of
from bench.job.stock_words import past_words

MOST_BACK_DATED_S = 3600.0


def open_mix(
    job: Job, number: int, temperature_C: float, *, adhesive_C: float | None = None
) -> int:
    """Go to the cup for a dry section; return the mix's number. One cup is made ready at a time.

    adhesive_C: the bottles', where they were kept colder or warmer than the room. Each part comes out of
    the workshop's bottle opened first that suffices, until `stock.take_from` says otherwise. A
    temperature outside the product's range raises OutsideRange and writes nothing.
    """
    section = job.section(number)
    if section.stage != "dry":
        raise WrongStage(number, job.life(number), "dry", "mixed for")
    at_cup = job.state.mix_at_cup
    if at_cup is not None:
        raise CupInUse(at_cup.number, at_cup.section)
    soft = soft_neighbours(job, number)
    if soft:
        raise BesideSoftWork(number, soft)
    product, batch, _ = batch_and_time(job, section, temperature_C, adhesive_C=adhesive_C)
    mix = max(job.state.mixes, default=0) + 1
    stock, today = stock_of(job.store), today_of(job)
    bottles = [stock.bottle_for(product.name, p, g, today) for p, g in amounts_g(product, batch).items()]
    job.write(
        MixOpened(mix=mix, section=number, temperature_C=temperature_C, adhesive_C=adhesive_C),
        *(taken(mix, bottle) for bottle in bottles if bottle is not None),
    )
    return mix


def acknowledge(job: Job, mix_number: int, *, burns: bool | None = None) -> None:
    """Say that the cautions were read, before gloves go on; keep their wording and the batch promised.

    burns: whether H314 is on the hardener's label, where its file does not list it. A cup that would run
    away is refused: RunsAway. Raises LabelNotRead where that is owed, LotPast for a bottle past its date
    that was not taken knowingly.
    """
    mix = _at_cup(job, mix_number)
    check_cup(**in_cup(job, mix))
    shown = sheet(job, mix_number, burns=burns)
    if shown.asks_after_hardener and burns is None:
        raise LabelNotRead(mix_number)
    owed = [d.bottle for d in shown.drawn if d.past and not d.knowing]
    past = tuple(past_words(bottle) for bottle in owed if bottle is not None)
    if past:
        raise LotPast(mix_number, past)
    section = job.section(mix.section)
    batch = shown.batch
    error = batch.worst_ratio_error
    job.write(
        CautionsAcknowledged(
            mix=mix.number,
            product_sha256=job.state.bench.products.get(section.adhesive, ""),
            shown=tuple(f"{c.title}: {' '.join(c.lines)}" for c in shown.cautions),
            burns=burns if shown.asks_after_hardener else None,
        ),
        BatchPrescribed(
            mix=mix.number,
            resin_g=batch.resin_g,
            hardener_g=batch.hardener_g,
            total_g=batch.total_g,
            worst_ratio_error=error if math.isfinite(error) else None,
            scale_ok=batch.scale_ok,
            working_time_s=shown.working_time_s,
            label_s=shown.label_s,
            in_time=float(np.clip(shown.in_time, 0.0, 1.0)),
        ),
    )


def _at_cup(job: Job, mix_number: int) -> Mix:
    mix = job.mix(mix_number)
    if mix.contact_utc is not None:
        raise AlreadyStarted(mix_number)
    if mix.put_away:
        raise NotRunning(mix_number)
    return mix


def pour_resin(job: Job, mix_number: int, resin_g: float) -> float:
    """Tell the resin actually in the cup; return the hardener that belongs to it. [g]

    Raises AmountNotAllowed or GramsOutOfRange for what cannot be, RunsAway for more than one cup may hold.
    """
    mix = _at_cup(job, mix_number)
    checked_reading_g("poured_resin_g", resin_g, job.state.bench.scale_g)
    section = job.section(mix.section)
    _, batch, _ = batch_and_time(job, section, mix.temperature_C)
    most_g = max(20.0 * batch.resin_g, 50.0)
    if resin_g > most_g:
        raise GramsOutOfRange(resin_g, most_g)
    check_cup(**in_cup(job, mix, resin_g))
    target_g = batch_and_time(job, section, mix.temperature_C, resin_g)[1].hardener_target_g
    job.write(ResinPoured(mix=mix_number, resin_g=resin_g, hardener_target_g=target_g))
    return target_g


def put_away(job: Job, mix_number: int) -> None:
    """Leave the cup before resin meets hardener; the section lies dry as before."""
    _at_cup(job, mix_number)
    job.write(MixPutAway(mix=mix_number))


def first_contact(job: Job, mix_number: int, *, back_dated_s: float = 0.0) -> None:
    """Start the adhesive's clock: hardener meets resin now, or so many seconds ago."""
    mix = _at_cup(job, mix_number)
    if not mix.acknowledged or mix.batch is None:
        raise CautionsNotRead(mix_number)
    _check_back_dating(back_dated_s)
    section = job.section(mix.section)
    time_s, label_s = times_for_s(job, mix, mix.mixed_g)
    mark = cd.start(time_s, job.clock, since_s=back_dated_s)
    job.write(
        ContactMade(
            mix=mix_number,
            back_dated_s=back_dated_s,
            working_time_s=time_s,
            label_s=label_s,
            patches=patches_of(job, section),
        ),
        marks=[(glue_key(mix_number), mark)],
    )


def _check_back_dating(seconds: float) -> None:
    if not (math.isfinite(seconds) and 0 <= seconds <= MOST_BACK_DATED_S):
        raise TimeOutOfRange(seconds, MOST_BACK_DATED_S)


def correct_contact(job: Job, mix_number: int, *, earlier_by_s: float) -> None:
    """Say that first contact was earlier than told; never later, since that would credit lost time."""
    mix = job.mix(mix_number)
    if not mix.is_running:
        raise NotRunning(mix_number)
    _check_back_dating(earlier_by_s)
    earlier = cd.begun_earlier(job.glue_mark(mix_number), job.clock, earlier_by_s)
    job.write(
        ContactCorrected(mix=mix_number, earlier_by_s=earlier_by_s),
        marks=[(glue_key(mix_number), earlier)],
    )

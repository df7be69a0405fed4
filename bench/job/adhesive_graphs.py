"""Graphs of each adhesive: how long its mixes lasted, and how much of it went on how large a bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bench.fault import Fault
from bench.job.bedding import batch_for, working_product
from bench.job.event_words import short_name
from bench.job.job import Job
from bench.job.learning import coverage_from_book
from bench.job.remembered import Made, Mixed
from bench.pace.curves import LifeSeen, life_curve
from bench.pace.graph import Band, Graph, Mark, Named, Span, Spot, Stroke
from bench.speech import (
    area,
    area_unit,
    full_date,
    in_area,
    in_unit,
    plain_area,
    plain_temperature,
    said,
    say,
    temperature_unit,
    tongue,
    unbroken,
)
from bench.speech.measures import MM2_PER_CM2, MM_PER_INCH


def called(job: Job, adhesive: str) -> str:
    """Name an adhesive as its label does; one of another panel that is not known here, by its own name."""
    try:
        return said(job.product(adhesive).name)
    except Fault:
        return short_name(adhesive)


def _key(name: str, k: int) -> str:
    return name if k == 0 else f"{name}_{k + 1}"


def day_of(one: Made) -> str:
    """Say when a glue-up was, and of which section."""
    at = one.event.contact_utc.astimezone()
    return say("{day}, section {section}", day=full_date(at), section=one.event.section)


def twice(values: Sequence[float]) -> tuple[float, ...]:
    """Return each value twice, so that a band of them goes in steps."""
    return tuple(value for value in values for _ in range(2))


def life_graph(made: Sequence[Made], job: Job, adhesive: str, k: int, *, longer: bool) -> Graph:
    """Return how long the mixes of an adhesive lasted, the k-th of several; longer: beyond its label too."""
    curve = life_curve([one.glue_up for one in made], may_lengthen=longer)
    key, title = _key("life", k), say("How long {name} lasts", name=called(job, adhesive))
    warm = [in_unit(one.temperature_C) for one in curve.seen] or [in_unit(21.0)]
    room = say("{unit} in the room", unit=temperature_unit())
    x = Span(room, min(warm), max(warm), least_span=in_unit(6.0) - in_unit(0.0))
    if not curve.seen:
        says = say(
            "After the first glue-up: how long a mix lasted in a room that warm, beside what the label says."
        )
        return Graph(key, title, says, x, Span(say("minutes"), 0, 30), about=adhesive)
    spots = tuple(_life_spot(made[one.which], one) for one in curve.seen)
    stringy = sum(one.exact for one in curve.seen)
    warmth, rows = tuple(map(in_unit, curve.temperature_C)), (curve.label_min, curve.low_min, curve.high_min)
    if len(warmth) == 1:
        warmth, rows = (warmth[0] - 1, warmth[0] + 1), tuple(twice(row) for row in rows)  # type: ignore[assignment]
    label, low, high = rows
    return Graph(
        key,
        title,
        say(
            "{stringy} went stringy; {others} finished first, so the mix lasted at least so long.",
            stringy=stringy,
            others=len(spots) - stringy,
        ),
        x,
        Span(say("minutes from first contact"), 0.0, max(*(s.y for s in spots), *high, *label, 1.0)),
        spots,
        strokes=(Stroke(tuple(zip(warmth, label, strict=True)), say("the label"), dashed=True),),
        bands=(Band(tuple(warmth), tuple(low), tuple(high), say("believed, 8 of 10")),),
        marks=(Named("dot", say("stringy")), Named("up", say("finished first: at least"))),
        about=adhesive,
    )


def _life_spot(made: Made, one: LifeSeen) -> Spot:
    warmth = unbroken(plain_temperature(one.temperature_C))
    told = {"day": day_of(made), "minutes": one.minutes, "warmth": warmth}
    if one.exact:
        says = say("{day}: stringy after {minutes:.0f}\u00a0min at {warmth}", **told)
    else:
        says = say("{day}: finished first, at least {minutes:.0f}\u00a0min at {warmth}", **told)
    x = in_unit(one.temperature_C)
    return Spot(x, one.minutes, "dot" if one.exact else "up", made.seq, made.panel_id, says)


def grams_graph(mixed: Sequence[Mixed], job: Job, adhesive: str, k: int) -> Graph:
    """Return how much of an adhesive was mixed for how large a bed, the k-th of several."""
    name = called(job, adhesive)
    key, title = _key("grams", k), say("Grams of {name}", name=name)
    widest = max((one.bed_cm2 for one in mixed), default=50.0)
    bed = say("{unit} of bed", unit=area_unit())
    x = Span(bed, 0.0, _in_area(widest))
    if not mixed:
        says = say("After the first glue-up on this panel: how much was mixed for how large a bed.")
        return Graph(key, title, says, x, Span(say("grams"), 0, 10))
    spots = tuple(spot for one in mixed for spot in _grams_spots(one, job.panel_id))
    cups = any(one.stayed_g is not None for one in mixed)
    total_g, total_cm2 = sum(one.mixed_g for one in mixed), sum(one.bed_cm2 for one in mixed)
    round_mm2 = 10 * MM_PER_INCH**2 if tongue().inches else 100 * MM2_PER_CM2
    says = say(
        "{total_g:.0f} g for {bed} on this panel: {each_g:.0f} g for {round}.",
        total_g=total_g,
        bed=area(MM2_PER_CM2 * total_cm2),
        each_g=total_g * round_mm2 / (MM2_PER_CM2 * total_cm2),
        round=plain_area(round_mm2),
    )
    line = ((0.0, _batch_g(job, adhesive, 0.0)), (_in_area(widest), _batch_g(job, adhesive, widest)))
    return Graph(
        key,
        title,
        says,
        x,
        Span(say("grams mixed"), 0.0, max(*(s.y for s in spots), line[1][1])),
        spots,
        strokes=(Stroke(line, say("as the bench is set now")),),
        marks=(
            Named("dot", say("weighed")),
            Named("ring", say("as prescribed")),
            *((Named("square", say("on the bed, by its cup")),) if cups else ()),
        ),
    )


def _grams_spots(one: Mixed, panel_id: int) -> Iterator[Spot]:
    """Yield what was mixed, and where its cup was weighed what of it went on the bed."""
    x = _in_area(one.bed_cm2)
    mark: Mark = "dot" if one.weighed else "ring"
    told = say(
        "Section {section}: {mixed_g:.1f} g for {bed}",
        section=one.section,
        mixed_g=one.mixed_g,
        bed=area(MM2_PER_CM2 * one.bed_cm2),
    )
    yield Spot(x, one.mixed_g, mark, one.seq, panel_id, told)
    if one.stayed_g is not None:
        on_bed_g = max(0.0, one.mixed_g - one.stayed_g)
        told = say(
            "Section {section}: {on_bed_g:.1f} g on the bed, {stayed_g:.1f} g stayed in the cup",
            section=one.section,
            on_bed_g=on_bed_g,
            stayed_g=one.stayed_g,
        )
        yield Spot(x, on_bed_g, "square", one.cup_seq, panel_id, told)


def _in_area(cm2: float) -> float:
    return in_area(MM2_PER_CM2 * cm2)


def _batch_g(job: Job, adhesive: str, bed_cm2: float) -> float:
    """Return what is prescribed for a bed as the bench is set now. [g]"""
    bench = job.state.bench
    product = working_product(job.product(adhesive), bench)
    area_mm2 = max(bed_cm2 * 100.0, 1e-2)
    coverage = coverage_from_book(job.store, adhesive, bench)
    return batch_for(product, bench, coverage, glass_mm2=area_mm2, bed_mm2=area_mm2).total_g

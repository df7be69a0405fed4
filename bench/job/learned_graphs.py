"""The graphs of what the book has learned; each spot stands for an entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bench.fault import Fault
from bench.job.job import Job
from bench.job.learning import Stated, coverage_from_book, stated_by
from bench.job.remembered import REMEMBERED_FROM, Made, Mixed, made_of, mixed_on
from bench.job.same_hands import of_these_hands
from bench.job.sizing import batch_for, working_product
from bench.job.taught import allowed_of
from bench.job.words import short_name
from bench.pace.curves import life_curve, pace_curve, promise_curve
from bench.pace.graph import Band, Graph, Mark, Named, Span, Spot, Stroke

AFTER_FIRST = "After the first glue-up"
LEVEL = 0.9  # of the interval about the promises kept


def learned_graphs(job: Job) -> tuple[Graph, ...]:
    """Return pace, promises, life and grams, in this order; the last two once for each adhesive.

    Pace, promises and life are of all panels in the book, since hands and adhesives are the same; grams are
    of this panel. A book without glue-ups gives the four without a spot, which say what will be seen.
    """
    entries = of_these_hands(job.store, REMEMBERED_FROM)
    made, allowed = made_of(entries), allowed_of(entries)
    names = list(dict.fromkeys(one.event.adhesive for one in reversed(made)))
    mixed = mixed_on(job)
    bedded = list(dict.fromkeys(one.adhesive for one in reversed(mixed)))
    usual = [job.state.bench.adhesive]
    lives = [
        _life([one for one in made if one.event.adhesive == name], job, name, k, longer=name in allowed)
        for k, name in enumerate(names or usual)
    ]
    grams = [
        _grams([one for one in mixed if one.adhesive == name], job, name, k)
        for k, name in enumerate(bedded or usual)
    ]
    return _pace(made, stated_by(job.state.bench)), _promise(made), *lives, *grams


def called(job: Job, adhesive: str) -> str:
    """Name an adhesive as its label does; one of another panel that is not known here, by its own name."""
    try:
        return job.product(adhesive).name
    except Fault:
        return short_name(adhesive)


def _key(name: str, k: int) -> str:
    return name if k == 0 else f"{name}_{k + 1}"


def _day(one: Made) -> str:
    at = one.event.contact_utc.astimezone()
    return f"{at.day} {at:%B %Y}, section {one.event.section}"


def _pace(made: Sequence[Made], stated: Stated) -> Graph:
    curve = pace_curve(
        [one.glue_up for one in made],
        pace_per_min=stated.pace_per_min,
        by_patch=stated.by_patch,
        half_life=stated.half_life,
    )
    unit = "medium pieces a minute"
    if stated.by_patch is not None:
        unit = f"patches of {stated.by_patch.patch_cm2:g}\u00a0cm² a minute"
    count = len(curve.seen)
    low, _, high = curve.next
    coming = f"For the next one, {low:.1f} to {high:.1f} a minute is believed."
    if not count:
        says = f"{AFTER_FIRST}: how fast it went, beside what was believed. {coming}"
        x = Span("glue-up", 0, 1, whole=True)
        return Graph("pace", "Pace", says, x, Span(unit, 0, high))
    spots = [
        Spot(
            k + 1.0,
            one.per_min,
            "dot",
            made[one.which].seq,
            made[one.which].panel_id,
            f"{_day(made[one.which])}: {one.per_min:.1f} a minute; {one.low:.1f} to {one.high:.1f} believed",
        )
        for k, one in enumerate(curve.seen)
    ]
    inside = sum(one.as_believed for one in curve.seen)
    lows, highs = [*(one.low for one in curve.seen), low], [*(one.high for one in curve.seen), high]
    ends = tuple(x for k in range(count + 1) for x in (k + 0.5, k + 1.5))
    return Graph(
        "pace",
        "Pace",
        f"{inside} of {count} fell within what was believed; 8 of 10 are meant to. {coming}",
        Span("glue-up", 0.5, count + 1.5, whole=True),
        Span(unit, 0.0, max(*highs, *(one.per_min for one in curve.seen)), held="low"),
        tuple(spots),
        bands=(Band(ends, _twice(lows), _twice(highs), "believed before, 8 of 10"),),
        marks=(Named("dot", "as it turned out"),),
        in_order=True,
    )


def _twice(values: Sequence[float]) -> tuple[float, ...]:
    return tuple(value for value in values for _ in range(2))


def _promise(made: Sequence[Made]) -> Graph:
    told = [(one, one.promised, one.kept) for one in made]
    tries = [(one, chance, hit) for one, chance, hit in told if chance is not None and hit is not None]
    y = Span("kept, of 100", 0.0, 100.0, held="high")
    if not tries:
        says = f"{AFTER_FIRST}: how often a section was clean in time, beside how often that was promised."
        return Graph("promise", "Promises kept", says, Span("glue-up", 0, 1, whole=True), y)
    promised, kept = [p for _, p, _ in tries], [k for _, _, k in tries]
    rows = promise_curve(promised, kept, level=LEVEL)
    spots = [
        Spot(
            k + 1.0,
            100 * row.share,
            "dot" if hit else "cross",
            one.seq,
            one.panel_id,
            f"{_day(one)}: {'in time' if hit else 'not in time'}; {100 * chance:.0f} in 100 promised",
        )
        for k, (row, (one, chance, hit)) in enumerate(zip(rows, tries, strict=True))
    ]
    last, count = rows[-1], len(rows)
    says = (
        f"{sum(kept)} of {count} kept, {sum(promised):.{0 if count > 99 else 1}f} promised. "
        "The true chance lies between "
        f"{100 * last.low:.0f} and {100 * last.high:.0f} in 100, 9 in 10 sure."
    )
    ends = tuple(x for k in range(count) for x in (k + 0.5, k + 1.5))
    line = tuple((k + 1.0, 100 * row.promised) for k, row in enumerate(rows))
    return Graph(
        "promise",
        "Promises kept",
        says,
        Span("glue-up", 0.5, count + 0.5, whole=True),
        y,
        tuple(spots),
        strokes=(Stroke(((0.5, line[0][1]), *line, (count + 0.5, line[-1][1])), "promised", dashed=True),),
        bands=(
            Band(
                ends,
                _twice([100 * row.low for row in rows]),
                _twice([100 * row.high for row in rows]),
                "true chance, 9 in 10 sure",
            ),
        ),
        marks=(Named("dot", "kept so far"), Named("cross", "the same, after a miss")),
        in_order=True,
    )


def _life(made: Sequence[Made], job: Job, adhesive: str, k: int, *, longer: bool) -> Graph:
    curve = life_curve([one.glue_up for one in made], may_lengthen=longer)
    key, title = _key("life", k), f"How long {called(job, adhesive)} lasts"
    warm = [one.temperature_C for one in curve.seen]
    x = Span("°C in the room", min(warm, default=21.0), max(warm, default=21.0), least_span=6.0)
    if not curve.seen:
        says = f"{AFTER_FIRST}: how long a mix lasted in a room that warm, beside what the label says."
        return Graph(key, title, says, x, Span("minutes", 0, 30), about=adhesive)
    spots = [
        Spot(
            one.temperature_C,
            one.minutes,
            "dot" if one.exact else "up",
            made[one.which].seq,
            made[one.which].panel_id,
            f"{_day(made[one.which])}: {'stringy after' if one.exact else 'finished first, at least'} "
            f"{one.minutes:.0f}\u00a0min at {one.temperature_C:g}\u00a0°C",
        )
        for one in curve.seen
    ]
    stringy = sum(one.exact for one in curve.seen)
    warmth, rows = curve.temperature_C, (curve.label_min, curve.low_min, curve.high_min)
    if len(warmth) == 1:
        warmth, rows = (warmth[0] - 1, warmth[0] + 1), tuple(_twice(row) for row in rows)  # type: ignore[assignment]
    label, low, high = rows
    return Graph(
        key,
        title,
        f"{stringy} went stringy; {len(spots) - stringy} finished first, so the mix lasted at least so long.",
        x,
        Span("minutes from first contact", 0.0, max(*(s.y for s in spots), *high, *label, 1.0)),
        tuple(spots),
        strokes=(Stroke(tuple(zip(warmth, label, strict=True)), "the label", dashed=True),),
        bands=(Band(tuple(warmth), tuple(low), tuple(high), "believed, 8 of 10"),),
        marks=(Named("dot", "stringy"), Named("up", "finished first: at least")),
        about=adhesive,
    )


def _grams(mixed: Sequence[Mixed], job: Job, adhesive: str, k: int) -> Graph:
    name = called(job, adhesive)
    key, title = _key("grams", k), f"Grams of {name}"
    widest = max((one.bed_cm2 for one in mixed), default=50.0)
    x = Span("cm² of bed", 0.0, widest)
    if not mixed:
        says = f"{AFTER_FIRST} on this panel: how much was mixed for how large a bed."
        return Graph(key, title, says, x, Span("grams", 0, 10))
    spots = tuple(spot for one in mixed for spot in _grams_spots(one, job.panel_id))
    cups = any(one.stayed_g is not None for one in mixed)
    total_g, total_cm2 = sum(one.mixed_g for one in mixed), sum(one.bed_cm2 for one in mixed)
    each_g = 100 * total_g / total_cm2
    says = f"{total_g:.0f} g for {total_cm2:.0f} cm² on this panel: {each_g:.0f} g for 100 cm²."
    line = ((0.0, _batch_g(job, adhesive, 0.0)), (widest, _batch_g(job, adhesive, widest)))
    return Graph(
        key,
        title,
        says,
        x,
        Span("grams mixed", 0.0, max(*(s.y for s in spots), line[1][1])),
        spots,
        strokes=(Stroke(line, "as the bench is set now"),),
        marks=(
            Named("dot", "weighed"),
            Named("ring", "as prescribed"),
            *((Named("square", "on the bed, by its cup"),) if cups else ()),
        ),
    )


def _grams_spots(one: Mixed, panel_id: int) -> Iterator[Spot]:
    """Yield what was mixed, and where its cup was weighed what of it went on the bed."""
    where = f"Section {one.section}"
    mark: Mark = "dot" if one.weighed else "ring"
    said = f"{where}: {one.mixed_g:.1f} g for {one.bed_cm2:.0f} cm²"
    yield Spot(one.bed_cm2, one.mixed_g, mark, one.seq, panel_id, said)
    if one.stayed_g is not None:
        on_bed_g = max(0.0, one.mixed_g - one.stayed_g)
        said = f"{where}: {on_bed_g:.1f} g on the bed, {one.stayed_g:.1f} g stayed in the cup"
        yield Spot(one.bed_cm2, on_bed_g, "square", one.cup_seq, panel_id, said)


def _batch_g(job: Job, adhesive: str, bed_cm2: float) -> float:
    """Return what is prescribed for a bed as the bench is set now. [g]"""
    bench = job.state.bench
    product = working_product(job.product(adhesive), bench)
    area_mm2 = max(bed_cm2 * 100.0, 1e-2)
    coverage = coverage_from_book(job.store, adhesive, bench)
    return batch_for(product, bench, coverage, glass_mm2=area_mm2, bed_mm2=area_mm2).total_g

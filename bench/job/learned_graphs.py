"""The graphs of what the book has learned; each spot stands for an entry."""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.adhesive_graphs import day_of, grams_graph, life_graph, twice
from bench.job.job import Job
from bench.job.learning import Stated, stated_by
from bench.job.remembered import REMEMBERED_FROM, Made, made_of, mixed_on
from bench.job.same_hands import of_these_hands
from bench.job.taught import allowed_of
from bench.pace.curves import KeptSoFar, PaceSeen, pace_curve, promise_curve
from bench.pace.graph import Band, Graph, Named, Span, Spot, Stroke
from bench.speech import plain_area, say, unbroken
from bench.speech.measures import MM2_PER_CM2

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
        life_graph([one for one in made if one.event.adhesive == name], job, name, k, longer=name in allowed)
        for k, name in enumerate(names or usual)
    ]
    grams = [
        grams_graph([one for one in mixed if one.adhesive == name], job, name, k)
        for k, name in enumerate(bedded or usual)
    ]
    return _pace(made, stated_by(job.state.bench)), _promise(made), *lives, *grams


def _pace(made: Sequence[Made], stated: Stated) -> Graph:
    curve = pace_curve(
        [one.glue_up for one in made],
        pace_per_min=stated.pace_per_min,
        by_patch=stated.by_patch,
        half_life=stated.half_life,
    )
    unit, count = _pace_unit(stated), len(curve.seen)
    low, _, high = curve.next
    coming = say("For the next one, {low:.1f} to {high:.1f} a minute is believed.", low=low, high=high)
    if not count:
        says = say(
            "After the first glue-up: how fast it went, beside what was believed. {coming}", coming=coming
        )
        x = Span(say("glue-up"), 0, 1, whole=True)
        return Graph("pace", say("Pace"), says, x, Span(unit, 0, high))
    inside = sum(one.as_believed for one in curve.seen)
    lows, highs = [*(one.low for one in curve.seen), low], [*(one.high for one in curve.seen), high]
    return Graph(
        "pace",
        say("Pace"),
        say(
            "{inside} of {count} fell within what was believed; 8 of 10 are meant to. {coming}",
            inside=inside,
            count=count,
            coming=coming,
        ),
        Span(say("glue-up"), 0.5, count + 1.5, whole=True),
        Span(unit, 0.0, max(*highs, *(one.per_min for one in curve.seen)), held="low"),
        tuple(_pace_spot(k, made[one.which], one) for k, one in enumerate(curve.seen)),
        bands=(Band(_steps(count + 1), twice(lows), twice(highs), say("believed before, 8 of 10")),),
        marks=(Named("dot", say("as it turned out")),),
        in_order=True,
    )


def _pace_unit(stated: Stated) -> str:
    if stated.by_patch is None:
        return say("medium pieces a minute")
    patch = unbroken(plain_area(MM2_PER_CM2 * stated.by_patch.patch_cm2))
    return say("patches of {area} a minute", area=patch)


def _pace_spot(k: int, one: Made, seen: PaceSeen) -> Spot:
    says = say(
        "{day}: {pace:.1f} a minute; {low:.1f} to {high:.1f} believed",
        day=day_of(one),
        pace=seen.per_min,
        low=seen.low,
        high=seen.high,
    )
    return Spot(k + 1.0, seen.per_min, "dot", one.seq, one.panel_id, says)


def _steps(count: int) -> tuple[float, ...]:
    """Return the two ends of the step around each of 1 to count."""
    return tuple(x for k in range(count) for x in (k + 0.5, k + 1.5))


def _promise(made: Sequence[Made]) -> Graph:
    told = [(one, one.promised, one.kept) for one in made]
    tries = [(one, chance, hit) for one, chance, hit in told if chance is not None and hit is not None]
    y = Span(say("kept, of 100"), 0.0, 100.0, held="high")
    if not tries:
        says = say(
            "After the first glue-up: how often a section was clean in time, "
            "beside how often that was promised."
        )
        return Graph("promise", say("Promises kept"), says, Span(say("glue-up"), 0, 1, whole=True), y)
    promised, kept = [p for _, p, _ in tries], [k for _, _, k in tries]
    rows = promise_curve(promised, kept, level=LEVEL)
    spots = tuple(
        _promise_spot(k, row, *one) for k, (row, one) in enumerate(zip(rows, tries, strict=True))
    )
    count = len(rows)
    line = tuple((k + 1.0, 100 * row.promised) for k, row in enumerate(rows))
    line = ((0.5, line[0][1]), *line, (count + 0.5, line[-1][1]))
    lows, highs = [100 * row.low for row in rows], [100 * row.high for row in rows]
    return Graph(
        "promise",
        say("Promises kept"),
        _told_promises(promised, kept, rows[-1]),
        Span(say("glue-up"), 0.5, count + 0.5, whole=True),
        y,
        spots,
        strokes=(Stroke(line, say("promised"), dashed=True),),
        bands=(Band(_steps(count), twice(lows), twice(highs), say("true chance, 9 in 10 sure")),),
        marks=(Named("dot", say("kept so far")), Named("cross", say("the same, after a miss"))),
        in_order=True,
    )


def _told_promises(promised: Sequence[float], kept: Sequence[bool], last: KeptSoFar) -> str:
    return say(
        "{kept} of {count} kept, {promised:.{decimals}f} promised. "
        "The true chance lies between {low:.0f} and {high:.0f} in 100, 9 in 10 sure.",
        kept=sum(kept),
        count=len(kept),
        promised=sum(promised),
        decimals=0 if len(kept) > 99 else 1,
        low=100 * last.low,
        high=100 * last.high,
    )


def _promise_spot(k: int, row: KeptSoFar, one: Made, chance: float, hit: bool) -> Spot:
    day, promised = day_of(one), 100 * chance
    if hit:
        says = say("{day}: in time; {promised:.0f} in 100 promised", day=day, promised=promised)
    else:
        says = say("{day}: not in time; {promised:.0f} in 100 promised", day=day, promised=promised)
    return Spot(k + 1.0, 100 * row.share, "dot" if hit else "cross", one.seq, one.panel_id, says)

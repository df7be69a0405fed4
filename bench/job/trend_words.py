"""Trends told, not hidden: what the book shows beyond chance, each in a plain sentence."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from bench.fault import Fault
from bench.job.adhesive_graphs import called
from bench.job.job import Job
from bench.job.learning import hands_of, stated_by
from bench.job.remembered import REMEMBERED_FROM, made_of
from bench.job.same_hands import of_these_hands
from bench.pace.glueup import GlueUp
from bench.pace.hands import Hands
from bench.pace.trends import Trend, class_effort, life_on_warm_days, practice_and_tiring
from bench.speech import say, warmer

SURE = 0.95  # a trend is told where so much of its interval lies on one side
THIRD = 2  # earlier mixes of the same day


def nothing_yet() -> str:
    """Say that a trend does not show."""
    return say("nothing to be seen yet")


def trends_of(job: Job) -> tuple[str, ...]:
    """Return a sentence on every trend that is looked for, over all panels of the book."""
    made = made_of(of_these_hands(job.store, REMEMBERED_FROM))
    by_name: dict[str, list[GlueUp]] = {}
    for one in made:
        by_name.setdefault(called(job, one.event.adhesive), []).append(one.glue_up)
    glue_ups = [one.glue_up for one in made]
    return trends_told(glue_ups, hands_of(glue_ups, stated_by(job.state.bench)), by_name)


def trends_told(
    glue_ups: Sequence[GlueUp], hands: Hands, of_adhesive: Mapping[str, Sequence[GlueUp]]
) -> tuple[str, ...]:
    """Say each trend in one sentence where its interval leaves out that there is none; else that.

    Four are looked for: faster over the weeks (Wright's exponent), slower through a day, slower on small
    pieces, an adhesive that goes sooner on warm days than its label allows. At 19 in 20 each, one of them
    shows by chance in about a fifth of all books. By the patch nothing is said of small pieces, and a piece
    is a patch with its share of the bed.
    """
    weeks = day = nothing_yet()
    try:
        practice, tiring = practice_and_tiring(glue_ups, hands, level=SURE, zone=None)
    except Fault:
        pass
    else:
        weeks = _weeks(practice) if practice.clear else _no_weeks(practice)
        day = _said(tiring, _day)
    told = [say("Over the weeks: {trend}.", trend=weeks), say("Through the day: {trend}.", trend=day)]
    if hands.by_patch is None:
        small = _said(class_effort(hands, 0, level=SURE), _small)
        told.append(say("Small pieces: {trend}.", trend=small))
    for name, some in of_adhesive.items():
        try:
            warm = _said(life_on_warm_days(some, working_time_s=1.0, level=SURE), _warm)
        except Fault:
            warm = nothing_yet()
        told.append(say("{name} on warm days: {trend}.", name=name, trend=warm))
    return tuple(told)


def _said(trend: Trend, words: Callable[[Trend], str]) -> str:
    return words(trend) if trend.clear else nothing_yet()


def _no_weeks(b: Trend) -> str:
    return say("nothing to be seen yet ({exponent})", exponent=_exponent(b))


def _exponent(b: Trend) -> str:
    value, low, high = (
        say("{value:.2g}", value=number).replace("-", "\u2212") for number in (b.value, b.low, b.high)
    )
    return say("Wright's exponent {exponent}, between {low} and {high}", exponent=value, low=low, high=high)


def _weeks(b: Trend) -> str:
    off, exponent = 100 * (1 - 2**b.value), _exponent(b)
    if b.value < 0:
        return say(
            "faster; twice as many glue-ups take {off:.0f} % off the time of a piece ({exponent})",
            off=off,
            exponent=exponent,
        )
    return say(
        "slower; twice as many glue-ups add {more:.0f} % to the time of a piece ({exponent})",
        more=-off,
        exponent=exponent,
    )


def _day(factor: Trend) -> str:
    more, low, high = (100 * (f**THIRD - 1) for f in (factor.value, factor.low, factor.high))
    if factor.value > 1:
        return say(
            "slower; a piece of a day's third mix takes {more:.0f} % longer ({low:.0f} to {high:.0f} %)",
            more=more,
            low=low,
            high=high,
        )
    return say(
        "faster; a piece of a day's third mix takes {less:.0f} % less ({low:.0f} to {high:.0f} %)",
        less=-more,
        low=-high,
        high=-low,
    )


def _small(effort: Trend) -> str:
    times = {"times": effort.value, "low": effort.low, "high": effort.high}
    if effort.value > 1:
        return say(
            "slower; one takes {times:.2f} times as long as a medium one ({low:.2f} to {high:.2f})", **times
        )
    return say(
        "faster; one takes {times:.2f} times as long as a medium one ({low:.2f} to {high:.2f})", **times
    )


def _warm(factor: Trend) -> str:
    off, low, high = (100 * (1 - f) for f in (factor.value, factor.high, factor.low))
    if factor.value < 1:
        return say(
            "goes sooner than the label allows; {span} cost {off:.0f} % more ({low:.0f} to {high:.0f} %)",
            span=warmer(10.0),
            off=off,
            low=low,
            high=high,
        )
    return say(
        "lasts longer than the label allows; {span} cost less, by {off:.0f} % ({low:.0f} to {high:.0f} %)",
        span=warmer(10.0),
        off=-off,
        low=-high,
        high=-low,
    )

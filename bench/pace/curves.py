"""What the book has learned, as numbers to be plotted: pace believed and kept, promises, life by warmth."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from bench.fault import Fault
from bench.pace.glueup import GlueUp
from bench.pace.hands import DEFAULT_HALF_LIFE, Hands, away_days, counts_of, learn_hands, widened
from bench.pace.life import learn_life
from bench.pace.mixture import Mixture
from bench.pace.normal import FloatArray, cdf
from bench.pace.patches import ByPatch
from bench.speech import say

_RECALLED = 150  # glue-ups; with a half-life of 12, what lies further back weighs less than 1/4000
_EXACT = 200  # moments at which the book is read again from the start; between them it is carried on


class NoLevel(Fault):
    """Refuse a level that is no part of the whole; `level` keeps it."""

    def __init__(self, level: float) -> None:
        todo = say("give more than 0 and less than 1")
        super().__init__(say("a level of {level:g} cannot be", level=level), where=say("level"), todo=todo)
        self.level = level


@dataclass(frozen=True)
class PaceSeen:
    """One glue-up: medium pieces a minute as it turned out, and 8 of 10 as believed just before it.

    which: its number in the list given. All are in medium pieces by what is known of small and large ones
    now, so that what turned out lies in the band exactly where the setting time lay in what was foretold.
    """

    which: int
    per_min: float
    low: float
    middle: float
    high: float

    @property
    def as_believed(self) -> bool:
        return self.low <= self.per_min <= self.high


@dataclass(frozen=True)
class PaceCurve:
    """Every glue-up that tells of the hands, oldest first, and (low, middle, high) of the next."""

    seen: tuple[PaceSeen, ...]
    next: tuple[float, float, float]


@dataclass(frozen=True)
class KeptSoFar:
    """After so many glue-ups: the part kept, its exact interval, and the part that was promised."""

    share: float
    low: float
    high: float
    promised: float


@dataclass(frozen=True)
class LifeSeen:
    """One mix. which: its number in the list given; exact: it went stringy then, else it lasted longer."""

    which: int
    temperature_C: float
    minutes: float
    exact: bool


@dataclass(frozen=True)
class LifeCurve:
    """Mixes of one adhesive by the room's warmth; label and learned life at each warmth seen, coldest first.

    label_min: the median of what the label gave for the mixes there. low, middle, high: 8 of 10 of the mixes
    to come.
    """

    seen: tuple[LifeSeen, ...]
    temperature_C: tuple[float, ...]
    label_min: tuple[float, ...]
    low_min: tuple[float, ...]
    middle_min: tuple[float, ...]
    high_min: tuple[float, ...]


def pace_curve(
    glue_ups: Sequence[GlueUp],
    *,
    pace_per_min: float | None = None,
    by_patch: ByPatch | None = None,
    half_life: float | None = DEFAULT_HALF_LIFE,
) -> PaceCurve:
    """Return the pace of each glue-up beside what was believed before it, learned one after the other.

    Glue-ups oldest first; those that tell nothing of the hands, or were never closed, are not shown, nor are
    those by the patch, or with by_patch, in usual patches a minute, those piece by piece. Beyond
    200 the book is read again from the start at some of them only and carried on between, which moves the
    band by less than it is wide on a sheet.
    """
    told = [
        (k, g)
        for k, g in enumerate(glue_ups)
        if g.learn_pace and g.is_by_patch == (by_patch is not None)
    ]
    made = [g for _, g in told]

    def learn(some: Sequence[GlueUp]) -> Hands:
        return learn_hands(some, pace_per_min=pace_per_min, by_patch=by_patch, half_life=half_life)

    believed = _believed(made, learn)
    after = learn(made[-_RECALLED:])
    effort = after.expected_s / after.one_s
    counts = np.array([counts_of(g) for g in made], dtype=np.float64).reshape(-1, 3)
    settings = [hands.log_setting(count) for hands, count in zip(believed, counts, strict=True)]
    spread = _quantiles([*settings, after.log_setting(after.one)])
    minutes = np.append(counts @ effort, 1.0)[:, None] * 60.0 / np.exp(spread)
    seen = [
        PaceSeen(k, float(counts[row] @ effort) * 60.0 / g.seconds, *minutes[row].tolist())
        for row, (k, g) in enumerate(told)
        if g.closed
    ]
    low, middle, high = minutes[-1].tolist()
    return PaceCurve(tuple(seen), (low, middle, high))


def _believed(made: Sequence[GlueUp], learn: Callable[[Sequence[GlueUp]], Hands]) -> list[Hands]:
    """Return what was known just before each glue-up."""
    every = 1 + len(made) // _EXACT
    believed: list[Hands] = []
    hands = learn([])
    for k, glue_up in enumerate(made):
        if k % every == 0:
            hands = learn(made[max(0, k - _RECALLED) : k])
        believed.append(_come_back(hands, glue_up))
        if every > 1:
            hands = hands.after(glue_up)
    return believed


def _come_back(hands: Hands, glue_up: GlueUp) -> Hands:
    """Return the hands at the start of a glue-up, wider after days away."""
    if hands.half_life is None:
        return hands
    kept = 0.5 ** (away_days(hands.last_utc, glue_up.started_utc) / hands.half_life)
    return replace(hands, nig=widened(hands.known.nig, kept))


def _quantiles(settings: Sequence[Mixture]) -> FloatArray:
    """Return the 90, 50 and 10 % quantiles of log setting time, slow to fast. (k, 3)

    All at once by halving, since one by one would take seconds for a long book.
    """
    mean = np.array([float(s.mean[0]) for s in settings])
    sd = np.concatenate([s.sd for s in settings])
    weight = np.stack([s.weight for s in settings])
    low, high = np.zeros(len(settings)), 4.0 * sd.max(axis=1)
    for _ in range(40):
        half = 0.5 * (low + high)
        below = _below(half, sd, weight) < 0.9
        low, high = np.where(below, half, low), np.where(below, high, half)
    return np.stack([mean + high, mean, mean - high], axis=1)


def _below(off: FloatArray, sd: FloatArray, weight: FloatArray) -> FloatArray:
    found: FloatArray = (cdf(off[:, None] / sd) * weight).sum(axis=1)
    return found


def clopper_pearson(
    hits: FloatArray, tries: FloatArray, *, level: float = 0.9
) -> tuple[FloatArray, FloatArray]:
    """Return the exact interval of a chance, (k,) lows and highs, from hits (k,) out of tries (k,).

    Clopper & Pearson 1934, as quantiles of the beta distribution: low = B(a; h, n − h + 1), high =
    B(1 − a; h + 1, n − h), a = (1 − level)/2; 0 where nothing hit, 1 where all did, 0 to 1 without a try.
    A level that is no part of the whole raises NoLevel.
    """
    from scipy.special import betaincinv

    if not 0 < level < 1:
        raise NoLevel(level)
    hits, tries = np.asarray(hits, dtype=np.float64), np.asarray(tries, dtype=np.float64)
    tail, missed = 0.5 * (1 - level), tries - hits
    low = np.where(hits > 0, betaincinv(np.maximum(hits, 1), missed + 1, tail), 0.0)
    high = np.where(missed > 0, betaincinv(hits + 1, np.maximum(missed, 1), 1 - tail), 1.0)
    return low, high


def promise_curve(
    promised: Sequence[float], kept: Sequence[bool], *, level: float = 0.9
) -> tuple[KeptSoFar, ...]:
    """Return, after each glue-up, the part of promises kept, its exact interval, and the part promised."""
    tries = np.arange(1.0, len(kept) + 1)
    hits = np.cumsum(np.asarray(kept, dtype=np.float64))
    low, high = clopper_pearson(hits, tries, level=level)
    mean = np.cumsum(np.asarray(promised, dtype=np.float64)) / tries
    rows = np.stack([hits / tries, low, high, mean], axis=1).tolist()
    return tuple(KeptSoFar(*row) for row in rows)


def life_curve(glue_ups: Sequence[GlueUp], *, may_lengthen: bool = False) -> LifeCurve:
    """Return the life of one adhesive's mixes by warmth; mixes that tell nothing of it are not shown.

    may_lengthen: as the maker consented. Where the label's time is not known for any mix there are no lines.
    """
    seen = [
        LifeSeen(k, g.temperature_C, (g.stringy_after_s or g.clock_s) / 60.0, g.stringy_after_s is not None)
        for k, g in enumerate(glue_ups)
        if g.learn_life and (g.stringy_after_s or g.clock_s) > 0
    ]
    labels: dict[float, list[float]] = {}
    for one in seen:
        label_s = glue_ups[one.which].label_s
        if label_s:
            labels.setdefault(round(one.temperature_C), []).append(label_s / 60.0)
    warmth = sorted(labels)
    label = [float(np.median(labels[w])) for w in warmth]
    timed = [g for g in glue_ups if g.label_s]
    life = learn_life(timed, working_time_s=1.0, may_lengthen=may_lengthen)
    low, middle, high = (tuple(life.quantile_s(p, one) for one in label) for p in (0.1, 0.5, 0.9))
    return LifeCurve(tuple(seen), tuple(warmth), tuple(label), low, middle, high)

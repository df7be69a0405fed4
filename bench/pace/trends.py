"""Trends told, not hidden: faster over the weeks, slower late in a day, slower on small pieces, warm days."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, tzinfo
from statistics import NormalDist

import numpy as np

from bench.adhesive.kinetics import ZERO_C_K
from bench.fault import Fault
from bench.pace.censored import fit_censored
from bench.pace.glueup import GlueUp
from bench.pace.hands import Hands, counts_of, in_order
from bench.pace.mixture import Mixture, log_variance_nodes
from bench.pace.normal import FloatArray
from bench.speech import say, say_n

EV_K = 11605.0  # 1 eV over Boltzmann's constant [K]
REFERENCE_C = 23.0


class TooFewForTrend(Fault):
    """Tell that a trend needs more glue-ups than there are; both counts are kept."""

    def __init__(self, count: int, needed: int) -> None:
        what = say_n("{count} glue-up shows no trend yet", "{count} glue-ups show no trend yet", count)
        super().__init__(what, todo=say("look again after {count}", count=needed))
        self.count = count
        self.needed = needed


@dataclass(frozen=True, eq=False)
class Regression:
    """Least squares: coefficient (p,), their sd (p,), residual sd and degrees of freedom."""

    coefficient: FloatArray
    sd: FloatArray
    residual_sd: float
    freedom: int

    def interval(self, which: int, level: float = 0.8) -> tuple[float, float]:
        """Return the interval of a coefficient from Student's t."""
        reach = t_quantile(0.5 + 0.5 * level, self.freedom) * float(self.sd[which])
        centre = float(self.coefficient[which])
        return centre - reach, centre + reach


@dataclass(frozen=True)
class Trend:
    """One number with its interval; `clear` where the interval leaves out what no trend would be."""

    value: float
    low: float
    high: float
    none: float

    @property
    def clear(self) -> bool:
        return not self.low <= self.none <= self.high


def t_quantile(p: float, freedom: float) -> float:
    """Return the quantile of Student's t, a normal of inverse-gamma variance (ν/2, ν/2)."""
    log_variance, weight = log_variance_nodes(freedom / 2, freedom / 2, nodes=61)
    return Mixture(np.zeros(1), np.exp(0.5 * log_variance)[None], weight).quantile(p)


def least_squares(x: FloatArray, y: FloatArray) -> Regression:
    """Regress y (n,) on x (n, p); n ≤ p, or columns that say the same, raise TooFewForTrend."""
    count, width = x.shape
    if count <= width or np.linalg.matrix_rank(x) < width:
        raise TooFewForTrend(count, width + 1)
    q, r = np.linalg.qr(x)
    coefficient = np.linalg.solve(r, q.T @ y)
    residual = y - x @ coefficient
    residual_sd = math.sqrt(float(residual @ residual) / (count - width))
    sd = residual_sd * np.linalg.norm(np.linalg.inv(r), axis=1)
    return Regression(coefficient, sd, residual_sd, count - width)


def practice_and_tiring(
    glue_ups: Sequence[GlueUp], hands: Hands, *, level: float = 0.8, zone: tzinfo | None = UTC
) -> tuple[Trend, Trend]:
    """Return Wright's exponent b of time a piece ∝ (glue-ups so far)^b, and a later mix's extra time.

    b = −0.32 is the 80 % curve of Wright (1936): each doubling takes 80 % of the time. The second is the
    factor on time for every earlier mix of the same day; (1, 1, 1) where no day saw two. Closed glue-ups
    of known start only; under four raise TooFewForTrend. level: of the intervals. zone: whose midnight ends
    a day; None: this machine's. Of glue-ups by the patch where the hands are learned from those, else of the
    others.
    """
    told = [g for g in glue_ups if g.learn_pace and g.closed and g.started_utc is not None]
    made = in_order([g for g in told if g.is_by_patch == (hands.by_patch is not None)])
    if len(made) < 4:
        raise TooFewForTrend(len(made), 4)
    weight = np.exp(hands.known.log_weight)
    y = np.log([g.seconds / float(counts_of(g) @ weight) for g in made])
    earlier = _earlier_that_day([g.started_utc.astimezone(zone).date() for g in made if g.started_utc])
    columns = [np.ones(len(made)), np.log(np.arange(1, len(made) + 1))]
    tires = earlier.any()
    found = least_squares(np.column_stack([*columns, earlier] if tires else columns), y)
    practice = Trend(float(found.coefficient[1]), *found.interval(1, level), none=0.0)
    if not tires:
        return practice, Trend(1.0, 1.0, 1.0, none=1.0)
    low, high = found.interval(2, level)
    return practice, Trend(math.exp(found.coefficient[2]), math.exp(low), math.exp(high), none=1.0)


def _earlier_that_day(days: Sequence[date]) -> FloatArray:
    """Return how many came before each on the same day."""
    seen: Counter[date] = Counter()
    earlier = np.zeros(len(days))
    for k, day in enumerate(days):
        earlier[k] = seen[day]
        seen[day] += 1
    return earlier


def _reach(level: float) -> float:
    """Return how many standard deviations hold so much of a normal: 1.28 for 8 of 10."""
    return NormalDist().inv_cdf(0.5 + 0.5 * level)


def class_effort(hands: Hands, which: int, *, level: float = 0.8) -> Trend:
    """Return the time of a piece of a class over a medium one's, from the weights' posterior."""
    reach = _reach(level) * math.sqrt(float(hands.known.covariance[which, which]))
    centre = float(hands.known.log_weight[which])
    return Trend(math.exp(centre), math.exp(centre - reach), math.exp(centre + reach), none=1.0)


def life_on_warm_days(glue_ups: Sequence[GlueUp], *, working_time_s: float, level: float = 0.8) -> Trend:
    """Return what 10 °C above 23 °C do to life over label: 1 where the label's rule is right.

    log(life/label) on 11605·(1/T − 1/T_23), censored where the maker finished first. Too few stringy
    ones, or all at one temperature, raise a Fault.
    """
    made = [g for g in glue_ups if g.learn_life and (g.stringy_after_s or g.clock_s) > 0]
    kelvin = np.array([g.temperature_C for g in made], dtype=np.float64) + ZERO_C_K
    if np.ptp(kelvin) < 2.0 if kelvin.size else True:
        raise TooFewForTrend(len(made), len(made) + 1)
    reference = 1 / (REFERENCE_C + ZERO_C_K)
    x = np.column_stack([np.ones(len(made)), EV_K * (1 / kelvin - reference)])
    ratio = np.array([(g.stringy_after_s or g.clock_s) / (g.label_s or working_time_s) for g in made])
    exact = np.array([g.stringy_after_s is not None for g in made], dtype=bool)
    found = fit_censored(x, ratio, exact)
    ten = EV_K * (1 / (REFERENCE_C + 10 + ZERO_C_K) - reference)
    reach = _reach(level) * abs(ten) * math.sqrt(float(found.covariance[1, 1]))
    centre = ten * float(found.coefficient[1])
    return Trend(math.exp(centre), math.exp(centre - reach), math.exp(centre + reach), none=1.0)

"""How long a mix stays workable against its label: log-normal, learned from when it went stringy."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from bench.fault import Fault
from bench.pace.glueup import GlueUp
from bench.pace.normal import FloatArray, cdf, log_tail
from bench.speech import say

PRIOR_SD = 0.12  # of log(life/label) for one mix, before any was seen
OFFSET_SD = 0.07  # of that, what a lot adds to every mix of this product
FAR_SHARE, FAR_SD = 0.03, 0.25  # products that are far off their label: old hardener, a warm cupboard
SPREAD_SD_LOG = 0.25  # of log τ, τ the scatter from mix to mix
_OFFSET_VARIANCE = (1 - FAR_SHARE) * OFFSET_SD**2 + FAR_SHARE * FAR_SD**2
# Centre of log τ for which this and the mean of τ² make 0.12².
LOG_SPREAD = 0.5 * math.log(PRIOR_SD**2 - _OFFSET_VARIANCE) - SPREAD_SD_LOG**2
EXACT_TO_LENGTHEN = 3
OTHER_LOT = 0.3  # what a mix of another lot counts: it tells of the product, not of this lot; no source
NODES = 33


class WorkingTimeNotPositive(Fault):
    """Refuse a working time that is no time; `working_time_s` keeps it."""

    def __init__(self, working_time_s: float) -> None:
        what = say("a working time of {time:g} min cannot be", time=working_time_s / 60)
        todo = say("give the label's minutes, more than 0")
        super().__init__(what, where=say("working time"), todo=todo)
        self.working_time_s = working_time_s


def require_working_time(working_time_s: float) -> None:
    """Raise WorkingTimeNotPositive unless the time is finite and more than 0."""
    if not (math.isfinite(working_time_s) and working_time_s > 0):
        raise WorkingTimeNotPositive(working_time_s)


@cache
def standard_nodes() -> tuple[FloatArray, FloatArray]:
    """Return (NODES,) points of a standard normal and their trapezoid weights."""
    z = np.linspace(-5.0, 5.0, NODES)
    weight = np.exp(-0.5 * z * z)
    return z, weight / weight.sum()


@dataclass(frozen=True, eq=False)
class Life:
    """Predictive of log(life/label) of the next mix, as its quantiles at standard normal points.

    log_ratio: (NODES,) log(life/label) at the points of `standard_nodes`.
    exact_count, censored_count: mixes seen to go stringy, and finished before.
    would_lengthen: the book says longer than the label, but the maker has not consented.
    """

    log_ratio: FloatArray
    exact_count: int = 0
    censored_count: int = 0
    would_lengthen: bool = False

    def quantile_s(self, p: float, label_s: float) -> float:
        """Return the time that a share p of mixes does not outlast. [s]"""
        z, _ = standard_nodes()
        return label_s * math.exp(float(np.interp(NormalDist().inv_cdf(p), z, self.log_ratio)))


def learn_life(
    glue_ups: Sequence[GlueUp],
    *,
    working_time_s: float,
    may_lengthen: bool = False,
    lot: str | None = None,
) -> Life:
    """Learn the life of one product (and lot) against its label from glue-ups with it.

    lot: of the next mix; those known to be of another lot count OTHER_LOT. None: all count alike.

    log(life/label) = b + τ·z for each mix. b ~ N(0, 0.07²), or for three products in a hundred N(0, 0.25²);
    log τ ~ N(log 0.083, 0.25²). So the next mix has a standard deviation of 0.12 before any was seen.
    Stringy is exact; finished, or never closed, before stringy is right-censored. Until three mixes went
    stringy no quantile is read longer than the label's own; from then on the median still may not pass
    the label unless `may_lengthen`.
    """
    require_working_time(working_time_s)
    learned = [g for g in glue_ups if g.learn_life]
    exact = np.array([g.stringy_after_s is not None for g in learned], dtype=bool)
    time_s = np.array([g.stringy_after_s or g.clock_s for g in learned], dtype=np.float64)
    label_s = np.array([g.label_s or working_time_s for g in learned], dtype=np.float64)
    keep = time_s > 0
    log_ratio, exact = np.log(time_s[keep] / label_s[keep]), exact[keep]
    weight = np.array([_weight_of(g.lot, lot) for g in learned], dtype=np.float64)[keep]
    label = _of_label()
    if not log_ratio.size:
        return Life(label)
    data = seen(log_ratio, exact, weight)
    found = _predictive(data)
    median = float(found[NODES // 2])
    longer = data.exact_count >= EXACT_TO_LENGTHEN and median > 0
    if data.exact_count < EXACT_TO_LENGTHEN:
        found = np.minimum(found, label)
    elif not may_lengthen:
        found = found - max(0.0, median)
    return Life(found, int(exact.sum()), int((~exact).sum()), longer and not may_lengthen)


def _weight_of(lot: str | None, next_lot: str | None) -> float:
    return 1.0 if lot is None or next_lot is None or lot == next_lot else OTHER_LOT


@dataclass(frozen=True, eq=False)
class Seen:
    """Logs of life over label: of the exact ones their weight, mean and squares; the censored ones binned.

    longer_than (c,) and how_many (c,): a censored mix is told to the half per cent below, so that a book
    of hundreds costs no more than one of dozens.
    """

    exact_count: float
    mean: float
    squares: float
    longer_than: FloatArray
    how_many: FloatArray


def seen(log_ratio: FloatArray, exact: NDArray[np.bool_], weight: FloatArray | None = None) -> Seen:
    """Return what a posterior needs of these observations; without weights each counts 1."""
    counts = np.ones(len(log_ratio)) if weight is None else weight
    told, sure = log_ratio[exact], counts[exact]
    mean = float(np.average(told, weights=sure)) if told.size else 0.0
    bins, place = np.unique(np.floor(log_ratio[~exact] * 200) / 200, return_inverse=True)
    how_many = np.bincount(place.reshape(-1), weights=counts[~exact], minlength=len(bins))
    return Seen(float(sure.sum()), mean, float(sure @ (told - mean) ** 2), bins, how_many.astype(np.float64))


def _log_posterior(data: Seen, b: FloatArray, log_tau: FloatArray) -> FloatArray:
    tau = np.exp(log_tau)
    misfit = (data.squares + data.exact_count * (data.mean - b) ** 2) / tau**2
    exact = -0.5 * misfit - data.exact_count * log_tau
    censored = log_tail((data.longer_than - b[:, None]) / tau[:, None]) @ data.how_many
    near = math.log((1 - FAR_SHARE) / OFFSET_SD) - 0.5 * (b / OFFSET_SD) ** 2
    far = math.log(FAR_SHARE / FAR_SD) - 0.5 * (b / FAR_SD) ** 2
    prior = np.logaddexp(near, far) - 0.5 * ((log_tau - LOG_SPREAD) / SPREAD_SD_LOG) ** 2
    total: FloatArray = exact + censored + prior
    return total


def _grid_posterior(data: Seen) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return b, τ and weights on a grid that closes in until its steps are finer than the posterior."""
    ends = [data.mean, *data.longer_than[[0, -1]]] if data.longer_than.size else [data.mean]
    b_span = (min(0.0, *ends) - 0.4, max(0.0, *ends) + 0.4)
    log_tau_span = (LOG_SPREAD - 4 * SPREAD_SD_LOG, LOG_SPREAD + 6 * SPREAD_SD_LOG)
    while True:
        # A product far off and one only unlucky are two peaks: no step may pass over one of them.
        steps = math.ceil((b_span[1] - b_span[0]) / 0.04)
        axes = np.linspace(*b_span, min(max(steps, 17), 129)), np.linspace(*log_tau_span, 11)
        b, log_tau = (part.ravel() for part in np.meshgrid(*axes, indexing="ij"))
        log_weight = _log_posterior(data, b, log_tau)
        weight = np.exp(log_weight - log_weight.max())
        weight /= weight.sum()
        spans = [_closer(part, weight, axis) for part, axis in ((b, axes[0]), (log_tau, axes[1]))]
        if spans == [None, None]:
            return b, np.exp(log_tau), weight
        b_span, log_tau_span = spans[0] or b_span, spans[1] or log_tau_span


def _closer(part: FloatArray, weight: FloatArray, axis: FloatArray) -> tuple[float, float] | None:
    """Return a narrower span about the posterior, or None where the steps are fine enough."""
    mean = float(weight @ part)
    sd = math.sqrt(float(weight @ (part - mean) ** 2))
    step = float(axis[1] - axis[0])
    if step <= sd:
        return None
    reach = max(4.5 * sd, 1.2 * step)
    return max(mean - reach, float(axis[0])), min(mean + reach, float(axis[-1]))


@cache
def _of_label() -> FloatArray:
    """Return the quantiles of log(life/label) before any mix was seen."""
    return _predictive(seen(np.zeros(0), np.zeros(0, dtype=bool)))


def _predictive(data: Seen) -> FloatArray:
    """Return the quantiles of the next mix's log(life/label) at the standard nodes."""
    b, tau, weight = _grid_posterior(data)
    keep = weight > 1e-8
    b, tau, weight = b[keep], tau[keep], weight[keep] / weight[keep].sum()
    mean = float(weight @ b)
    sd = math.sqrt(float(weight @ (tau**2 + (b - mean) ** 2)))
    x = mean + sd * np.linspace(-6.5, 6.5, 105)
    below = np.clip(cdf((x[:, None] - b) / tau) @ weight, 1e-12, 1 - 1e-12)
    wanted = cdf(standard_nodes()[0])
    return np.interp(np.log(wanted / (1 - wanted)), np.log(below / (1 - below)), x)

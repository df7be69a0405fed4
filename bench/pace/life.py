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
from bench.pace.normal import LOG_ROOT_2PI, FloatArray, cdf, log_tail

PRIOR_SD = 0.12  # of log(life/label) for one mix, before any was seen
OFFSET_SD = 0.08  # of that, what a lot or a cup adds to every mix of this product
SPREAD_SD_LOG = 0.25  # of log τ, τ the scatter from mix to mix
EXACT_TO_LENGTHEN = 3
NODES = 33


class WorkingTimeNotPositive(Fault):
    """Refuse a working time that is no time; `working_time_s` keeps it."""

    def __init__(self, working_time_s: float) -> None:
        what = f"a working time of {working_time_s / 60:g} min cannot be"
        super().__init__(what, where="working time", todo="give the label's minutes, more than 0")
        self.working_time_s = working_time_s


def require_working_time(working_time_s: float) -> None:
    """Raise WorkingTimeNotPositive unless the time is finite and more than 0."""
    if not (math.isfinite(working_time_s) and working_time_s > 0):
        raise WorkingTimeNotPositive(working_time_s)


@cache
def standard_nodes() -> tuple[FloatArray, FloatArray]:
    """Return (NODES,) points of a standard normal and their trapezoid weights."""
    z = np.linspace(-6.0, 6.0, NODES)
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


def learn_life(glue_ups: Sequence[GlueUp], *, working_time_s: float, may_lengthen: bool = False) -> Life:
    """Learn the life of one product (and lot) against its label from glue-ups with it.

    log(life/label) = b + τ·z for each mix, b ~ N(0, 0.08²), log τ ~ N(log 0.089, 0.25²), so that the
    next mix has a standard deviation of 0.12 before any was seen. Stringy is exact; finished, or never
    closed, before stringy is right-censored. Until three mixes went stringy no quantile is read longer
    than the label's own; from then on the median still may not pass the label unless `may_lengthen`.
    """
    require_working_time(working_time_s)
    learned = [g for g in glue_ups if g.learn_life]
    seen = np.array([g.stringy_after_s is not None for g in learned], dtype=bool)
    time_s = np.array([g.stringy_after_s or g.clock_s for g in learned], dtype=np.float64)
    label_s = np.array([g.label_s or working_time_s for g in learned], dtype=np.float64)
    keep = time_s > 0
    log_ratio, seen = np.log(time_s[keep] / label_s[keep]), seen[keep]
    label = PRIOR_SD * standard_nodes()[0]
    if not log_ratio.size:
        return Life(label)
    found = _predictive(log_ratio, seen)
    exact = int(seen.sum())
    median = float(found[NODES // 2])
    longer = exact >= EXACT_TO_LENGTHEN and median > 0
    if exact < EXACT_TO_LENGTHEN:
        found = np.minimum(found, label)
    elif not may_lengthen:
        found = found - max(0.0, median)
    return Life(found, exact, int((~seen).sum()), longer and not may_lengthen)


def log_likelihood(
    log_time: FloatArray, exact: NDArray[np.bool_], mean: FloatArray, sd: FloatArray
) -> FloatArray:
    """Return Σ over observations of log-normal log-likelihood terms, in log time.

    log_time, exact: (n,); mean, sd: (...) or (..., n). An exact one adds log φ(z) − log sd, a
    right-censored one log(1 − Φ(z)), z = (log_time − mean)/sd. For densities in time rather than log time
    subtract the sum of log_time over the exact ones.
    """
    z = (log_time - mean) / sd
    seen = -0.5 * z[..., exact] ** 2 - LOG_ROOT_2PI - np.log(np.broadcast_to(sd, z.shape)[..., exact])
    total: FloatArray = seen.sum(axis=-1) + log_tail(z[..., ~exact]).sum(axis=-1)
    return total


@cache
def _grid() -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return b, τ and log prior on a grid that reaches from lives of a fifth to the double of the label."""
    coarse, fine = (np.linspace(-1.6, -0.42, 20), np.linspace(0.42, 0.8, 8)), np.linspace(-0.4, 0.4, 41)
    offset = np.concatenate([coarse[0], fine, coarse[1]])
    width = np.gradient(offset)
    centre = math.sqrt(PRIOR_SD**2 - OFFSET_SD**2)
    log_spread = math.log(centre) + SPREAD_SD_LOG * np.linspace(-3.5, 3.5, 15)
    b, log_tau = (part.ravel() for part in np.meshgrid(offset, log_spread, indexing="ij"))
    prior = -0.5 * (b / OFFSET_SD) ** 2 - 0.5 * ((log_tau - math.log(centre)) / SPREAD_SD_LOG) ** 2
    return b, np.exp(log_tau), prior + np.log(np.repeat(width, log_spread.size))


def _predictive(log_ratio: FloatArray, exact: NDArray[np.bool_]) -> FloatArray:
    """Return the quantiles of the next mix's log(life/label) at the standard nodes."""
    b, tau, log_prior = _grid()
    log_posterior = log_prior + log_likelihood(log_ratio, exact, b[:, None], tau[:, None])
    weight = np.exp(log_posterior - log_posterior.max())
    keep = weight > 1e-9
    b, tau, weight = b[keep], tau[keep], weight[keep] / weight[keep].sum()
    mean = float(weight @ b)
    sd = math.sqrt(float(weight @ (tau**2 + (b - mean) ** 2)))
    x = mean + sd * np.linspace(-8.0, 8.0, 161)
    below = cdf((x[:, None] - b) / tau) @ weight
    z, _ = standard_nodes()
    return np.interp(cdf(z), below, x)

"""Fit the model of setting time: conjugate in pace and scatter, Gauss–Newton in the classes' weights."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.pace.normal import LOG_ROOT_2PI, log_tail

FloatArray = NDArray[np.float64]

ALPHA0 = 2.0
BETA0 = 0.18**2  # with ALPHA0 the mean of σ² is 0.18²
KAPPA0 = (0.18 / 0.35) ** 2  # a stated pace is off by a standard deviation of 0.35 in log time
CLASS_SD = 0.3  # of log w_c about 0
WILD_FROM = 4  # the first glue-up that can be called wild has three others to be judged by
WILD_T = 3.5  # standard deviations of the others' prediction
OTHERS = np.array([0, 2])  # small and large; medium is the unit


@dataclass(frozen=True)
class NormalInverseGamma:
    """μ | σ² ~ N(m, σ²/κ), σ² ~ inverse gamma(α, β)."""

    m: float
    kappa: float
    alpha: float
    beta: float


@dataclass(frozen=True, eq=False)
class Fitted:
    """The posterior: (μ, σ²) given the weights, and the weights' mode and covariance."""

    nig: NormalInverseGamma
    log_weight: FloatArray  # (3,)
    covariance: FloatArray  # (3, 3)
    mean_share: FloatArray  # (3,)
    log_rate: FloatArray  # (n,) log seconds a medium piece, by glue-up
    used: FloatArray  # (n,) weight that each glue-up had, less for a censored one


def fit(
    counts: FloatArray, log_s: FloatArray, exact: NDArray[np.bool_], weight: FloatArray, m0: float
) -> Fitted:
    """Return the posterior of n glue-ups: counts (n, 3) by class, log_s (n,) log setting time.

    y_k = log T_k − log Σ n_kc·w_c ~ N(μ, σ²), each to the power of its weight; where not exact, T_k is
    only known to be longer (right-censored). log w_c ~ N(0, 0.3²) for small and large at the mode of its
    marginal posterior p(w | T) ∝ β(w)^−α · N(log w), whose σ² is β/α. With medium pieces alone the
    weights stay at 1 and this is the conjugate update, whatever n; n = 0 gives the prior.
    """
    theta = np.zeros(3)
    nig = NormalInverseGamma(m0, KAPPA0, ALPHA0, BETA0)
    for _ in range(50):
        effort = counts * np.exp(theta)
        total = effort.sum(axis=1)
        y = log_s - np.log(total)
        share = (effort / total[:, None])[:, OTHERS]
        before = nig
        used, value, more = _as_exact(y, exact, weight, nig)
        nig = _update(m0, used, value, more)
        mean_share = used @ share / nig.kappa
        scale = nig.alpha / nig.beta
        precision = scale * (share.T @ (used[:, None] * share) - nig.kappa * np.outer(mean_share, mean_share))
        precision += np.eye(2) / CLASS_SD**2
        pull = scale * (share.T @ (used * (value - nig.m))) - theta[OTHERS] / CLASS_SD**2
        step = np.clip(np.linalg.solve(precision, pull), -0.5, 0.5)
        if np.abs(step).max() < 1e-9 and (exact.all() or abs(nig.m - before.m) < 1e-9):
            break
        theta[OTHERS] += step
    covariance = np.zeros((3, 3))
    covariance[np.ix_(OTHERS, OTHERS)] = np.linalg.inv(precision)
    return Fitted(nig, theta, covariance, np.array([mean_share[0], 0.0, mean_share[1]]), value, used)


def _update(m0: float, used: FloatArray, value: FloatArray, more_beta: float) -> NormalInverseGamma:
    kappa = KAPPA0 + float(used.sum())
    m = (KAPPA0 * m0 + float(used @ value)) / kappa
    squares = float(used @ (value - m) ** 2) + KAPPA0 * (m - m0) ** 2
    return NormalInverseGamma(m, kappa, ALPHA0 + 0.5 * float(used.sum()), BETA0 + 0.5 * squares + more_beta)


def _as_exact(
    y: FloatArray, exact: NDArray[np.bool_], weight: FloatArray, nig: NormalInverseGamma
) -> tuple[FloatArray, FloatArray, float]:
    """Return weights, values and an addition to β that stand for the censored glue-ups.

    With the hazard h of the normal at z = (y − m)/σ, a value seen only to exceed y has in m the score
    h/σ and the information h(h − z)/σ², and in log σ the score z·h: the same as an exact value
    m + σ/(h − z) of weight h(h − z), once β is corrected.
    """
    if exact.all():
        return weight, y, 0.0
    sigma = (nig.beta / nig.alpha) ** 0.5
    z = (y[~exact] - nig.m) / sigma
    hazard = np.exp(-0.5 * z * z - LOG_ROOT_2PI - log_tail(z))
    gap = np.maximum(hazard - z, 1e-9)
    used, value = weight.copy(), y.copy()
    used[~exact] = weight[~exact] * hazard * gap
    value[~exact] = nig.m + sigma / gap
    more = 0.5 * sigma**2 * float(weight[~exact] @ (hazard**2 - hazard / gap))
    return used, value, more


def without_wild(
    counts: FloatArray, log_s: FloatArray, exact: NDArray[np.bool_], weight: FloatArray, m0: float
) -> FloatArray:
    """Return the weights with those of wild glue-ups cut by (3.5/t)².

    t is the distance of a glue-up from the prediction of all the others, in their predictive scale, so a
    wild one cannot hide behind the scatter it makes. Under four glue-ups nothing is called wild; of a
    true model's glue-ups about one in two hundred is touched.
    """
    if len(log_s) < WILD_FROM:
        return weight
    found = fit(counts, log_s, exact, weight, m0)
    nig, used = found.nig, found.used
    kappa = nig.kappa - used
    residual = (found.log_rate - nig.m) * nig.kappa / kappa
    beta = nig.beta - 0.5 * used * residual**2 * kappa / nig.kappa
    alpha = nig.alpha - 0.5 * used
    t = np.abs(residual) / np.sqrt(np.maximum(beta, 1e-12) / alpha * (1 + 1 / kappa))
    return np.where(exact & (t > WILD_T), weight * (WILD_T / np.maximum(t, WILD_T)) ** 2, weight)

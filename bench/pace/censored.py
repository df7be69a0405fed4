"""Fit a log-normal regression to times of which some are only known to be longer."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.fault import Fault
from bench.pace.normal import LOG_ROOT_2PI, FloatArray, log_tail
from bench.speech import say


class TooFewToFit(Fault):
    """Tell that the exact times are fewer than what is to be fitted; both counts are kept."""

    def __init__(self, exact_count: int, needed: int) -> None:
        what = say(
            "{count} exact times cannot tell {coefficients} coefficients and a scatter",
            count=exact_count,
            coefficients=needed - 1,
        )
        super().__init__(what, todo=say("wait for {count}", count=needed))
        self.exact_count = exact_count
        self.needed = needed


@dataclass(frozen=True, eq=False)
class CensoredFit:
    """Maximum likelihood of log time = x·coefficient + sd·z; covariance (p + 1, p + 1) ends with log sd.

    log_likelihood is of the times themselves, not of their logs.
    """

    coefficient: FloatArray
    sd: float
    covariance: FloatArray
    log_likelihood: float


def fit_censored(x: FloatArray, time: FloatArray, exact: NDArray[np.bool_]) -> CensoredFit:
    """Return the fit of n times (n,) on x (n, p); where not exact, a time is a right-censoring bound.

    Newton steps in (coefficient, log sd) from least squares on all times, halved until the likelihood
    rises. Fewer than p + 1 exact times raise TooFewToFit.
    """
    width = x.shape[1]
    if int(exact.sum()) <= width:
        raise TooFewToFit(int(exact.sum()), width + 1)
    y = np.log(time)
    coefficient = np.linalg.lstsq(x, y, rcond=None)[0]
    spread = max(float(np.sqrt(np.mean((y - x @ coefficient) ** 2))), 1e-3)
    at = np.append(coefficient, math.log(spread))
    value, gradient, hessian = _log_likelihood(x, y, exact, at)
    for _ in range(100):
        step = _uphill(gradient, hessian)
        while True:
            there = at + step
            new = _log_likelihood(x, y, exact, there)
            if new[0] >= value - 1e-12 or np.abs(step).max() < 1e-12:
                break
            step = 0.5 * step
        gain, at, (value, gradient, hessian) = new[0] - value, there, new
        if gain < 1e-11 * max(1.0, abs(value)):
            break
    covariance: FloatArray = np.asarray(np.linalg.inv(-hessian), dtype=np.float64)
    return CensoredFit(at[:-1], math.exp(at[-1]), covariance, value - float(y[exact].sum()))


def _uphill(gradient: FloatArray, hessian: FloatArray) -> FloatArray:
    """Return the Newton step, damped until the quadratic has a top."""
    damping = 0.0
    while True:
        try:
            root = np.linalg.cholesky(damping * np.eye(len(gradient)) - hessian)
        except np.linalg.LinAlgError:
            damping = max(2 * damping, 1e-6 * float(np.abs(hessian).max()))
            continue
        step: FloatArray = np.linalg.solve(root.T, np.linalg.solve(root, gradient))
        return step


def _log_likelihood(
    x: FloatArray, y: FloatArray, exact: NDArray[np.bool_], at: FloatArray
) -> tuple[float, FloatArray, FloatArray]:
    """Return value, gradient and Hessian in (coefficient, log sd) of the log-likelihood in log time.

    With z = (y − x·c)/sd an exact time adds −z²/2 − log sd, a censored one log(1 − Φ(z)), whose
    derivatives in z are −h and −h(h − z), h the hazard.
    """
    sd = math.exp(min(max(float(at[-1]), -20.0), 20.0))
    z = (y - x @ at[:-1]) / sd
    tail = log_tail(z)
    hazard = np.exp(-0.5 * z * z - LOG_ROOT_2PI - tail)
    value = np.where(exact, -0.5 * z * z - LOG_ROOT_2PI - math.log(sd), tail).sum()
    first = np.where(exact, -z, -hazard)  # d/dz
    second = np.where(exact, -1.0, -hazard * (hazard - z))
    dz = np.hstack([-x / sd, -z[:, None]])  # of z in (coefficient, log sd)
    gradient = dz.T @ first
    gradient[-1] -= exact.sum()
    hessian = dz.T @ (second[:, None] * dz)
    cross = (x / sd).T @ first
    hessian[:-1, -1] += cross
    hessian[-1, :-1] += cross
    hessian[-1, -1] += float(z @ first)
    return float(value), gradient, hessian

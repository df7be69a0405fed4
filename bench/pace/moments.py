"""The conjugate core: a regression of log time on an intercept and two class shares, from its moments."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bench.pace.normal import FloatArray

ALPHA0 = 2.0
BETA0 = 0.18**2  # with ALPHA0 the mean of σ² is 0.18²
KAPPA0 = (0.18 / 0.35) ** 2  # a stated pace is off by a standard deviation of 0.35 in log time
CLASS_SD = 0.3  # of log w_c about 0
STIFF = 1 / CLASS_SD**2


@dataclass(frozen=True)
class NormalInverseGamma:
    """μ | σ² ~ N(m, σ²/κ), σ² ~ inverse gamma(α, β)."""

    m: float
    kappa: float
    alpha: float
    beta: float


@dataclass(frozen=True, eq=False)
class Posterior:
    """(μ, σ²) given the weights, and the weights' mode and covariance; medium is the unit.

    log_weight (3,), covariance (3, 3), mean_share (3,): by class, zeros for medium; mean_share is
    −∂m/∂(log w). moments (4, 4): Σ weight · x xᵀ over glue-ups, x = (1, share of small, share of large,
    log time a medium piece less the prior's m).
    """

    nig: NormalInverseGamma
    log_weight: FloatArray
    covariance: FloatArray
    mean_share: FloatArray
    moments: FloatArray


def stated(pace_per_min: float) -> NormalInverseGamma:
    """Return what is held before any glue-up: σ about 0.18, the stated pace right within about 35 %."""
    return NormalInverseGamma(math.log(60.0 / pace_per_min), KAPPA0, ALPHA0, BETA0)


def posterior(moments: FloatArray, prior: NormalInverseGamma) -> Posterior:
    """Return the posterior of v = μ + s·θ + ε, ε ~ N(0, σ²), from the moments of (1, s, v − prior's m).

    (μ, σ²) has the normal-inverse-gamma prior; θ ~ N(0, 0.3²·I) is held at the mode of its marginal
    p(θ | v) ∝ β(θ)^−α · N(θ), where ∂/∂θ sees σ² as β/α; its covariance is that of the same quadratic.
    Without small and large pieces θ stays 0 and this is the plain conjugate update; moments of zero give
    the prior.
    """
    kappa, alpha = prior.kappa + float(moments[0, 0]), prior.alpha + 0.5 * float(moments[0, 0])
    square = moments.tolist()
    s1, s2, v = (square[0][k] / kappa if kappa else 0.0 for k in (1, 2, 3))
    a11, a12, a22 = (
        square[1][1] - kappa * s1 * s1,
        square[1][2] - kappa * s1 * s2,
        square[2][2] - kappa * s2 * s2,
    )
    b1, b2 = square[1][3] - kappa * s1 * v, square[2][3] - kappa * s2 * v
    rest = prior.beta + 0.5 * (square[3][3] - kappa * v * v)
    t1, t2, beta = 0.0, 0.0, rest
    for _ in range(200):
        # Plain numbers: a solver for arrays would cost five times as much as the two equations are worth.
        p11, p12, p22 = STIFF + a11 * alpha / beta, a12 * alpha / beta, STIFF + a22 * alpha / beta
        det = p11 * p22 - p12 * p12
        t1 = (p22 * b1 - p12 * b2) * alpha / (beta * det)
        t2 = (p11 * b2 - p12 * b1) * alpha / (beta * det)
        fitted = t1 * b1 + t2 * b2 - 0.5 * (a11 * t1 * t1 + 2 * a12 * t1 * t2 + a22 * t2 * t2)
        last, beta = beta, max(rest - fitted, 1e-9)
        if abs(beta - last) <= 1e-12 * beta:
            break
    covariance = np.array([[p22, 0.0, -p12], [0.0, 0.0, 0.0], [-p12, 0.0, p11]]) / det
    nig = NormalInverseGamma(prior.m + v - s1 * t1 - s2 * t2, kappa, alpha, beta)
    return Posterior(nig, np.array([t1, 0.0, t2]), covariance, np.array([s1, 0.0, s2]), moments)

"""Mixtures of normals on a fixed grid of scales: the predictive of a normal of unknown variance."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from bench.pace.normal import FloatArray, cdf
from bench.pace.root import crossing


@lru_cache(maxsize=64)
def log_variance_nodes(alpha: float, beta: float, nodes: int = 21) -> tuple[FloatArray, FloatArray]:
    """Return (nodes,) values of log σ² and their weights for σ² ~ inverse gamma(α, β).

    The trapezoid rule on u = log(β/σ²), whose density ∝ exp(α·u − e^u) is smooth and dies out on both
    sides, so that the rule converges faster than any power of the step.
    """
    sd = math.sqrt(1 / alpha + 0.5 / alpha**2)  # near the root of the trigamma function
    u = math.log(alpha) + sd * np.linspace(-9.0, 5.0, nodes)
    log_density = alpha * u - np.exp(u)
    weight = np.exp(log_density - log_density.max())
    return math.log(beta) - u, weight / weight.sum()


@dataclass(frozen=True, eq=False)
class Mixture:
    """k variables, each a mixture of normals about one mean: mean (k,), sd (k, nodes), weight (nodes,)."""

    mean: FloatArray
    sd: FloatArray
    weight: FloatArray

    def cdf(self, x: FloatArray) -> FloatArray:
        """Return P(X ≤ x) for x (k, ...) against the k variables."""
        shape = (-1,) + (1,) * (x.ndim - 1)
        distance = x - self.mean.reshape(shape)
        sd = self.sd.reshape((self.sd.shape[0],) + (1,) * (x.ndim - 1) + (-1,))
        return cdf(distance[..., None] / sd) @ self.weight

    def quantile(self, p: float, which: int = 0) -> float:
        """Return the p-quantile of one of the variables, to a billionth."""
        if p == 0.5:
            return float(self.mean[which])
        sd = self.sd[which]
        reach = 1.01 * float(sd.max()) * NormalDist().inv_cdf(p)
        off = crossing(lambda x: float(cdf(x / sd) @ self.weight) - p, min(0.0, reach), max(0.0, reach))
        return float(self.mean[which]) + off

"""Fit the model of setting time to glue-ups: classes' weights, censored ones, wild ones."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bench.pace.moments import NormalInverseGamma, Posterior, posterior
from bench.pace.normal import LOG_ROOT_2PI, FloatArray, log_tail

WILD_FROM = 4  # the first glue-up that can be called wild has three others to be judged by
WILD_T = 3.5  # standard deviations of the others' prediction


@dataclass(frozen=True, eq=False)
class Table:
    """n glue-ups: counts (n, 3) by class, log_s (n,) log setting time, exact (n,), weight (n,).

    Where not exact, the setting time is only known to be longer.
    """

    counts: FloatArray
    log_s: FloatArray
    exact: NDArray[np.bool_]
    weight: FloatArray


@dataclass(frozen=True, eq=False)
class Rows:
    """A table seen from given weights of the classes, as rows of a weighted linear regression."""

    share: FloatArray  # (n, 2) of small and large in the effort
    rate: FloatArray  # (n,) log seconds a medium piece
    weight: FloatArray  # (n,)


def fit(table: Table, prior: NormalInverseGamma) -> tuple[Posterior, Rows]:
    """Return the posterior, and the rows it was found from.

    y_k = log T_k − log Σ n_kc·w_c ~ N(μ, σ²), each likelihood to the power of its weight; Gauss–Newton in
    log w, each step a conjugate regression on the shares of effort. No glue-ups give the prior.
    """
    log_weight, nig = np.zeros(3), prior
    for _ in range(50):
        rows = rows_of(table, log_weight, nig)
        found = posterior(moments_of(rows, log_weight, prior.m) + _censored_excess(table, rows, nig), prior)
        moved = max(
            np.abs(found.log_weight - log_weight).max(),
            0.0 if table.exact.all() else abs(found.nig.m - nig.m),
        )
        log_weight, nig = found.log_weight, found.nig
        if moved < 1e-8:
            break
    return found, rows


def rows_of(table: Table, log_weight: FloatArray, nig: NormalInverseGamma) -> Rows:
    """Return the rows at these weights; a censored glue-up becomes an exact one that stands for it.

    With the hazard h of the normal at z = (y − m)/σ, a value seen only to exceed y has in m the score h/σ
    and the information h(h − z)/σ²: those of an exact value m + σ/(h − z) of weight h(h − z).
    """
    effort = table.counts * np.exp(log_weight)
    total = effort.sum(axis=1)
    share, rate, weight = effort[:, ::2] / total[:, None], table.log_s - np.log(total), table.weight
    if not table.exact.all():
        sigma, hidden = (nig.beta / nig.alpha) ** 0.5, ~table.exact
        hazard, gap = _hazard((rate[hidden] - nig.m) / sigma)
        rate, weight = rate.copy(), weight.copy()
        rate[hidden] = nig.m + sigma / gap
        weight[hidden] *= hazard * gap
    return Rows(share, rate, weight)


def _hazard(z: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return the normal hazard h at z, and h − z > 0."""
    hazard = np.exp(-0.5 * z * z - LOG_ROOT_2PI - log_tail(z))
    return hazard, np.maximum(hazard - z, 1e-9)


def moments_of(rows: Rows, log_weight: FloatArray, m0: float) -> FloatArray:
    """Return Σ weight · x xᵀ, x = (1, shares, log time a medium piece + shares · log w − m0)."""
    x = np.empty((len(rows.rate), 4))
    x[:, 0] = 1.0
    x[:, 1:3] = rows.share
    x[:, 3] = rows.rate - m0 + rows.share @ log_weight[::2]
    moments: FloatArray = x.T @ (rows.weight[:, None] * x)
    return moments


def _censored_excess(table: Table, rows: Rows, nig: NormalInverseGamma) -> FloatArray:
    """Return what the squares lack for a censored glue-up to have its score z·h in log σ."""
    excess = np.zeros((4, 4))
    if not table.exact.all():
        hidden = ~table.exact
        gap = (nig.beta / nig.alpha) ** 0.5 / (rows.rate[hidden] - nig.m)
        used = rows.weight[hidden] / np.maximum(table.weight[hidden], 1e-300)
        hazard = used / gap
        excess[3, 3] = nig.beta / nig.alpha * float(table.weight[hidden] @ (hazard**2 - hazard / gap))
    return excess


def tamed(table: Table, prior: NormalInverseGamma) -> Table:
    """Return the table with the weights of wild glue-ups cut by (3.5/t)².

    t is the distance of a glue-up from the prediction of all the others, in their predictive scale, so
    that a wild one cannot hide behind the scatter it makes. Under four glue-ups nothing is called wild;
    where the model is true, about one glue-up in a hundred is touched.
    """
    if len(table.log_s) < WILD_FROM:
        return table
    found, rows = fit(table, prior)
    nig = found.nig
    kappa, alpha = nig.kappa - rows.weight, nig.alpha - 0.5 * rows.weight
    residual = (rows.rate - nig.m) * nig.kappa / kappa
    beta = np.maximum(nig.beta - 0.5 * rows.weight * residual**2 * kappa / nig.kappa, 1e-9)
    t = np.abs(residual) / np.sqrt(beta / alpha * (1 + 1 / kappa))
    wild = table.exact & (t > WILD_T)
    weight = np.where(wild, table.weight * tame_factor(t), table.weight)
    return Table(table.counts, table.log_s, table.exact, weight)


def tame_factor(t: FloatArray) -> FloatArray:
    """Return the part of its weight that a glue-up t standard deviations off keeps."""
    factor: FloatArray = (WILD_T / np.maximum(t, WILD_T)) ** 2
    return factor

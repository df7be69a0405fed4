"""The chemistry's arithmetic: how temperature drives a reaction, and when it is how far."""

from __future__ import annotations

import math

GAS_J_PER_MOL_K = 8.314462618  # the SI of 2019, exact to the digits shown
ZERO_C_K = 273.15


def arrhenius(activation_kJ_per_mol: float, *, from_C: float, to_C: float) -> float:
    """Return how many times faster a reaction runs at to_C than at from_C: exp(E/R (1/T1 - 1/T2))."""
    gap = 1 / (from_C + ZERO_C_K) - 1 / (to_C + ZERO_C_K)
    return math.exp(activation_kJ_per_mol * 1000 / GAS_J_PER_MOL_K * gap)


def activation_kJ_per_mol(times: float, *, from_C: float, to_C: float) -> float:
    """Return the activation energy that makes a reaction so many times faster at to_C. [kJ/mol]"""
    gap = 1 / (from_C + ZERO_C_K) - 1 / (to_C + ZERO_C_K)
    return math.log(times) * GAS_J_PER_MOL_K / gap / 1000


def time_to_conversion_s(k1_per_s: float, k2_per_s: float, alpha: float) -> float:
    """Return when one temperature brings the reaction to alpha. [s]

    t = ln((1 + alpha k2/k1)/(1 - alpha))/(k1 + k2), of dalpha/dt = (k1 + k2 alpha)(1 - alpha) from 0 on;
    without end as alpha nears 1.
    """
    ratio = k2_per_s / k1_per_s
    return math.log((1 + ratio * alpha) / (1 - alpha)) / (k1_per_s + k2_per_s)

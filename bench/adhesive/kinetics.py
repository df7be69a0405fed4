"""The chemistry's arithmetic: how temperature drives a reaction, how far it gets, and where it gels."""

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


def conversion(k1_per_s: float, k2_per_s: float, time_s: float) -> float:
    """Return alpha after a time at one temperature, of dalpha/dt = (k1 + k2 alpha)(1 - alpha).

    alpha = (e^((k1 + k2) t) - 1)/(e^((k1 + k2) t) + k2/k1), from 0 at the start towards 1.
    """
    grown = math.expm1((k1_per_s + k2_per_s) * time_s)
    return grown / (grown + 1 + k2_per_s / k1_per_s)


def time_to_conversion_s(k1_per_s: float, k2_per_s: float, alpha: float) -> float:
    """Return when one temperature brings the reaction to alpha, the inverse of `conversion`. [s]"""
    ratio = k2_per_s / k1_per_s
    return math.log((1 + ratio * alpha) / (1 - alpha)) / (k1_per_s + k2_per_s)


def gel_conversion(functionality: float, balance: float = 1.0) -> float:
    """Return the conversion at which a network first spans the cup, 1/sqrt(r (f - 1)).

    Flory and Stockmayer, for a resin of two epoxides: functionality f is the active hydrogens of one
    hardener molecule, balance r the lesser over the greater equivalents.
    """
    return 1 / math.sqrt(balance * (functionality - 1))

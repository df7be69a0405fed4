"""The mix ratio, in grams of hardener for each gram of resin, from whatever a label or data sheet gives.

A reactive mix is balanced when every epoxide group meets one active hydrogen. The epoxy equivalent
weight (EEW) is the mass of resin that holds one mole of epoxide groups; the amine hydrogen equivalent
weight (AHEW) the mass of hardener that holds one mole of active hydrogens. Both are in g/eq.
"""

from __future__ import annotations

from collections.abc import Iterable


def by_mass(resin: float, hardener: float) -> float:
    """Return hardener/resin for parts by mass, e.g. 100 : 50 is 0.5."""
    return hardener / resin


def by_volume(resin: float, hardener: float, *, resin_g_per_cm3: float, hardener_g_per_cm3: float) -> float:
    """Return the ratio by mass for parts by volume: m_H/m_R = (V_H/V_R)(rho_H/rho_R)."""
    return (hardener / resin) * (hardener_g_per_cm3 / resin_g_per_cm3)


def by_equivalents(*, eew_g_per_eq: float, ahew_g_per_eq: float) -> float:
    """Return the balanced ratio by mass, AHEW/EEW."""
    return ahew_g_per_eq / eew_g_per_eq


def blend_equivalent_g_per_eq(parts: Iterable[tuple[float, float | None]]) -> float:
    """Return the equivalent weight of a blend, sum(W) / sum(W_i / E_i). [g/eq]

    parts: (mass, equivalent weight) of each component; None for a filler or thinner that does not
    react. The masses may be in any one unit. A blend in which nothing reacts has none: ValueError.
    """
    listed = list(parts)
    equivalents = sum(mass / weight for mass, weight in listed if weight is not None)
    if not equivalents > 0:
        raise ValueError("a blend in which nothing reacts has no equivalent weight")
    return sum(mass for mass, _ in listed) / equivalents


def mixed_density_g_per_cm3(ratio: float, *, resin_g_per_cm3: float, hardener_g_per_cm3: float) -> float:
    """Return the density of the mix, 1/rho = w_R/rho_R + w_H/rho_H by mass fractions. [g/cm³]

    The volumes add up: mixing neither shrinks nor entraps air. A ratio of 0 is the resin alone.
    """
    share = ratio / (1.0 + ratio)
    return 1.0 / ((1.0 - share) / resin_g_per_cm3 + share / hardener_g_per_cm3)


def weighed_density_g_per_cm3(mass_g: float, volume_cm3: float = 10.0) -> float:
    """Return a density found on the bench: weigh 10 ml of the part and divide. [g/cm³]"""
    return mass_g / volume_cm3

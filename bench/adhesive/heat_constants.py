"""What the model of a cup takes as given. Every value has its mark.

C: a published value, the source named. M: from memory, ordinary handbook size. A: assumed here; the fit
to the label takes up most of what it gets wrong, since only the way from the label's mass and
temperature to yours rests on it.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.adhesive.product import Product

# C: DGEBA with aliphatic polyamines in "Polímeros": 106.6 kJ for each equivalent, measured (486 J/g).
HEAT_KJ_PER_EQ = 106.6
# A: where no equivalents are known: EEW 190 with isophorone diamine, 107 kJ/(190 + 42.6) g.
NEAT_HEAT_J_PER_G = 460.0
# M: heat capacity of a liquid epoxy mix, and of chalk or quartz as filler.
NEAT_J_PER_G_K = 1.8
FILLER_J_PER_G_K = 0.85
# M: density of an unfilled mix (1.1 to 1.2), and of chalk (2.71) or quartz (2.65).
NEAT_G_PER_CM3 = 1.12
FILLER_G_PER_CM3 = 2.7
# A: k2/k1, how strongly the reaction speeds itself up.
AUTOCATALYSIS = 4.0
# A: conversion at which the mix can no longer be worked. Below the gel point of every hardener in use:
# 0.447 at six active hydrogens, 0.577 at four (Flory and Stockmayer).
WORKABLE_CONVERSION = 0.2
# C: gel point with the 5.54 active hydrogens of the hardener in "Polímeros": 1/sqrt(4.54).
GEL_CONVERSION = 0.4693
# A: still air takes 5 W/m²K by convection and as much by radiation (M); the rest goes into cup and bench.
LOSS_W_PER_M2_K = 15.0
# A: a batch cup is 60 mm wide, a larger batch is as tall as wide; it loses heat all around.
CUP_WIDTH_MM = 60.0
# A: from here on the cup is too hot to hold; the usual alarm of a bench.
HOT_C = 60.0
# M: cups of paper wax and polystyrene soften at about 90 to 100 °C, and the mix begins to fume.
RUNAWAY_C = 90.0
# A: up to here a cup that heats itself burns fingers and is carried outdoors; above, it is split.
SMALL_CUP_G = 40.0


@dataclass(frozen=True)
class Thermal:
    """How the mix heats itself. rise_K: if no heat were lost; capacity in J/gK; density in g/cm³."""

    rise_K: float
    capacity_J_per_g_K: float
    density_g_per_cm3: float


def thermal_of(product: Product) -> Thermal:
    """Return the heat and heat capacity of a product's mix.

    With equivalents the heat is 106.6 kJ over EEW + AHEW, filler included. Without, that of an unfilled
    mix times the reacting share that the mixed density leaves room for, 1/rho = w/rho_0 + (1 - w)/rho_f:
    a mix as light as an unfilled one, or lighter, is all resin.
    """
    density = product.mixed_density_g_per_cm3
    lightness = (1 / density - 1 / FILLER_G_PER_CM3) / (1 / NEAT_G_PER_CM3 - 1 / FILLER_G_PER_CM3)
    share = min(1.0, max(0.1, lightness))
    heat_J_per_g = NEAT_HEAT_J_PER_G * share
    ratio = product.ratio
    if ratio is not None and ratio.eew_g_per_eq is not None and ratio.ahew_g_per_eq is not None:
        heat_J_per_g = heat_of_equivalents_J_per_g(ratio.eew_g_per_eq, ratio.ahew_g_per_eq)
    capacity = share * NEAT_J_PER_G_K + (1 - share) * FILLER_J_PER_G_K
    return Thermal(heat_J_per_g / capacity, capacity, density)


def heat_of_equivalents_J_per_g(eew_g_per_eq: float, ahew_g_per_eq: float) -> float:
    """Return the heat of a balanced mix, 106.6 kJ/eq over EEW + AHEW. [J/g]"""
    return HEAT_KJ_PER_EQ * 1000 / (eew_g_per_eq + ahew_g_per_eq)

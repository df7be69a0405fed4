"""The heat of a cup: how warm a mix gets, when, and whether it must be split.

The mix warms itself, the room cools it, and the warmer it is the faster it goes. The equations stand in
`kettle`, what they take as given in `heat_constants`; their one rate is fitted so that the label's mass
at the label's temperature comes to the end of its working time, conversion 0.2, at the label's minutes.
Read the peak as whether a cup runs away, not as how hot it gets: the losses of a hot cup and the glass
that sets before the reaction is over are left out, and both make the true peak lower.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from bench.adhesive import heat_constants as given
from bench.adhesive.kettle import Kettle, fitted_rate_per_s, march, time_to_s
from bench.adhesive.kinetics import GAS_J_PER_MOL_K, ZERO_C_K
from bench.adhesive.limits import check_mass
from bench.adhesive.product import Product

FloatArray = NDArray[np.float64]

_LAST_X = 7.0  # conversion 0.9991: nothing more is to be felt


@dataclass(frozen=True, eq=False)
class Exotherm:
    """A mix left to itself. to_hot_s: when it passes 60 °C, None if it never does; gel_s: when it gels.

    time_s, temperature_C, conversion: (p,) the curve, from first contact to the end of the reaction.
    """

    mass_g: float
    room_C: float
    peak_C: float
    peak_s: float
    to_hot_s: float | None
    gel_s: float
    time_s: FloatArray
    temperature_C: FloatArray
    conversion: FloatArray

    @property
    def runs_away(self) -> bool:
        """Whether it must be split: more than 40 g, and it comes to 90 °C."""
        return self.mass_g > given.SMALL_CUP_G and self.peak_C >= given.RUNAWAY_C

    @property
    def worth_showing(self) -> bool:
        """Whether the curve is of use: above 40 g, or when the mix comes to 60 °C."""
        return self.mass_g > given.SMALL_CUP_G or self.to_hot_s is not None


def exotherm(
    product: Product,
    *,
    mass_g: float,
    temperature_C: float,
    mix_C: float | None = None,
    spread_mm: float | None = None,
) -> Exotherm:
    """Return how a mix of a two-part product warms, in its cup or spread to a thickness on the board.

    mix_C: the temperature of the bottles where they were kept warm or cold, else the room's. A ready
    adhesive makes no heat: ValueError.
    """
    kettle = kettle_of(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C, spread_mm=spread_mm)
    steps = march(kettle, _LAST_X)
    time_s = np.array(steps.time_s)
    celsius = np.array(steps.kelvin) - ZERO_C_K
    alpha = -np.expm1(-np.array(steps.x))
    peak = int(np.argmax(celsius))
    rising = celsius[: peak + 1]
    is_hot = celsius[peak] >= given.HOT_C
    return Exotherm(
        mass_g=mass_g,
        room_C=temperature_C,
        peak_C=float(celsius[peak]),
        peak_s=float(time_s[peak]),
        to_hot_s=float(np.interp(given.HOT_C, rising, time_s[: peak + 1])) if is_hot else None,
        gel_s=float(np.interp(given.GEL_CONVERSION, alpha, time_s)),
        time_s=time_s,
        temperature_C=celsius,
        conversion=alpha,
    )


def heat_limit_s(
    product: Product, *, temperature_C: float, mass_g: float, mix_C: float | None = None
) -> float:
    """Return when a cup's own heat has taken it to the end of its working time. [s]"""
    return time_to_s(kettle_of(product, mass_g=mass_g, temperature_C=temperature_C, mix_C=mix_C))


def cups_needed(product: Product, *, mass_g: float, temperature_C: float, mix_C: float | None = None) -> int:
    """Return into how many equal cups a mix must be split so that none runs away; 1: it may stay whole."""
    cups = 1
    while exotherm(product, mass_g=mass_g / cups, temperature_C=temperature_C, mix_C=mix_C).runs_away:
        cups += 1
    return cups


def kettle_of(
    product: Product,
    *,
    mass_g: float,
    temperature_C: float,
    mix_C: float | None = None,
    spread_mm: float | None = None,
) -> Kettle:
    """Return the equations of a mix, their rate fitted to the product's label."""
    test_mass_g = product.working_time.test_mass_g
    if test_mass_g is None or not product.is_two_part:
        raise ValueError(f"{product.name} makes no heat")
    check_mass(mass_g)
    thermal = given.thermal_of(product)
    label_K = product.working_time.test_temperature_C + ZERO_C_K
    label = Kettle(
        rate_per_s=1.0,
        reference_K=label_K,
        activation_K=product.activation_kJ_per_mol * 1000 / GAS_J_PER_MOL_K,
        rise_K=thermal.rise_K,
        cooling_per_s=cup_cooling_per_s(thermal, test_mass_g),
        room_K=label_K,
        start_K=label_K,
    )
    if spread_mm is None:
        cooling = cup_cooling_per_s(thermal, mass_g)
    else:
        cooling = film_cooling_per_s(thermal, spread_mm)
    return replace(
        label,
        rate_per_s=fitted_rate_per_s(label, product.working_time.minutes * 60),
        cooling_per_s=cooling,
        room_K=temperature_C + ZERO_C_K,
        start_K=(temperature_C if mix_C is None else mix_C) + ZERO_C_K,
    )


def cup_cooling_per_s(thermal: given.Thermal, mass_g: float) -> float:
    """Return UA/(mc) of a cup 60 mm wide, or of one as tall as wide where the mix needs more. [1/s]

    It falls as the mass grows, without a jump: a larger cup always holds its heat better.
    """
    volume_mm3 = mass_g / thermal.density_g_per_cm3 * 1000
    width_mm = max(given.CUP_WIDTH_MM, math.cbrt(4 * volume_mm3 / math.pi))
    floor_mm2 = math.pi * width_mm**2 / 4
    wall_mm2 = 4 * volume_mm3 / width_mm
    return given.LOSS_W_PER_M2_K * (2 * floor_mm2 + wall_mm2) / 1e6 / (mass_g * thermal.capacity_J_per_g_K)


def film_cooling_per_s(thermal: given.Thermal, spread_mm: float) -> float:
    """Return UA/(mc) of a film that loses heat through its face alone, the board being no cooler. [1/s]"""
    areal_g_per_m2 = thermal.density_g_per_cm3 * spread_mm * 1000
    return given.LOSS_W_PER_M2_K / (areal_g_per_m2 * thermal.capacity_J_per_g_K)

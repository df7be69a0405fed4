"""The equations of a warming cup, stepped, and the one rate in them fitted to a label.

    m c dT/dt = m dH dalpha/dt - U A (T - T_room)
    dalpha/dt = s (1 + kappa alpha)(1 - alpha) exp(-E/R (1/T - 1/T_label))

They are stepped in x = -ln(1 - alpha) instead of time, with k = s (1 + kappa alpha) exp(...):
dt/dx = 1/k and dT/dx = (dH/c) e^-x - (UA/mc)(T - T_room)/k, which stays smooth however sudden the
exotherm is. Both rate constants, k1 = s and k2 = kappa s, share one activation energy, so that a mix
that sheds all its heat follows Arrhenius exactly.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from bench.adhesive.heat_constants import AUTOCATALYSIS, WORKABLE_CONVERSION
from bench.adhesive.kinetics import time_to_conversion_s

_STEP_X = 0.01
# The classical fourth-order step is stable up to 2.78 cooling times.
_STEP_COOLING_TIMES = 1.5
# A mix that sheds its heat so many times faster than it reacts stays within rise_K/3000, less than a tenth
# of a degree, of the room; counting it as no faster is the warm side, and keeps the steps few.
_SHEDS_AT_MOST = 3000.0


@dataclass(frozen=True)
class Kettle:
    """The equations with all their numbers. rate_per_s: s; activation_K: E/R; rise_K: dH/c."""

    rate_per_s: float
    reference_K: float
    activation_K: float
    rise_K: float
    cooling_per_s: float
    room_K: float
    start_K: float


@dataclass(frozen=True)
class March:
    """The steps taken: x = -ln(1 - alpha), time and temperature, each from its start."""

    x: list[float]
    time_s: list[float]
    kelvin: list[float]


def march(kettle: Kettle, last_x: float) -> March:
    """Return the steps of the equations from x = 0 to last_x, by the classical Runge-Kutta rule.

    A step is 0.01 in x, shorter while the room cools the mix faster than the reaction goes on.
    """
    slopes = _slopes(kettle)
    cooling = cooling_in_use_per_s(kettle)
    x, time_s, kelvin = 0.0, 0.0, kettle.start_K
    taken = March([x], [time_s], [kelvin])
    while x < last_x:
        time_1, warm_1 = slopes(x, kelvin)
        step = min(_STEP_X, last_x - x)
        if cooling * time_1 * step > _STEP_COOLING_TIMES:
            step = _STEP_COOLING_TIMES / (cooling * time_1)
        time_2, warm_2 = slopes(x + step / 2, kelvin + step / 2 * warm_1)
        time_3, warm_3 = slopes(x + step / 2, kelvin + step / 2 * warm_2)
        time_4, warm_4 = slopes(x + step, kelvin + step * warm_3)
        x += step
        time_s += step / 6 * (time_1 + 2 * time_2 + 2 * time_3 + time_4)
        kelvin += step / 6 * (warm_1 + 2 * warm_2 + 2 * warm_3 + warm_4)
        taken.x.append(x)
        taken.time_s.append(time_s)
        taken.kelvin.append(kelvin)
    return taken


def _slopes(kettle: Kettle) -> Callable[[float, float], tuple[float, float]]:
    """Return the function (x, T) -> (dt/dx, dT/dx)."""
    exp = math.exp
    rate, activation, reference = kettle.rate_per_s, kettle.activation_K, kettle.reference_K
    rise, cooling, room = kettle.rise_K, cooling_in_use_per_s(kettle), kettle.room_K

    def slopes(x: float, kelvin: float) -> tuple[float, float]:
        left = exp(-x)
        k = rate * (1 + AUTOCATALYSIS * (1 - left)) * exp(activation * (1 / reference - 1 / kelvin))
        return 1 / k, rise * left - cooling * (kelvin - room) / k

    return slopes


def cooling_in_use_per_s(kettle: Kettle) -> float:
    """Return UA/(mc) as the steps take it, at most 3000 times the reaction at room temperature. [1/s]"""
    in_the_room = math.exp(kettle.activation_K * (1 / kettle.reference_K - 1 / kettle.room_K))
    return min(kettle.cooling_per_s, _SHEDS_AT_MOST * kettle.rate_per_s * in_the_room)


def time_to_s(kettle: Kettle, alpha: float = WORKABLE_CONVERSION) -> float:
    """Return when the mix comes to a conversion. [s]"""
    return march(kettle, -math.log1p(-alpha)).time_s[-1]


@lru_cache(maxsize=256)
def fitted_rate_per_s(label: Kettle, label_s: float) -> float:
    """Return the rate that brings the label's cup to the end of its working time at the label's time.

    label: the label's cup; its rate is not looked at. A cup that warms is never slower than one that
    stays cold, nor faster than one that has its adiabatic temperature from the start: the two closed
    forms bracket the rate, and the secant rule (Illinois) closes in.
    """
    alpha = WORKABLE_CONVERSION
    cold = time_to_conversion_s(1.0, AUTOCATALYSIS, alpha) / label_s
    hottest_K = label.reference_K + label.rise_K * alpha
    speed_up = math.exp(label.activation_K * (1 / label.reference_K - 1 / hottest_K))

    def late(log_rate: float) -> float:
        return math.log(time_to_s(replace(label, rate_per_s=math.exp(log_rate)), alpha) / label_s)

    return math.exp(_root(late, math.log(cold / speed_up), math.log(cold)))


def _root(of: Callable[[float], float], low: float, high: float, *, close: float = 1e-9) -> float:
    """Return where a falling function crosses zero between low and high."""
    at_low, at_high = of(low), of(high)
    if at_low <= close:
        return low
    if at_high >= -close:
        return high
    side = 0
    middle = low
    for _ in range(100):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        value = of(middle)
        if abs(value) < close:
            break
        if value > 0:
            low, at_low = middle, value
            at_high *= 0.5 if side == 1 else 1.0
            side = 1
        else:
            high, at_high = middle, value
            at_low *= 0.5 if side == -1 else 1.0
            side = -1
    return middle

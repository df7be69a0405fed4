"""Lengths, areas and temperatures in the units spoken; within the house they are mm, mm² and °C for ever."""

from __future__ import annotations

from bench.speech.said import say
from bench.speech.tongue import tongue

MM_PER_INCH = 25.4  # exactly: the international inch of 1959
MM2_PER_CM2 = 100.0
ZERO_F, F_PER_C = 32.0, 1.8


def length(mm: float, decimals: int = 0) -> str:
    """Say a length: '305 mm', or '12.0 in' with a digit more, since an inch is coarse."""
    if tongue().inches:
        return say("{value:.{decimals}f} in", value=mm / MM_PER_INCH, decimals=decimals + 1)
    return say("{value:.{decimals}f} mm", value=mm, decimals=decimals)


def size(width_mm: float, height_mm: float, decimals: int = 0) -> str:
    """Say a width and a height with their unit once: '305 × 203 mm'."""
    if tongue().inches:
        wide, high, digits = width_mm / MM_PER_INCH, height_mm / MM_PER_INCH, decimals + 1
        return say("{wide:.{digits}f} × {high:.{digits}f} in", wide=wide, high=high, digits=digits)
    return say("{wide:.{digits}f} × {high:.{digits}f} mm", wide=width_mm, high=height_mm, digits=decimals)


def area(mm2: float, decimals: int = 0) -> str:
    """Say an area: '42 cm²', or '6.5 in²'."""
    if tongue().inches:
        return say("{value:.{decimals}f} in²", value=mm2 / MM_PER_INCH**2, decimals=decimals + 1)
    return say("{value:.{decimals}f} cm²", value=mm2 / MM2_PER_CM2, decimals=decimals)


def temperature(celsius: float, decimals: int = 0) -> str:
    """Say a temperature: '23 °C', or '73 °F'."""
    value, unit = in_unit(celsius), temperature_unit()
    return say("{value:.{decimals}f} {unit}", value=value, decimals=decimals, unit=unit)


def in_unit(celsius: float) -> float:
    """Return a temperature in the unit spoken. F = 1.8 C + 32."""
    return celsius * F_PER_C + ZERO_F if tongue().fahrenheit else celsius


def celsius_typed(value: float) -> float:
    """Return in °C what was typed in the unit spoken."""
    return (value - ZERO_F) / F_PER_C if tongue().fahrenheit else value


def mm_typed(value: float) -> float:
    """Return in mm what was typed in the unit spoken."""
    return value * MM_PER_INCH if tongue().inches else value


def length_unit() -> str:
    return "in" if tongue().inches else "mm"


def area_unit() -> str:
    return "in²" if tongue().inches else "cm²"


def temperature_unit() -> str:
    return "°F" if tongue().fahrenheit else "°C"

"""Lengths, areas and temperatures in the units spoken; within the house they are mm, mm² and °C for ever."""

from __future__ import annotations

from bench.speech.said import say
from bench.speech.tongue import tongue

MM_PER_INCH = 25.4  # exactly: the international inch of 1959
MM2_PER_CM2 = 100.0
MM_PER_FOOT, MM_PER_CM, MM_PER_M = 304.8, 10.0, 1000.0
ZERO_F, F_PER_C = 32.0, 1.8


def length(mm: float, decimals: int = 0) -> str:
    """Say a length: '305 mm', or '12.0 in' with a digit more, since an inch is coarse."""
    if tongue().inches:
        return say("{value:.{decimals}f} in", value=mm / MM_PER_INCH, decimals=decimals + 1)
    return say("{value:.{decimals}f} mm", value=mm, decimals=decimals)


def plain_length(mm: float) -> str:
    """Say a length as one types it, without trailing zeros: '6 mm', '0.8 mm', or '0.236 in'."""
    if tongue().inches:
        return say("{value:g} in", value=_plain_inches(mm))
    return say("{value:g} mm", value=mm)


def rough_length(mm: float) -> str:
    """Say a length to three figures: '152 mm', '9.55 mm', or '0.376 in'."""
    if tongue().inches:
        return say("{value:.3g} in", value=mm / MM_PER_INCH)
    return say("{value:.3g} mm", value=mm)


def plain_size(width_mm: float, height_mm: float) -> str:
    """Say a width and a height as one types them: '305 × 203.2 mm'."""
    if tongue().inches:
        return say("{wide:g} × {high:g} in", wide=_plain_inches(width_mm), high=_plain_inches(height_mm))
    return say("{wide:g} × {high:g} mm", wide=width_mm, high=height_mm)


def _plain_inches(mm: float) -> float:
    inches = mm / MM_PER_INCH
    return round(inches, 2 if inches >= 1 else 3)


def unbroken(text: str) -> str:
    """Return a figure with its unit so that no line ends within it."""
    return text.replace(" ", "\u00a0")


def size(width_mm: float, height_mm: float, decimals: int = 0) -> str:
    """Say a width and a height with their unit once: '305 × 203 mm'."""
    if tongue().inches:
        wide, high, digits = width_mm / MM_PER_INCH, height_mm / MM_PER_INCH, decimals + 1
        return say("{wide:.{digits}f} × {high:.{digits}f} in", wide=wide, high=high, digits=digits)
    return say("{wide:.{digits}f} × {high:.{digits}f} mm", wide=width_mm, high=height_mm, digits=decimals)


def area(mm2: float, decimals: int = 0) -> str:
    """Say an area: '42 cm²', or '6.5 in²'; thousands are set apart."""
    if tongue().inches:
        return say("{value:,.{decimals}f} in²", value=mm2 / MM_PER_INCH**2, decimals=decimals + 1)
    return say("{value:,.{decimals}f} cm²", value=mm2 / MM2_PER_CM2, decimals=decimals)


def line_length(mm: float) -> str:
    """Say the length of an edge, longer than pieces are: '42 cm', or '16.5 in'."""
    if tongue().inches:
        return say("{value:.1f} in", value=mm / MM_PER_INCH)
    return say("{value:.0f} cm", value=mm / MM_PER_CM)


def plain_temperature(celsius: float) -> str:
    """Say a temperature as one types it, without trailing zeros: '22.5 °C', or '72.5 °F'."""
    value = round(in_unit(celsius), 1) if tongue().fahrenheit else celsius
    return say("{value:g} {unit}", value=value, unit=temperature_unit())


def temperature(celsius: float, decimals: int = 0) -> str:
    """Say a temperature: '23 °C', or '73 °F'."""
    value, unit = in_unit(celsius), temperature_unit()
    return say("{value:.{decimals}f} {unit}", value=value, decimals=decimals, unit=unit)


def plain_area(mm2: float) -> str:
    """Say an area as one types it: '12.5 cm²', or '1.94 in²'."""
    return say("{value:g} {unit}", value=round(in_area(mm2), 2), unit=area_unit())


def in_unit(celsius: float) -> float:
    """Return a temperature in the unit spoken. F = 1.8 C + 32."""
    return celsius * F_PER_C + ZERO_F if tongue().fahrenheit else celsius


def celsius_typed(value: float) -> float:
    """Return in °C what was typed in the unit spoken."""
    return (value - ZERO_F) / F_PER_C if tongue().fahrenheit else value


def in_length(mm: float) -> float:
    """Return a length in the unit spoken."""
    return mm / MM_PER_INCH if tongue().inches else mm


def mm_typed(value: float) -> float:
    """Return in mm what was typed in the unit spoken."""
    return value * MM_PER_INCH if tongue().inches else value


def in_area(mm2: float) -> float:
    """Return an area in the unit spoken, cm² or in²."""
    return mm2 / MM_PER_INCH**2 if tongue().inches else mm2 / MM2_PER_CM2


def mm2_typed(value: float) -> float:
    """Return in mm² what was typed in the unit spoken, cm² or in²."""
    return value * MM_PER_INCH**2 if tongue().inches else value * MM2_PER_CM2


def length_unit() -> str:
    return "in" if tongue().inches else "mm"


def area_unit() -> str:
    return "in²" if tongue().inches else "cm²"


def temperature_unit() -> str:
    return "°F" if tongue().fahrenheit else "°C"


def tape_length(mm: float) -> str:
    """Say the length of what comes off a roll: '3.4 m', or '11.2 ft'."""
    if tongue().inches:
        return say("{value:.1f} ft", value=mm / MM_PER_FOOT)
    return say("{value:.1f} m", value=mm / MM_PER_M)


def warmer(kelvin: float) -> str:
    """Say by how much one temperature lies above another: '10 °C', or '18 °F'."""
    value = kelvin * F_PER_C if tongue().fahrenheit else kelvin
    return say("{value:.3g} {unit}", value=value, unit=temperature_unit())


def temperatures(low_C: float, high_C: float) -> str:
    """Say from which temperature to which, the unit once: '10 to 35 °C', or '50 to 95 °F'."""
    low, high = round(in_unit(low_C), 1), round(in_unit(high_C), 1)
    return say("{low:g} to {high:g} {unit}", low=low, high=high, unit=temperature_unit())

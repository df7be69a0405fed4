"""Lengths, areas, masses and temperatures in words, in the units that their reader is used to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bench.finish.weight import pounds
from bench.speech import say
from bench.speech.measures import MM_PER_INCH

_INCH2_MM2 = MM_PER_INCH**2


@dataclass(frozen=True)
class Units:
    """mm or inch for lengths and areas, C or F for temperatures; masses of adhesive stay in grams."""

    length: Literal["mm", "inch"] = "mm"
    degrees: Literal["C", "F"] = "C"

    def side(self, length_mm: float) -> str:
        """Say a length: '305 mm', or inches to the nearest tenth."""
        if self.length == "mm":
            return say("{value:.0f} mm", value=length_mm)
        return say("{value:.1f} in", value=length_mm / MM_PER_INCH)

    def size(self, width_mm: float, height_mm: float) -> str:
        """Say width × height."""
        if self.length == "mm":
            return say("{wide:.0f} × {high:.0f} mm", wide=width_mm, high=height_mm)
        return say("{wide:.1f} × {high:.1f} in", wide=width_mm / MM_PER_INCH, high=height_mm / MM_PER_INCH)

    def thickness(self, length_mm: float) -> str:
        """Say a small length: to a tenth of a mm, or a hundredth of an inch."""
        if self.length == "mm":
            return say("{value:.1f} mm", value=length_mm)
        return say("{value:.2f} in", value=length_mm / MM_PER_INCH)

    def plain(self, length_mm: float) -> str:
        """Say a small length as one types it: '2 mm', '2.5 mm', or a hundredth of an inch."""
        if self.length == "mm":
            return say("{value:g} mm", value=length_mm)
        return say("{value:.2f} in", value=length_mm / MM_PER_INCH)

    def area(self, area_mm2: float) -> str:
        """Say an area: '12 cm²' or '1.9 in²'."""
        if self.length == "mm":
            return say("{value:.0f} cm²", value=area_mm2 / 100)
        return say("{value:.1f} in²", value=area_mm2 / _INCH2_MM2)

    def temperature(self, temperature_C: float) -> str:
        """Say a temperature: '21 °C' or '70 °F', F = 1.8·C + 32."""
        if self.degrees == "C":
            return say("{value:g} °C", value=temperature_C)
        return say("{value:.0f} °F", value=1.8 * temperature_C + 32)

    def weight(self, mass_g: float) -> str:
        """Say a weight in both: '3.20 kg (7.1 lb)', the reader's own first."""
        both = {"kg": mass_g / 1000, "lb": pounds(mass_g)}
        if self.length == "mm":
            return say("{kg:.2f} kg ({lb:.1f} lb)", **both)
        return say("{lb:.1f} lb ({kg:.2f} kg)", **both)

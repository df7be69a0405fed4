"""Lengths, areas, masses and temperatures in words, in the units that their reader is used to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bench.finish.weight import pounds

INCH_MM = 25.4  # exact, 1959
_INCH2_MM2 = INCH_MM**2


@dataclass(frozen=True)
class Units:
    """mm or inch for lengths and areas, C or F for temperatures; masses of adhesive stay in grams."""

    length: Literal["mm", "inch"] = "mm"
    degrees: Literal["C", "F"] = "C"

    def side(self, length_mm: float) -> str:
        """Say a length: '305 mm', or inches to the nearest tenth."""
        return f"{length_mm:.0f} mm" if self.length == "mm" else f"{length_mm / INCH_MM:.1f} in"

    def size(self, width_mm: float, height_mm: float) -> str:
        """Say width × height."""
        if self.length == "mm":
            return f"{width_mm:.0f} × {height_mm:.0f} mm"
        return f"{width_mm / INCH_MM:.1f} × {height_mm / INCH_MM:.1f} in"

    def thickness(self, length_mm: float) -> str:
        """Say a small length: to a tenth of a mm, or a hundredth of an inch."""
        return f"{length_mm:.1f} mm" if self.length == "mm" else f"{length_mm / INCH_MM:.2f} in"

    def area(self, area_mm2: float) -> str:
        """Say an area: '12 cm²' or '1.9 in²'."""
        return f"{area_mm2 / 100:.0f} cm²" if self.length == "mm" else f"{area_mm2 / _INCH2_MM2:.1f} in²"

    def temperature(self, temperature_C: float) -> str:
        """Say a temperature: '21 °C' or '70 °F', F = 1.8·C + 32."""
        if self.degrees == "C":
            return f"{temperature_C:g} °C"
        return f"{1.8 * temperature_C + 32:.0f} °F"

    def weight(self, mass_g: float) -> str:
        """Say a weight in both: '3.20 kg (7.1 lb)', the reader's own first."""
        kg, lb = f"{mass_g / 1000:.2f} kg", f"{pounds(mass_g):.1f} lb"
        return f"{kg} ({lb})" if self.length == "mm" else f"{lb} ({kg})"

"""What was found when lines were read: for a person to check before anything is divided."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Gap:
    """A break in a line that was closed, by a straight stroke from x_mm, y_mm to to_x_mm, to_y_mm."""

    x_mm: float
    y_mm: float
    to_x_mm: float
    to_y_mm: float
    width_mm: float


@dataclass(frozen=True)
class Leak:
    """Where a line nearly closes and was left open. width_mm: of the opening."""

    x_mm: float
    y_mm: float
    width_mm: float
    why: str


@dataclass(frozen=True)
class LinesReport:
    """What the lines enclose. Areas in mm²; line_mm is the measured width of the lines, and so of joints."""

    count: int
    smallest_mm2: float
    median_mm2: float
    largest_mm2: float
    line_mm: float
    specks: int
    gaps: tuple[Gap, ...]
    leaks: tuple[Leak, ...]
    coloured: bool

    def told(self) -> str:
        """Return the report in a sentence."""
        text = f"lines {self.line_mm:.1f} mm wide enclose "
        if self.count == 1:
            text += f"1 piece of {self.largest_mm2:.0f} mm²"
        else:
            text += (
                f"{self.count:,} pieces of {self.smallest_mm2:.0f} to {self.largest_mm2:.0f} mm², "
                f"half of them below {self.median_mm2:.0f}"
            )
        if self.gaps:
            text += f"; {len(self.gaps)} {'gap' if len(self.gaps) == 1 else 'gaps'} closed"
        if self.leaks:
            text += f"; {len(self.leaks)} {'place' if len(self.leaks) == 1 else 'places'} to check"
        return text

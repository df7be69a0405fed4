"""What was found when lines were read: for a person to check before anything is divided."""

from __future__ import annotations

from dataclasses import dataclass

from bench.speech import length, say, say_n


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
        told = [self._enclosed()]
        if self.gaps:
            told.append(say_n("{count} gap closed", "{count} gaps closed", len(self.gaps)))
        if self.leaks:
            told.append(say_n("{count} place to check", "{count} places to check", len(self.leaks)))
        return "; ".join(told)

    def _enclosed(self) -> str:
        wide = length(self.line_mm, 1)
        if self.count == 1:
            only = self.largest_mm2
            return say("lines {wide} wide enclose 1 piece of {area:.0f} mm²", wide=wide, area=only)
        return say(
            "lines {wide} wide enclose {count:,} pieces of {least:.0f} to {most:.0f} mm², "
            "half of them below {middle:.0f}",
            wide=wide,
            count=self.count,
            least=self.smallest_mm2,
            most=self.largest_mm2,
            middle=self.median_mm2,
        )

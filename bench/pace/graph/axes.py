"""An axis: round numbers on it, and from a value to a place."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bench.speech import say

_STEPS = (1.0, 2.0, 5.0, 10.0)


@dataclass(frozen=True)
class Axis:
    """A straight scale from `low` at place `start` to `high` at place `end`, with ticks at round numbers."""

    low: float
    high: float
    ticks: tuple[float, ...]
    labels: tuple[str, ...]
    start: float = 0.0
    end: float = 1.0

    def place(self, value: float) -> float:
        """Return where a value lies: start + (end − start)(value − low)/(high − low)."""
        return self.start + (self.end - self.start) * (value - self.low) / (self.high - self.low)

    def laid(self, start: float, end: float) -> Axis:
        """Return the same axis between two places."""
        return Axis(self.low, self.high, self.ticks, self.labels, start, end)


def axis_over(
    low: float,
    high: float,
    *,
    most: int,
    whole: bool = False,
    least_span: float = 1e-9,
    to_ticks: bool = True,
) -> Axis:
    """Return an axis over these values with at most so many ticks, 1, 2 or 5 times a power of ten apart.

    whole: no tick between whole numbers. least_span: values nearer together than this are spread to it, so
    that one value alone lies in the middle. to_ticks: the axis ends on ticks; else a tenth of a step beyond
    the outermost values. `most` below 2 counts as 2. Values that are not finite raise ValueError.
    """
    if not (math.isfinite(low) and math.isfinite(high)):
        raise ValueError(f"an axis from {low} to {high} cannot be")
    low, high = min(low, high), max(low, high)
    missing = least_span - (high - low)
    if missing > 0:
        low, high = low - missing / 2, high + missing / 2
    step = _step(high - low, max(2, most), whole)
    if to_ticks:
        first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
        low, high = first * step, last * step
    else:
        low, high = low - 0.1 * step, high + 0.1 * step
        first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    ticks = tuple(k * step for k in range(first, last + 1))
    return Axis(low, high, ticks, tuple(_label(tick, decimals) for tick in ticks))


def _label(tick: float, decimals: int) -> str:
    return say("{value:.{decimals}f}", value=tick + 0.0, decimals=decimals)


def _step(span: float, most: int, whole: bool) -> float:
    """Return the smallest round step of which so many ticks cover the span, its ends included."""
    power = math.floor(math.log10(span / most)) - 1
    while True:
        for digit in _STEPS[:3]:
            step = digit * 10.0**power
            if span / step <= most - 1 + 1e-9 and (step >= 1 or not whole):
                return step
        power += 1

"""Elliptical arcs → cubics, by the implementation notes of SVG 2, B.2.4 and B.2.5.

A drawing of rounded pieces holds hundreds of thousands of them; the tests hold each against svgelements.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator

_STEP = math.pi / 6  # cubics of at most 30° stay within 1e-6 of the radius

Cubic = tuple[float, float, float, float, float, float]  # both control points and the end


def cubics_of_arc(
    start: complex, end: complex, rx: float, ry: float, turn_deg: float, large: bool, sweep: bool
) -> Iterator[Cubic]:
    """Yield the cubics of an arc; start and end differ and no radius is zero.

    Radii that do not reach are scaled up until they just do (B.2.5). The last end may be off by rounding.
    """
    rx, ry = abs(rx), abs(ry)
    turn = cmath.rect(1.0, math.radians(turn_deg % 360.0))
    half = (start - end) / 2 / turn
    here = complex(half.real / rx, half.imag / ry)  # on the unit circle's scale, seen from the middle
    reach = abs(here)
    if reach > 1:
        rx, ry, here = rx * reach, ry * reach, here / reach
        reach = 1.0
    off = math.sqrt(max(0.0, 1 / (reach * reach) - 1)) if reach else 0.0
    centre = here * complex(0.0, off if large == sweep else -off)
    first, last = here - centre, -here - centre
    sweep_rad = cmath.phase(last / first) if first and last else math.pi
    if sweep and sweep_rad < 0:
        sweep_rad += 2 * math.pi
    elif not sweep and sweep_rad > 0:
        sweep_rad -= 2 * math.pi
    count = max(1, math.ceil(abs(sweep_rad) / _STEP - 1e-9))
    step = cmath.rect(1.0, sweep_rad / count)
    handle = 4 / 3 * math.tan(sweep_rad / count / 4)
    middle = (start + end) / 2

    def placed(unit: complex) -> complex:
        return middle + turn * complex(unit.real * rx, unit.imag * ry)

    for _ in range(count):
        then = first * step
        one, two = first + 1j * handle * first, then - 1j * handle * then
        a, b, c = placed(one + centre), placed(two + centre), placed(then + centre)
        yield a.real, a.imag, b.real, b.imag, c.real, c.imag
        first = then

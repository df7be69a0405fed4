"""Find where a function crosses zero, in few calls."""

from __future__ import annotations

from collections.abc import Callable


def crossing(function: Callable[[float], float], low: float, high: float, tolerance: float = 1e-9) -> float:
    """Return an x in [low, high], at most `tolerance` before the place where function changes sign.

    The function must have opposite signs, or a zero, at the two ends. Inverse quadratic steps where the
    last three points allow them, bisection otherwise (Chandrupatla, Advances in Engineering Software 28
    (1997) 145). Of the last bracket the end on the side of `low` is returned, so that a falling function
    is not yet below zero there.
    """
    near, far, old = high, low, high
    at_near, at_far = function(high), function(low)
    at_old = at_near
    if at_far == 0.0 or at_near == 0.0:
        return low if at_near != 0.0 else high
    t = 0.5
    while abs(far - near) > tolerance:
        x = near + t * (far - near)
        value = function(x)
        if (value < 0) == (at_near < 0):
            old, at_old = near, at_near
        else:
            old, at_old, far, at_far = far, at_far, near, at_near
        near, at_near = x, value
        if value == 0.0:
            return x
        least = min(0.5, 0.5 * tolerance / max(abs(far - near), tolerance))
        t = min(max(_step(near, far, old, at_near, at_far, at_old), least), 1 - least)
    return min(near, far)


def _step(near: float, far: float, old: float, at_near: float, at_far: float, at_old: float) -> float:
    """Return the next step as a part of the way from `near` to `far`."""
    xi = (near - far) / (old - far)
    phi = (at_near - at_far) / (at_old - at_far) if at_old != at_far else 2.0
    if not (phi * phi < xi and (1 - phi) ** 2 < 1 - xi):
        return 0.5
    return at_near / (at_far - at_near) * at_old / (at_far - at_old) + (old - near) / (
        far - near
    ) * at_near / (at_old - at_near) * at_far / (at_old - at_far)

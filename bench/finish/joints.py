"""The joints to fill: what is neither glass nor beyond the outline, and how deep."""

from __future__ import annotations

import math

from bench.finish.faults import AmountOutOfRange
from bench.speech import plain_length, say

GLASS_MM = 3.0  # common practice, no source
ADHESIVE_LEFT_MM = 1.0  # that stays in the joint under the grout: common practice, no source


def joint_depth_mm(glass_mm: float = GLASS_MM, *, adhesive_left_mm: float = ADHESIVE_LEFT_MM) -> float:
    """Return how deep the grout goes: glass thickness less the adhesive left in the joint. [mm]

    Raises AmountOutOfRange where nothing is left to fill.
    """
    depth_mm = glass_mm - adhesive_left_mm
    if not (math.isfinite(depth_mm) and depth_mm > 0):
        allowed = say("more than the {left} of adhesive in the joint", left=plain_length(adhesive_left_mm))
        raise AmountOutOfRange(say("glass thickness"), glass_mm, allowed)
    return depth_mm


def joint_volume_cm3(joint_area_mm2: float, depth_mm: float) -> float:
    """Return area × depth. [cm³]"""
    return joint_area_mm2 * depth_mm / 1000.0

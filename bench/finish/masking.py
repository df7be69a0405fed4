"""What must be covered while a zone is grouted, and in which order of days the least of it.

A border between two grouts is taped twice at most: on the far side while the first is worked, so that its
neighbour's joints stay open; and on the near side while the second is worked, where that is darker and
would stain what is filled already. So dark before pale saves tape. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.drawing.colour import srgb_to_lab
from bench.drawing.panel import FloatArray, IntArray, Panel
from bench.finish.zones import JointGrid

STRIP_MM = 50.0  # that a grout float may run over: common practice, no source
_POINT_MM = 0.5
_DARKER_L = 2.0  # L* from which on a grout is darker
_MOST_EXACT = 10


@dataclass(frozen=True)
class GroutDay:
    """What is grouted on one day, and the tape it takes. [mm]"""

    colours: tuple[int, ...]
    tape_mm: float


def border_mm(panel: Panel, zone: IntArray, zones: int) -> FloatArray:
    """Return how long each two zones face each other. (zones, zones) [mm]"""
    ends = zone[panel.joints.pair]
    found = np.zeros((zones, zones))
    np.add.at(found, (ends[:, 0], ends[:, 1]), panel.joints.length_mm)
    found = found + found.T
    np.fill_diagonal(found, 0.0)
    return found


def strip_mm2(grid: JointGrid | None, zone: IntArray, grout: IntArray) -> FloatArray:
    """Return the ground of other grouts within STRIP_MM of each zone, to be covered with it. (zones,) [mm²]

    zone: (n,) of each tessera; grout: (zones,) which of them share one. On a grid, true to about a step times
    the border's length; 0 where the joints are finer than the grid.
    """
    from scipy.ndimage import distance_transform_edt

    if grid is None:
        return np.zeros(len(grout))
    step = max(1, round(_POINT_MM / grid.step_mm))
    of = zone[grid.nearest[::step, ::step]]
    point_mm = grid.step_mm * step
    found = []
    for k in range(len(grout)):
        other = grout[of] != grout[k]
        near = distance_transform_edt(of != k) * point_mm <= STRIP_MM
        found.append(float((other & near).sum()) if (of == k).any() else 0.0)
    return np.array(found) * point_mm**2


def days_of_grout(border: FloatArray, colours: Sequence[tuple[int, int, int]] = ()) -> tuple[GroutDay, ...]:
    """Return which grouts to work on which day: never two that meet, the fewest days, then the least tape.

    border: (g, g) between grouts. colours: sRGB of the grouts; none are as dark as each other. Exact up to
    ten grouts; beyond that dark ones are placed first, each on the first day that has none beside it.
    """
    count = len(border)
    if count == 0:
        return ()
    light = srgb_to_lab(np.array(colours, np.uint8))[:, 0] if len(colours) else np.zeros(count)
    chosen = _exact(border, light) if count <= _MOST_EXACT else _first_fit(border, light)
    done: list[int] = []
    days = []
    for day in chosen:
        days.append(GroutDay(tuple(day), _tape(border, light, day, done)))
        done += day
    return tuple(days)


def _tape(border: FloatArray, light: FloatArray, day: Sequence[int], done: Sequence[int]) -> float:
    """Return the tape of one day: to all that is still open, and to what is done and paler."""
    total = 0.0
    for k in day:
        for other in range(len(border)):
            if other not in day and (other not in done or light[k] < light[other] - _DARKER_L):
                total += border[k, other]
    return float(total)


def _first_fit(border: FloatArray, light: FloatArray) -> list[list[int]]:
    days: list[list[int]] = []
    for k in np.argsort(light, kind="stable").tolist():
        free = next((day for day in days if not border[k, day].any()), None)
        if free is None:
            days.append([k])
        else:
            free.append(k)
    return days


def _exact(border: FloatArray, light: FloatArray) -> list[list[int]]:
    """Search all ways, by the set of grouts that are done: fewest days first, then least tape."""
    count = len(border)
    meets = [sum(1 << j for j in range(count) if border[k, j] > 0) for k in range(count)]
    members = [[k for k in range(count) if s >> k & 1] for s in range(1 << count)]
    apart = [not any(meets[k] & s for k in members[s]) for s in range(1 << count)]
    best: list[tuple[int, float, int]] = [(0, 0.0, 0)] + [(count + 1, 0.0, 0)] * ((1 << count) - 1)
    for done in range(1 << count):
        rest = ((1 << count) - 1) ^ done
        day = rest
        while day:
            if apart[day]:
                tape = best[done][1] + _tape(border, light, members[day], members[done])
                best[done | day] = min(best[done | day], (best[done][0] + 1, tape, done))
            day = (day - 1) & rest
    return _back(best, members, (1 << count) - 1)


def _back(best: list[tuple[int, float, int]], members: list[list[int]], end: int) -> list[list[int]]:
    days = []
    while end:
        before = best[end][2]
        days.append(members[end ^ before])
        end = before
    return days[::-1]

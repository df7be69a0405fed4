"""How much setting fits one batch at the promise, and how sure a given section is."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from bench.fault import Fault
from bench.pace.hands import Hands
from bench.pace.life import Life, require_working_time, standard_nodes
from bench.pace.mixture import Mixture
from bench.pace.normal import FloatArray
from bench.pace.root import crossing
from bench.pace.routine import Routine
from bench.speech import say
from bench.speech.measures import MM2_PER_CM2

SURE_SPAN = (0.5, 0.99)
PROMISES = {"3 in 4": 0.75, "9 in 10": 0.9, "19 in 20": 0.95}
DEFAULT_PIECE_MM2 = 46.5  # of the bed, joints in: a foot square of 2,000, common practice, no source
_CHUNK = 2000  # sections weighed at once


class SureOutOfRange(Fault):
    """Refuse a promise that cannot be sized to; `sure` keeps it."""

    def __init__(self, sure: float) -> None:
        low, high = SURE_SPAN
        what = say("sure of {sure:g} cannot be promised", sure=sure)
        usual = PROMISES["9 in 10"]
        todo = say("give {low:g} to {high:g}, e.g. {usual:g} for 9 in 10", low=low, high=high, usual=usual)
        super().__init__(what, where=say("sure"), todo=todo)
        self.sure = sure


class WorkingTimeTooShort(Fault):
    """Tell that not one piece fits the working time at the promise; the times are kept. [s]"""

    def __init__(self, working_time_s: float, around_s: float, sure: float) -> None:
        what = say(
            "a working time of {time:.3g} min holds no piece: stirring, spreading and "
            "cleaning take {around:.3g} min, and one piece is not in time {sure:.3g} times in 100",
            time=working_time_s / 60,
            around=around_s / 60,
            sure=100 * sure,
        )
        todo = say("take a slower adhesive or a cooler room, or see whether the pace is right")
        super().__init__(what, where=say("working time"), todo=todo)
        self.working_time_s = working_time_s
        self.around_s = around_s
        self.sure = sure


@dataclass(frozen=True)
class Capacity:
    """What one batch holds: working_time = stir + spread + capacity + clean + reserve, all [s].

    capacity_effort: the same in medium pieces, or usual patches; pieces_medium: whole ones, of patches too.
    reserve_s: what the promise costs. pace_per_min, life_s: p10, p50, p90 of the next glue-up.
    """

    capacity_s: float
    capacity_effort: float
    pieces_medium: int
    stir_s: float
    spread_s: float
    clean_s: float
    reserve_s: float
    working_time_s: float
    sure: float
    pace_per_min: dict[str, float]
    life_s: dict[str, float]


def probability_in_time(
    hands: Hands,
    life: Life,
    *,
    counts: ArrayLike,
    area_mm2: float | FloatArray,
    working_time_s: float | FloatArray,
    routine: Routine,
) -> float | FloatArray:
    """Return P(stir + spread + setting + clean ≤ life), parameters' uncertainty included.

    counts: pieces (small, medium, large) of one section, or (k, 3) of k; area_mm2 and working_time_s one
    for all or one each. A float for one section, else (k,). Quadrature over the life of the mix and over
    σ², error below 1e-4.
    """
    table = np.atleast_2d(np.asarray(counts, dtype=np.float64))
    area = np.broadcast_to(np.asarray(area_mm2, dtype=np.float64), (len(table),))
    label = np.broadcast_to(np.asarray(working_time_s, dtype=np.float64), (len(table),))
    for time_s in np.unique(label):
        require_working_time(float(time_s))
    chance = np.zeros(len(table))
    for first in range(0, len(table), _CHUNK):
        some = slice(first, first + _CHUNK)
        around_s = routine.around_s(area[some])
        chance[some] = _in_time(hands.log_setting(table[some]), life, around_s, label[some])
    return float(chance[0]) if np.ndim(counts) == 1 else chance


def _in_time(setting: Mixture, life: Life, around_s: FloatArray, label_s: FloatArray) -> FloatArray:
    """Return P(around + setting ≤ label · ratio) for k sections."""
    _, weight = standard_nodes()
    left_s = label_s[:, None] * np.exp(life.log_ratio) - around_s[:, None]
    with np.errstate(divide="ignore"):
        log_left = np.log(np.maximum(left_s, 0.0))
    # No pieces need no time: −∞ ≤ anything, wherever something is left.
    log_left = np.where((left_s > 0) & np.isinf(setting.mean)[:, None], 0.0, log_left)
    mean = np.where(np.isinf(setting.mean), -1e9, setting.mean)
    log_left = np.maximum(log_left, -1e12)
    return Mixture(mean, setting.sd, setting.weight).cdf(log_left) @ weight


def capacity(
    hands: Hands,
    life: Life,
    *,
    working_time_s: float,
    routine: Routine,
    sure: float = 0.9,
    area_per_piece_mm2: float | None = None,
) -> Capacity:
    """Return the largest bound on Σ expected_s for which a section of medium pieces is in time.

    The bound is where P(stir + spread + setting + clean ≤ life) = sure for n medium pieces, or usual patches,
    on n · area_per_piece_mm2, n not rounded; None: a usual piece's or patch's own bed. Less than one piece
    raises WorkingTimeTooShort, a promise outside 0.5 to 0.99 SureOutOfRange.
    """
    require_working_time(working_time_s)
    if not SURE_SPAN[0] <= sure <= SURE_SPAN[1]:
        raise SureOutOfRange(sure)
    if area_per_piece_mm2 is None:
        area_per_piece_mm2 = hands.by_patch.patch_cm2 * MM2_PER_CM2 if hands.by_patch else DEFAULT_PIECE_MM2
    one = hands.log_setting(hands.one)
    label = np.array([working_time_s])

    def chance(pieces: float) -> float:
        around_s = np.array([routine.around_s(pieces * area_per_piece_mm2)])
        setting = Mixture(one.mean + math.log(pieces), one.sd, one.weight)
        return float(_in_time(setting, life, around_s, label)[0])

    if chance(1.0) < sure:
        raise WorkingTimeTooShort(working_time_s, routine.around_s(area_per_piece_mm2), sure)
    effort = _largest(chance, sure)
    area_mm2 = effort * area_per_piece_mm2
    capacity_s = effort * hands.one_s
    return Capacity(
        capacity_s=capacity_s,
        capacity_effort=effort,
        pieces_medium=math.floor(effort + 1e-6),
        stir_s=routine.stir_s,
        spread_s=routine.spread_s(area_mm2),
        clean_s=routine.clean_s(area_mm2),
        reserve_s=working_time_s - routine.around_s(area_mm2) - capacity_s,
        working_time_s=working_time_s,
        sure=sure,
        pace_per_min=hands.pace_per_min,
        life_s={f"p{p}": life.quantile_s(p / 100, working_time_s) for p in (10, 50, 90)},
    )


def _largest(chance: Callable[[float], float], sure: float) -> float:
    """Return the largest x ≥ 1 with chance(x) ≥ sure, to a billionth of it; chance falls with x."""

    def spare(log_x: float) -> float:
        return chance(math.exp(log_x)) - sure

    high = 1.0
    while spare(high) >= 0:
        high *= 2
    return math.exp(crossing(spare, 0.0, high))

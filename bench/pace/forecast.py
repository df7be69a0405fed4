"""What remains: glue-ups, hours and days, simulated over all that is not known yet."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from bench.fault import Fault
from bench.pace.capacity import Capacity, capacity
from bench.pace.hands import Hands
from bench.pace.laying import Laying
from bench.pace.life import PRIOR_SD, Life, standard_nodes
from bench.pace.moments import KAPPA0
from bench.pace.normal import FloatArray
from bench.pace.routine import Routine

DRAWS = 500
FOLLOWED = 60  # glue-ups simulated one by one; the rest go on like the last
S_PER_H = 3600.0


class HoursOutOfRange(Fault):
    """Refuse working hours no day has; `hours_a_day` keeps them."""

    def __init__(self, hours_a_day: float) -> None:
        what = f"{hours_a_day:g} working hours a day cannot be"
        super().__init__(what, where="hours a day", todo="give more than 0, at most 24")
        self.hours_a_day = hours_a_day


@dataclass(frozen=True)
class Forecast:
    """p10, p50, p90 of what remains. hours: glue-ups and, where laying is known, laying dry. [h]

    days: working days of so many hours; None where nobody said how many. The adhesive cures meanwhile.
    """

    glue_ups: dict[str, float]
    hours: dict[str, float]
    days: dict[str, float] | None


@dataclass
class _Simulated:
    """Makers drawn from the posterior, side by side: one number each. Changes from glue-up to glue-up."""

    level: FloatArray  # true log seconds a medium piece, of this panel's mix of sizes
    sigma: FloatArray  # true scatter
    believed: FloatArray  # what the book holds level for
    left: FloatArray  # medium pieces
    glue_ups: FloatArray
    seconds: FloatArray
    last_effort: FloatArray = field(default_factory=lambda: np.ones(1))
    last_s: FloatArray = field(default_factory=lambda: np.ones(1))


def forecast(
    hands: Hands,
    life: Life,
    *,
    counts_left: ArrayLike,
    area_mm2: float,
    working_time_s: float,
    routine: Routine,
    sure: float = 0.9,
    sections_planned: int | None = None,
    laying: Laying | None = None,
    pieces_to_lay: float = 0.0,
    hours_a_day: float | None = None,
    rng: np.random.Generator,
) -> Forecast:
    """Foretell what the pieces left (small, medium, large) on `area_mm2` of bed will take.

    Each of 500 makers drawn from the posterior sets section after section; sections grow as the book
    learns her pace; what goes stringy is set again. sections_planned: of the division in force, so that
    sections filled less than the capacity count; None: filled to it. Nothing left takes nothing.
    Raises WorkingTimeTooShort and the like as `capacity` does, HoursOutOfRange.
    """
    if hours_a_day is not None and not 0 < hours_a_day <= 24:
        raise HoursOutOfRange(hours_a_day)
    counts = np.asarray(counts_left, dtype=np.float64)
    effort = float(counts @ np.exp(hands.known.log_weight))
    laying_s = _laying_s(laying, pieces_to_lay, rng)
    if effort <= 0:
        return _told(np.zeros(DRAWS), laying_s, hours_a_day)
    area_of_one = area_mm2 / effort
    now = capacity(
        hands, life, working_time_s=working_time_s, routine=routine, sure=sure, area_per_piece_mm2=area_of_one
    )
    filled = 1.0
    if sections_planned:
        filled = min(1.0, effort / now.capacity_effort / sections_planned)
    made = _drawn(hands, counts, effort, rng)
    weight = hands.nig.kappa
    for _ in range(FOLLOWED):
        if not made.left.any():
            break
        weight = _set_one(made, hands, life, now, routine, area_of_one, filled, weight, rng)
    rest = np.ceil(made.left / made.last_effort)
    return _told(made.glue_ups + rest, made.seconds + rest * made.last_s + laying_s, hours_a_day)


def _drawn(hands: Hands, counts: FloatArray, effort: float, rng: np.random.Generator) -> _Simulated:
    """Draw makers from the posterior of pace, scatter and the classes' weights."""
    variance = hands.nig.beta / rng.gamma(hands.nig.alpha, size=DRAWS)
    distance = counts * np.exp(hands.known.log_weight) / effort - hands.known.mean_share
    of_weights = float(distance @ hands.known.covariance @ distance)
    level = hands.nig.m + np.sqrt(variance / hands.nig.kappa + of_weights) * rng.standard_normal(DRAWS)
    start = np.full(DRAWS, hands.nig.m)
    zero = np.zeros(DRAWS)
    return _Simulated(level, np.sqrt(variance), start, np.full(DRAWS, effort), zero, zero.copy())


def _set_one(
    made: _Simulated,
    hands: Hands,
    life: Life,
    now: Capacity,
    routine: Routine,
    area_of_one: float,
    filled: float,
    weight: float,
    rng: np.random.Generator,
) -> float:
    """Let each set one section; return the glue-ups' worth that the book knows the pace by afterwards.

    Today's margin, the log of what setting may take over what is expected, shrinks with the predictive
    scatter: log T against log life, √(σ²(1 + 1/κ) + 0.12²).
    """
    scale2 = hands.nig.beta / hands.nig.alpha
    usual = math.sqrt(scale2 * (1 + 1 / hands.nig.kappa) + PRIOR_SD**2)
    margin = (
        math.log(1 + now.reserve_s / now.capacity_s)
        * math.sqrt(scale2 * (1 + 1 / weight) + PRIOR_SD**2)
        / usual
    )
    each_mm2 = (routine.spread_s_per_cm2 + routine.clean_s_per_cm2) / 100
    room_s = now.working_time_s - routine.around_s(0.0)
    effort = np.minimum(
        filled * room_s / (np.exp(made.believed + margin) + each_mm2 * area_of_one), made.left
    )
    effort = np.maximum(effort, np.minimum(1.0, made.left))
    around_s = routine.around_s(effort * area_of_one)
    rate = made.level + made.sigma * rng.standard_normal(DRAWS)
    setting_s = effort * np.exp(rate)
    z, _ = standard_nodes()
    life_s = now.working_time_s * np.exp(np.interp(rng.standard_normal(DRAWS), z, life.log_ratio))
    share = np.clip(
        (life_s - routine.stir_s - routine.spread_s(effort * area_of_one)) / np.maximum(setting_s, 1e-9),
        0.0,
        1.0,
    )
    busy = made.left > 0
    made.seconds += np.where(busy, around_s + setting_s * share, 0.0)
    made.glue_ups += busy
    made.last_effort = np.where(busy, np.maximum(effort * share, 0.5), made.last_effort)
    made.last_s = np.where(busy, around_s + setting_s * share, made.last_s)
    made.left = np.where(made.left - effort * share > 1e-6, made.left - effort * share, 0.0)
    kept = 1.0 if hands.half_life is None else 0.5 ** (1 / hands.half_life)
    weight = KAPPA0 + kept * (weight - KAPPA0) + 1
    made.believed += (rate - made.believed) / weight
    return weight


def _laying_s(laying: Laying | None, pieces: float, rng: np.random.Generator) -> FloatArray:
    """Draw the time to lay so many pieces at the maker's usual pace; the spells' scatter evens out. [s]"""
    if laying is None or pieces <= 0:
        return np.zeros(DRAWS)
    variance = laying.nig.beta / rng.gamma(laying.nig.alpha, size=DRAWS)
    usual = laying.nig.m + np.sqrt(variance / laying.nig.kappa) * rng.standard_normal(DRAWS)
    time_s: FloatArray = pieces * np.exp(usual)
    return time_s


def _told(glue_ups: FloatArray, seconds: FloatArray, hours_a_day: float | None) -> Forecast:
    hours = seconds / S_PER_H
    days = None if hours_a_day is None else _spread(np.ceil(hours / hours_a_day))
    return Forecast(_spread(glue_ups), _spread(hours), days)


def _spread(drawn: FloatArray) -> dict[str, float]:
    return {f"p{p}": float(np.percentile(drawn, p, method="inverted_cdf")) for p in (10, 50, 90)}

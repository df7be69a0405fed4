"""What remains: glue-ups, hours and days, simulated over all that is not known yet."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import ArrayLike

from bench.fault import Fault
from bench.pace.capacity import capacity
from bench.pace.hands import Hands
from bench.pace.laying import Laying
from bench.pace.life import PRIOR_SD, Life, standard_nodes
from bench.pace.moments import KAPPA0
from bench.pace.normal import FloatArray
from bench.pace.routine import Routine
from bench.speech import say

DRAWS = 500
FOLLOWED = 60  # glue-ups simulated one by one; the rest go on like the last
S_PER_H = 3600.0


class HoursOutOfRange(Fault):
    """Refuse working hours no day has; `hours_a_day` keeps them."""

    def __init__(self, hours_a_day: float) -> None:
        what = say("{hours:g} working hours a day cannot be", hours=hours_a_day)
        super().__init__(what, where=say("hours a day"), todo=say("give more than 0, at most 24"))
        self.hours_a_day = hours_a_day


@dataclass(frozen=True)
class Forecast:
    """p10, p50, p90 of what remains. hours: glue-ups and, where laying is known, laying dry. [h]

    days: working days of so many hours; None where nobody said how many. The adhesive cures meanwhile.
    glueing_hours, laying_hours, laying_days: the same of each alone.
    adhesive_g: what is mixed, with what goes stringy and what each cup keeps; None without its grams. [g]
    """

    glue_ups: dict[str, float]
    hours: dict[str, float]
    days: dict[str, float] | None
    adhesive_g: dict[str, float] | None = None
    glueing_hours: dict[str, float] = field(default_factory=dict)
    laying_hours: dict[str, float] = field(default_factory=dict)
    laying_days: dict[str, float] | None = None


@dataclass
class _Simulated:
    """Makers drawn from the posterior, side by side: one number each. Changes from glue-up to glue-up."""

    level: FloatArray  # true log seconds a medium piece or usual patch, of this panel's mix of sizes
    sigma: FloatArray  # true scatter
    believed: FloatArray  # what the book holds level for
    left: FloatArray  # medium pieces, or usual patches
    glue_ups: FloatArray
    seconds: FloatArray
    bed_mm2: FloatArray  # that adhesive was mixed for
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
    laying_hours_a_day: float | None = None,
    grams: tuple[float, float] | None = None,
    rng: np.random.Generator,
) -> Forecast:
    """Foretell what the pieces left (small, medium, large; or patches) on `area_mm2` of bed will take.

    Each of 500 makers drawn from the posterior sets section after section; sections grow as the book
    learns her pace; what goes stringy is set again. sections_planned: of the division in force, so that
    sections filled less than the capacity count; None: filled to it. grams: of adhesive for each mm² of
    bed, and what a cup keeps of each glue-up. laying_hours_a_day: of laying alone, which goes on beside the
    glue-ups and the cure; None: both share hours_a_day. Nothing left takes nothing.
    Raises WorkingTimeTooShort and the like as `capacity` does, HoursOutOfRange.
    """
    a_day = hours_a_day, laying_hours_a_day
    for given in a_day:
        if given is not None and not 0 < given <= 24:
            raise HoursOutOfRange(given)
    counts = np.asarray(counts_left, dtype=np.float64)
    effort = float(counts @ hands.expected_s) / hands.one_s
    laying_s = np.zeros(DRAWS) if laying is None else laying.drawn_s(pieces_to_lay, DRAWS, rng)
    if effort <= 0:
        nothing = np.zeros(DRAWS)
        return _told(nothing, nothing, laying_s, a_day, None if grams is None else nothing)
    filling = _filling(hands, life, working_time_s, routine, sure, area_mm2 / effort)
    if sections_planned:
        needed = effort / float(filling.effort(np.log([hands.one_s]), hands.nig.kappa)[0])
        filling = replace(filling, part=min(1.0, needed / sections_planned))
    made = _drawn(hands, counts, effort, rng)
    _follow(made, filling, life, hands.nig.kappa, rng)
    rest = np.ceil(made.left / made.last_effort)
    glue_ups = made.glue_ups + rest
    mixed_g = None
    if grams is not None:
        bed_mm2 = made.bed_mm2 + rest * made.last_effort * filling.area_of_one_mm2
        mixed_g = grams[0] * bed_mm2 + grams[1] * glue_ups
    return _told(glue_ups, made.seconds + rest * made.last_s, laying_s, a_day, mixed_g)


@dataclass(frozen=True)
class _Filling:
    """How full sections get as the book learns.

    margin: log of what setting may take over what is expected, with today's scatter √(σ² (1 + 1/κ) +
    0.12²) of log setting time against log life; it shrinks with that scatter as κ grows.
    """

    routine: Routine
    label_s: float
    life_s: float  # median
    area_of_one_mm2: float
    margin: float
    kappa: float
    variance: float  # σ²
    remembered: float  # of the book's weight, by the next glue-up
    part: float = 1.0  # of the capacity that sections are filled to

    def effort(self, believed: FloatArray, kappa: float) -> FloatArray:
        """Return the medium pieces of a section where the log time of one is believed to be this."""
        then, now = (self.variance * (1 + 1 / k) + PRIOR_SD**2 for k in (kappa, self.kappa))
        each_s = np.exp(believed + self.margin * math.sqrt(then / now))
        around_each_s = self.routine.around_s(self.area_of_one_mm2) - self.routine.around_s(0.0)
        pieces: FloatArray = self.part * (self.life_s - self.routine.around_s(0.0)) / (each_s + around_each_s)
        return np.maximum(pieces, 1.0)


def _filling(
    hands: Hands, life: Life, label_s: float, routine: Routine, sure: float, area_of_one_mm2: float
) -> _Filling:
    """Return how full sections get, such that the first is filled to today's capacity."""
    now = capacity(
        hands, life, working_time_s=label_s, routine=routine, sure=sure, area_per_piece_mm2=area_of_one_mm2
    )
    life_s = life.quantile_s(0.5, label_s)
    spare_s = life_s - routine.around_s(now.capacity_effort * area_of_one_mm2)
    return _Filling(
        routine=routine,
        label_s=label_s,
        life_s=life_s,
        area_of_one_mm2=area_of_one_mm2,
        margin=math.log(max(spare_s / now.capacity_s, 0.1)),
        kappa=hands.nig.kappa,
        variance=hands.nig.beta / hands.nig.alpha,
        remembered=1.0 if hands.half_life is None else 0.5 ** (1 / hands.half_life),
    )


def _drawn(hands: Hands, counts: FloatArray, effort: float, rng: np.random.Generator) -> _Simulated:
    """Draw makers from the posterior of pace, scatter and the classes' weights."""
    variance = hands.nig.beta / rng.gamma(hands.nig.alpha, size=DRAWS)
    distance = counts * hands.expected_s / float(counts @ hands.expected_s) - hands.known.mean_share
    of_weights = float(distance @ hands.known.covariance @ distance)
    usual = math.log(hands.one_s)
    level = usual + np.sqrt(variance / hands.nig.kappa + of_weights) * rng.standard_normal(DRAWS)
    start = np.full(DRAWS, usual)
    zero = np.zeros(DRAWS)
    return _Simulated(level, np.sqrt(variance), start, np.full(DRAWS, effort), zero, zero.copy(), zero.copy())


def _follow(made: _Simulated, filling: _Filling, life: Life, kappa: float, rng: np.random.Generator) -> None:
    """Let each set section after section, FOLLOWED at most, while the book learns."""
    for _ in range(FOLLOWED):
        if not made.left.any():
            return
        _set_one(made, filling, life, kappa, rng)
        kappa = KAPPA0 + filling.remembered * (kappa - KAPPA0) + 1


def _set_one(made: _Simulated, filling: _Filling, life: Life, kappa: float, rng: np.random.Generator) -> None:
    """Let each set one section and the book learn from it; `kappa`: what the pace is known by before."""
    effort = np.minimum(filling.effort(made.believed, kappa), made.left)
    area_mm2 = effort * filling.area_of_one_mm2
    rate = made.level + made.sigma * rng.standard_normal(DRAWS)
    setting_s = effort * np.exp(rate)
    z, _ = standard_nodes()
    life_s = filling.label_s * np.exp(np.interp(rng.standard_normal(DRAWS), z, life.log_ratio))
    before_s = filling.routine.stir_s + filling.routine.spread_s(area_mm2)
    share = np.clip((life_s - before_s) / np.maximum(setting_s, 1e-9), 0.0, 1.0)
    spent_s = before_s + setting_s * share + filling.routine.clean_s(area_mm2)
    busy = made.left > 0
    made.seconds += np.where(busy, spent_s, 0.0)
    made.glue_ups += busy
    made.bed_mm2 += np.where(busy, area_mm2, 0.0)
    made.last_effort = np.where(busy, np.maximum(effort * share, 0.5), made.last_effort)
    made.last_s = np.where(busy, spent_s, made.last_s)
    left = made.left - effort * share
    made.left = np.where(left > 1e-6, left, 0.0)
    made.believed += (rate - made.believed) / (kappa + 1)


def _told(
    glue_ups: FloatArray,
    glueing_s: FloatArray,
    laying_s: FloatArray,
    a_day: tuple[float | None, float | None],
    mixed_g: FloatArray | None,
) -> Forecast:
    glueing, laying = glueing_s / S_PER_H, laying_s / S_PER_H
    hours_a_day, laying_hours_a_day = a_day
    days = laid = None
    if laying_hours_a_day is not None:
        laid = np.ceil(laying / laying_hours_a_day)
    if hours_a_day is not None:
        days = np.ceil((glueing + laying) / hours_a_day)
        if laid is not None:
            days = np.maximum(np.ceil(glueing / hours_a_day), laid)
    return Forecast(
        glue_ups=_spread(glue_ups),
        hours=_spread(glueing + laying),
        days=None if days is None else _spread(days),
        adhesive_g=None if mixed_g is None else _spread(mixed_g),
        glueing_hours=_spread(glueing),
        laying_hours=_spread(laying),
        laying_days=None if laid is None else _spread(laid),
    )


def _spread(drawn: FloatArray) -> dict[str, float]:
    return {f"p{p}": float(np.percentile(drawn, p, method="inverted_cdf")) for p in (10, 50, 90)}

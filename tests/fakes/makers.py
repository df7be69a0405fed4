"""Simulated makers who work as the room's model does not quite say: they learn, tire and mix sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import numpy as np

from bench.pace.capacity import WorkingTimeTooShort, capacity
from bench.pace.glueup import GlueUp
from bench.pace.hands import learn_hands
from bench.pace.life import learn_life, standard_nodes
from bench.pace.mixture import Mixture
from bench.pace.root import crossing
from bench.pace.routine import Routine

LABEL_S = 1500.0
STATED_PER_MIN = 5.0
AREA_MM2 = np.array([22.0, 46.5, 120.0])  # of the bed, by size class
MIXES_A_DAY = 3


@dataclass(frozen=True, eq=False)
class Maker:
    """The truth: log T = log Σ n·w + log_pace_s − learning·log k + tiring·mix of the day + σ·z."""

    log_pace_s: float
    sigma: float
    log_weight: np.ndarray
    learning: float
    tiring: float
    life_sd: float
    proportion: np.ndarray

    def log_pace_at(self, k: int) -> float:
        """Return the log seconds a medium piece at the k-th glue-up (from 0)."""
        return self.log_pace_s - self.learning * math.log(k + 1) + self.tiring * (k % MIXES_A_DAY)


@dataclass
class Record:
    """What came of one maker's glue-ups: kept in time or not, effort set over effort possible."""

    kept: list[bool] = field(default_factory=list)
    share: list[float] = field(default_factory=list)


def a_maker(rng: np.random.Generator, *, off_by: float | None = None) -> Maker:
    """Return a maker about the stated pace (log sd 0.35), or off it by this factor of time a piece."""
    off = 0.35 * rng.standard_normal() if off_by is None else math.log(off_by)
    size = 0.3 * rng.standard_normal(2)
    return Maker(
        log_pace_s=math.log(60 / STATED_PER_MIN) + off,
        sigma=rng.uniform(0.08, 0.25),
        log_weight=np.array([size[0], 0.0, size[1]]),
        learning=rng.uniform(0.0, 0.05),
        tiring=rng.uniform(0.0, 0.05),
        life_sd=0.10,
        proportion=rng.dirichlet([1.0, 4.0, 1.0]),
    )


def work(maker: Maker, rng: np.random.Generator, *, glue_ups: int, sure: float) -> Record:
    """Let a maker set section after section, each filled to capacity by what the book knows by then."""
    record, book, routine = Record(), [], Routine()
    for k in range(glue_ups):
        hands = learn_hands(book, pace_per_min=STATED_PER_MIN)
        life = learn_life(book, working_time_s=LABEL_S)
        try:
            bound = capacity(hands, life, working_time_s=LABEL_S, routine=routine, sure=sure)
        except WorkingTimeTooShort:
            counts = maker.proportion
        else:
            counts = maker.proportion * bound.capacity_s / float(hands.expected_s @ maker.proportion)
        glue_up, in_time = set_section(maker, rng, k, counts, routine)
        book.append(glue_up)
        record.kept.append(in_time)
        effort = float(counts @ np.exp(maker.log_weight))
        record.share.append(effort / possible_effort(maker, k, routine, sure))
    return record


def set_section(
    maker: Maker, rng: np.random.Generator, k: int, counts: np.ndarray, routine: Routine
) -> tuple[GlueUp, bool]:
    """Return the glue-up of one section, and whether it was clean before the adhesive went stringy."""
    area_mm2 = float(AREA_MM2 @ counts)
    before_s = routine.stir_s + routine.spread_s(area_mm2)
    log_effort = math.log(float(counts @ np.exp(maker.log_weight)))
    setting_s = math.exp(log_effort + maker.log_pace_at(k) + maker.sigma * rng.standard_normal())
    life_s = LABEL_S * math.exp(maker.life_sd * rng.standard_normal())
    finished_s = before_s + setting_s + routine.clean_s(area_mm2)
    in_time = finished_s <= life_s
    set_s = setting_s if in_time else min(setting_s, max(life_s - before_s, 1.0))
    placed = np.maximum(np.rint(counts * set_s / setting_s), [0, 1, 0]).astype(int)
    started = datetime(2025, 1, 1, 8, tzinfo=UTC) + timedelta(
        days=k // MIXES_A_DAY, hours=2 * (k % MIXES_A_DAY)
    )
    glue_up = GlueUp(
        started,
        int(placed[0]),
        int(placed[1]),
        int(placed[2]),
        set_s,
        0.0,
        21.0,
        finished_s if in_time else None,
        None if in_time else life_s,
        set_s == setting_s,
    )
    return glue_up, in_time


def possible_effort(maker: Maker, k: int, routine: Routine, sure: float) -> float:
    """Return the most effort a batch holds at the promise where pace and life are known.

    The life's median is the label, so the cap at the label changes nothing.
    """
    z, weight = standard_nodes()
    life_s = LABEL_S * np.exp(maker.life_sd * z)
    effort_a_piece = float(maker.proportion @ np.exp(maker.log_weight))
    area_a_piece = float(AREA_MM2 @ maker.proportion)

    def spare(log_pieces: float) -> float:
        pieces = math.exp(log_pieces)
        left_s = np.maximum(life_s - routine.around_s(pieces * area_a_piece), 1e-9)
        mean = np.array([math.log(pieces * effort_a_piece) + maker.log_pace_at(k)])
        setting = Mixture(mean, np.array([[maker.sigma]]), np.ones(1))
        return float((setting.cdf(np.log(left_s)[None]) @ weight)[0]) - sure

    return effort_a_piece * math.exp(crossing(spare, -3.0, 12.0))

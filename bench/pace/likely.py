"""During a glue-up: how many pieces will still be placed before the adhesive goes stringy."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from bench.pace.hands import Hands
from bench.pace.life import Life, require_working_time, standard_nodes
from bench.pace.mixture import Mixture
from bench.pace.normal import FloatArray
from bench.pace.routine import Routine

PIECE_SCATTER = 0.5  # of log time from piece to piece; common practice, no source
DRIFT_SCATTER = 0.05  # of log pace between the pieces placed and those to come


@dataclass(frozen=True)
class Outlook:
    """What is likely from now on.

    placed: pieces placed by now, counted or expected from the time.
    pieces: of those left, how many will be placed in time, at the given sureness.
    leave: how many will not.
    in_time: chance that all that are left are placed and the joints are picked in time.
    """

    placed: float
    pieces: int
    leave: int
    in_time: float


def outlook(
    hands: Hands,
    life: Life,
    *,
    elapsed_s: float,
    paused_s: float,
    placed: float | None,
    counts_left: ArrayLike,
    working_time_s: float,
    routine: Routine,
    area_mm2: float,
    sure: float = 0.5,
    patches_left: float | None = None,
) -> Outlook:
    """Say what is likely from now on, while the adhesive still holds.

    elapsed_s: since first contact, pauses in; paused_s: pauses of it. [s]
    placed: pieces counted so far; None: never counted, so the time alone speaks.
    counts_left: pieces (small, medium, large) not known to be placed; all of them if never counted.
    area_mm2: bed of the whole section.
    sure: chance that at least so many are placed; 0.5 for the likely number, 0.9 to be sure of it.
    patches_left: where it is set by the patch, how many of them; then all is told in patches, and
        counts_left are `patch_counts`.

    That nothing went stringy yet rules out the shorter lives. A count measures today's pace, the sharper
    the more pieces, against what the book knows. Without one, that the maker has not said 'done' rules
    out the paces at which all would be placed by now.
    """
    require_working_time(working_time_s)
    left = np.asarray(counts_left, dtype=np.float64)
    exact = float(left.sum()) if patches_left is None else patches_left
    total = math.floor(exact + 1e-9)
    before_s = routine.stir_s + routine.spread_s(area_mm2)
    begin_s = max(0.0, before_s - (elapsed_s - paused_s))
    setting_s = max(0.0, elapsed_s - paused_s - before_s)
    one = hands.log_setting(left / exact if total else hands.one)
    spare_s, weight = _spare(life, working_time_s, elapsed_s, begin_s + routine.clean_s(area_mm2))
    numbers = np.arange(1, total + 1, dtype=np.float64)
    clean_fits = float(weight @ (spare_s >= 0))
    if placed is not None:
        chance = _chances(_measured(one, placed, setting_s), numbers, spare_s, weight)
        fits = int((chance >= sure).sum())
        return Outlook(float(placed), fits, total - fits, float(chance[-1]) if total else clean_fits)
    slowest_done = setting_s / total if total else 0.0
    chance = _chances(one, numbers, setting_s + np.maximum(spare_s, 0.0), weight, longer_than_s=slowest_done)
    fits = int((chance >= sure).sum())
    done = min(total, setting_s / _median_s(one, slowest_done))
    enough = float(chance[-1]) if total else clean_fits
    return Outlook(done, max(0, fits - math.floor(done)), total - max(fits, math.floor(done)), enough)


def _median_s(one: Mixture, longer_than_s: float) -> float:
    """Return the median time of a piece, among times longer than this. [s]"""
    if longer_than_s <= 0:
        return math.exp(float(one.mean[0]))
    below = float(one.cdf(np.log(np.array([longer_than_s])))[0])
    if below > 1 - 1e-6:
        return longer_than_s
    return math.exp(one.quantile(0.5 * (1 + below)))


def _measured(one: Mixture, placed: float, setting_s: float) -> Mixture:
    """Return the log time a piece after `placed` pieces took so many seconds of setting."""
    if placed <= 0 or setting_s <= 0:
        return one
    seen = math.log(setting_s / placed)
    noise = PIECE_SCATTER**2 / placed + DRIFT_SCATTER**2
    variance = one.sd[0] ** 2
    gain = variance / (variance + noise)
    log_weight = -0.5 * (seen - one.mean[0]) ** 2 / (variance + noise) - 0.5 * np.log(variance + noise)
    weight = one.weight * np.exp(log_weight - log_weight.max())
    weight = weight / weight.sum()
    each = one.mean[0] + gain * (seen - one.mean[0])
    mean = float(weight @ each)
    # One mean for all scales: the little that they differ by goes into the scatter.
    sd = np.sqrt(variance * (1 - gain) + (each - mean) ** 2)
    return Mixture(np.array([mean]), sd[None], weight)


def _spare(
    life: Life, working_time_s: float, elapsed_s: float, other_s: float
) -> tuple[FloatArray, FloatArray]:
    """Return times left for setting and their weights, among lives longer than the time elapsed."""
    z, _ = standard_nodes()
    fine = np.linspace(z[0], z[-1], 641)
    life_s = working_time_s * np.exp(np.interp(fine, z, life.log_ratio))
    weight = np.exp(-0.5 * fine * fine) * (life_s > elapsed_s)
    if not weight.any():
        return np.full(1, -other_s), np.ones(1)
    return life_s - elapsed_s - other_s, weight / weight.sum()


def _chances(
    one: Mixture, pieces: FloatArray, spare_s: FloatArray, weight: FloatArray, longer_than_s: float = 0.0
) -> FloatArray:
    """Return P(so many pieces take no longer than the time left) for each number of pieces.

    Among times a piece longer than `longer_than_s`.
    """
    with np.errstate(divide="ignore"):
        log_spare, least = np.log(np.maximum(spare_s, 0.0)), float(np.log(longer_than_s))
    keep = (weight > 0) & np.isfinite(log_spare)
    # The chance depends on a difference of two logs, so that one smooth curve serves all pairs.
    grid = np.linspace(-12.0, 12.0, 1201) * max(float(one.sd.max()), 1e-3)
    curve = one.cdf((one.mean[0] + grid)[None])[0]
    below = float(np.interp(least - one.mean[0], grid, curve))
    off = log_spare[keep] - np.log(pieces)[:, None] - one.mean[0]
    chance = np.maximum(np.interp(off, grid, curve) - below, 0.0) / max(1 - below, 1e-12)
    result: FloatArray = chance @ weight[keep]
    return result

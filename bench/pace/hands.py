"""What the book knows about a maker's hands: a normal-inverse-gamma posterior about log setting time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise

import numpy as np

from bench.fault import Fault
from bench.pace.fit import WILD_FROM, Table, fit, moments_of, rows_of, tame_factor, tamed
from bench.pace.glueup import GlueUp
from bench.pace.mixture import Mixture, log_variance_nodes
from bench.pace.moments import KAPPA0, NormalInverseGamma, Posterior, posterior, stated
from bench.pace.normal import FloatArray
from bench.pace.patches import ByPatch, patch_counts
from bench.speech import say

DEFAULT_PACE_PER_MIN = 5.0
DEFAULT_HALF_LIFE = 12.0  # glue-ups
DAYS_AT_REST = 2.0  # absences up to this many days change nothing
PACE_SPAN_PER_MIN = (0.01, 1000.0)


class PaceOutOfRange(Fault):
    """Refuse a stated pace that no hands have; `pace_per_min` keeps it."""

    def __init__(self, pace_per_min: float) -> None:
        low, high = PACE_SPAN_PER_MIN
        what = say("a pace of {pace:g} pieces a minute cannot be", pace=pace_per_min)
        todo = say("give {low:g} to {high:g} medium pieces a minute", low=low, high=high)
        super().__init__(what, where=say("pace"), todo=todo)
        self.pace_per_min = pace_per_min


class HalfLifeNotPositive(Fault):
    """Refuse a half-life that is none; `half_life` keeps it."""

    def __init__(self, half_life: float) -> None:
        what = say("a half-life of {count:g} glue-ups cannot be", count=half_life)
        todo = say("give a number of glue-ups, more than 0, after which one counts half")
        super().__init__(what, where=say("half-life"), todo=todo)
        self.half_life = half_life


@dataclass(frozen=True, eq=False)
class Hands:
    """Posterior about T = Σ n_c·w_c · e^μ · e^ε, ε ~ N(0, σ²), T the setting time of one glue-up. [s]

    known: (μ, σ²) and the weights w of the classes; e^μ are seconds a medium piece.
    nig: (μ, σ²) as of now, wider than in `known` after an absence.
    prior: (μ, σ²) by the stated pace alone.
    by_patch: set by the patch, so that effort is patches and their bed; None: piece by piece.
    last_utc: start of the newest glue-up learned from.
    """

    known: Posterior
    nig: NormalInverseGamma
    prior: NormalInverseGamma
    half_life: float | None
    glue_up_count: int = 0
    last_utc: datetime | None = None
    by_patch: ByPatch | None = None

    @property
    def expected_s(self) -> FloatArray:
        """(3,) predictive median of one piece of each class, w_c·e^m. [s]"""
        return np.exp(self.known.log_weight + self.nig.m)

    @property
    def one(self) -> FloatArray:
        """(3,) counts of what pace is told in: a medium piece, or a usual patch."""
        return np.array([0.0, 1.0, 0.0]) if self.by_patch is None else self.by_patch.one

    @property
    def one_s(self) -> float:
        """Predictive median of a medium piece, or of a usual patch. [s]"""
        return float(self.expected_s @ self.one)

    @property
    def pace_per_min(self) -> dict[str, float]:
        """Medium pieces, or usual patches, a minute in the next glue-up: 8 of 10 fall between p10 and p90."""
        setting = self.log_setting(self.one)
        quantile = {f"p{p}": setting.quantile(1 - p / 100) for p in (10, 50, 90)}
        return {name: 60.0 / math.exp(value) for name, value in quantile.items()}

    def together(self, pairs: int) -> Hands:
        """Return the hands of so many people at one mix: they set that many times as fast.

        Taken for granted: each has an edge of their own and glass within reach; stirring, spreading and
        cleaning take as long as for one. What is learned stays per pair of hands. One changes nothing.
        """
        if pairs == 1:
            return self
        faster = math.log(pairs)
        return replace(
            self,
            known=replace(self.known, nig=replace(self.known.nig, m=self.known.nig.m - faster)),
            nig=replace(self.nig, m=self.nig.m - faster),
            prior=replace(self.prior, m=self.prior.m - faster),
        )

    def log_setting(self, counts: FloatArray) -> Mixture:
        """Return the predictive of log setting time of sections with these counts, (3,) or (k, 3).

        Given σ² it is normal about m + log Σ n_c·w_c with variance σ²(1 + 1/κ) + d'Cd, where d is the
        section's share of effort by class less that of the book, and C the covariance of log w.
        A section of 0 pieces has a log time of −∞.
        """
        effort = np.atleast_2d(counts) * np.exp(self.known.log_weight)
        total = effort.sum(axis=1)
        share = effort / np.where(total > 0, total, 1.0)[:, None]
        distance = share - self.known.mean_share
        of_weights = np.einsum("ki,ij,kj->k", distance, self.known.covariance, distance)
        with np.errstate(divide="ignore"):
            mean = self.nig.m + np.log(total)
        log_variance, weight = log_variance_nodes(self.nig.alpha, self.nig.beta)
        variance = np.exp(log_variance) * (1 + 1 / self.nig.kappa) + of_weights[:, None]
        return Mixture(mean, np.sqrt(variance), weight)

    def after(self, glue_up: GlueUp, *, spare_wild: bool = True) -> Hands:
        """Return the posterior after one more glue-up, at a cost that does not grow with the book.

        The same as learning the whole book again where all pieces are medium and none was wild; else
        the shares of the older glue-ups stay as they were seen when each came, which moves a median by
        a fraction of its scatter.
        """
        if not _tells(glue_up, self.by_patch):
            return self
        table = _table([glue_up], None)
        rows = rows_of(table, self.known.log_weight, self.known.nig)
        if spare_wild and glue_up.closed and self.glue_up_count >= WILD_FROM - 1:
            nig = self.known.nig
            t = abs(rows.rate - nig.m) / math.sqrt(nig.beta / nig.alpha * (1 + 1 / nig.kappa))
            rows.weight[:] *= tame_factor(t)
        kept = 1.0
        if self.half_life is not None:
            kept = 0.5 ** ((1.0 + away_days(self.last_utc, glue_up.started_utc)) / self.half_life)
        one = moments_of(rows, self.known.log_weight, self.prior.m)
        known = posterior(kept * self.known.moments + one, self.prior)
        return replace(
            self,
            known=known,
            nig=known.nig,
            glue_up_count=self.glue_up_count + 1,
            last_utc=glue_up.started_utc,
        )


def learn_hands(
    glue_ups: Sequence[GlueUp],
    *,
    pace_per_min: float | None = None,
    by_patch: ByPatch | None = None,
    half_life: float | None = DEFAULT_HALF_LIFE,
    now_utc: datetime | None = None,
    spare_wild: bool = True,
) -> Hands:
    """Learn the posterior from glue-ups, oldest first (sorted here where all have a start).

    pace_per_min: the stated pace, medium pieces a minute of setting alone; None: the default.
    by_patch: how patches are set, with the pace stated for them; only glue-ups by the patch are learned
        from then, and without it only those piece by piece.
    half_life: of a glue-up's weight, in glue-ups; None: all weigh alike, whatever the days between
        (calibration). Every day away beyond the second ages the book like one glue-up.
    now_utc: a long absence until now widens the pace; it leaves its median and σ alone.
    spare_wild: from the fourth glue-up on, one far from all the others loses weight.

    No glue-ups give the prior. A pace or half-life out of range raises a Fault.
    """
    pace = DEFAULT_PACE_PER_MIN if pace_per_min is None else pace_per_min
    if by_patch is not None:
        pace = by_patch.efforts_per_min
    if not PACE_SPAN_PER_MIN[0] <= pace <= PACE_SPAN_PER_MIN[1]:
        raise PaceOutOfRange(pace)
    if half_life is not None and not half_life > 0:
        raise HalfLifeNotPositive(half_life)
    prior = stated(pace)
    learned = in_order([glue_up for glue_up in glue_ups if _tells(glue_up, by_patch)])
    table = _table(learned, half_life)
    known, _ = fit(tamed(table, prior) if spare_wild else table, prior)
    last_utc = learned[-1].started_utc if learned else None
    nig = known.nig
    if half_life is not None:
        nig = widened(nig, 0.5 ** (away_days(last_utc, now_utc) / half_life))
    return Hands(known, nig, prior, half_life, len(learned), last_utc, by_patch)


def _tells(glue_up: GlueUp, by_patch: ByPatch | None) -> bool:
    return glue_up.learn_pace and glue_up.is_by_patch == (by_patch is not None)


def counts_of(glue_up: GlueUp) -> FloatArray:
    """Return what a glue-up set, as effort counts it: pieces by class, or patches and their bed. (3,)"""
    return np.array(_counted(glue_up), dtype=np.float64)


def in_order(glue_ups: list[GlueUp]) -> list[GlueUp]:
    """Return the glue-ups oldest first; as given where one has no start."""
    dated = [(g.started_utc, k) for k, g in enumerate(glue_ups) if g.started_utc is not None]
    if len(dated) < len(glue_ups):
        return glue_ups
    return [glue_ups[k] for _, k in sorted(dated)]


def _table(glue_ups: list[GlueUp], half_life: float | None) -> Table:
    rows = np.array([(*_counted(g), g.seconds, g.closed) for g in glue_ups], dtype=np.float64)
    rows = rows.reshape(-1, 5)
    weight = weights_by_age([g.started_utc for g in glue_ups], half_life)
    return Table(rows[:, :3], np.log(rows[:, 3]), rows[:, 4] > 0, weight)


def _counted(glue_up: GlueUp) -> tuple[float, float, float]:
    """Return the counts as plain numbers: an array for each of hundreds would cost more than the fit."""
    if glue_up.is_by_patch:
        none, patches, units = patch_counts(glue_up.patches, glue_up.area_mm2).tolist()
        return none, patches, units
    return glue_up.small, glue_up.medium, glue_up.large


def away_days(since: datetime | None, until: datetime | None) -> float:
    """Return the days between two starts beyond those that change nothing; 0 where one is unknown."""
    if since is None or until is None:
        return 0.0
    return max(0.0, (until - since).total_seconds() / 86400 - DAYS_AT_REST)


def weights_by_age(started: Sequence[datetime | None], half_life: float | None) -> FloatArray:
    """Return the weight of each glue-up: 1 for the newest, half for one `half_life` glue-ups before it."""
    if half_life is None:
        return np.ones(len(started))
    step = [1.0 + away_days(a, b) for a, b in pairwise(started)]
    age = np.concatenate([np.cumsum(step[::-1])[::-1], np.zeros(min(1, len(started)))])
    weight: FloatArray = 0.5 ** (age / half_life)
    return weight


def widened(nig: NormalInverseGamma, kept: float) -> NormalInverseGamma:
    """Return the posterior after an absence that keeps this part of what is known about μ."""
    return NormalInverseGamma(nig.m, KAPPA0 + kept * (nig.kappa - KAPPA0), nig.alpha, nig.beta)

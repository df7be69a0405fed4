"""What a bed really takes, and what really stays in the cup: learned from cups weighed after the glue-up.

A bed of so many cm² is reckoned to take its thickness times the density of the mix. What it took is what
was mixed less what stayed; the ratio of the two is learned as a factor, so that it carries over to another
thickness or density. Both the factor and what stays are log-normal from glue-up to glue-up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Literal

import numpy as np

from bench.fault import Fault
from bench.pace.hands import DEFAULT_HALF_LIFE, weights_by_age
from bench.pace.normal import FloatArray, cdf
from bench.pace.root import crossing
from bench.speech import say

Cup = Literal["scraped", "over", "short"]

# All three: common practice, no source. A bed meant to be 0.8 mm is mostly 0.6 to 1.1 mm.
BED_SD, BED_SCATTER = 0.30, 0.10  # of the log factor: from maker to maker, from glue-up to glue-up
CUP_SD, CUP_SCATTER = 0.50, 0.25  # of the log of what a scraped cup keeps
SCATTER_SD_LOG = 0.35  # of the log of either scatter
SLIP_SHARE, SLIP_SD = 0.03, 1.5  # weighings misread or mistyped, and how far off such a figure is, in log
LEARNED_FROM = 3  # weighings, before which a batch is never much less than the settings say
LEAST_BEFORE = 0.9  # of what the settings say, until then
LEAST_STAYED_G = 0.05
MOST_WEIGHINGS = 60  # with a half-life of 12, what lies further back weighs less than 1/32
SPAN, STEP, SCATTER_NODES = 1.6, 0.0125, 11


class BadWeighing(Fault):
    """Refuse a weighed cup that cannot be; `field` names what is wrong with it."""

    def __init__(self, field: str, what: str, todo: str) -> None:
        super().__init__(what, where=field, todo=todo)
        self.field = field


@dataclass(frozen=True)
class Weighing:
    """One cup weighed after its glue-up.

    bed_cm2: the bed that was spread. reckoned_g_per_cm2: what the settings reckoned for it, without
    waste. mixed_g: what was mixed; stayed_g: what was found in the cup and on the stick.
    cup: 'scraped' clean and it sufficed: stayed_g is what always stays; some was left 'over': what always
    stays is at most that; it ran 'short': the bed wanted at least what it got.
    """

    at_utc: datetime | None
    bed_cm2: float
    reckoned_g_per_cm2: float
    mixed_g: float
    stayed_g: float
    cup: Cup = "over"

    def __post_init__(self) -> None:
        for field in ("bed_cm2", "reckoned_g_per_cm2", "mixed_g"):
            value = getattr(self, field)
            if not (math.isfinite(value) and value > 0):
                raise BadWeighing(
                    field, say("{value:g} cannot be", value=value), say("give a number above 0")
                )
        if not 0 <= self.stayed_g < self.mixed_g:
            what = say(
                "{stayed_g:g} g cannot have stayed of the {mixed_g:g} g that were mixed",
                stayed_g=self.stayed_g,
                mixed_g=self.mixed_g,
            )
            todo = say("weigh cup and stick again, and the empty ones beside them")
            raise BadWeighing("stayed_g", what, todo)

    @property
    def factor(self) -> float:
        """What the bed took over what was reckoned for it."""
        return (self.mixed_g - self.stayed_g) / (self.bed_cm2 * self.reckoned_g_per_cm2)


@dataclass(frozen=True, eq=False)
class Coverage:
    """What the next bed will take, over what the settings reckon, and what will stay in its cup.

    factor, residue_g: 8 of 10 of the next fall between p10 and p90. settings_residue_g: what the settings
    say stays. weighed: weighings learned from; with none, the medians are those of the settings.
    """

    factor: dict[str, float]
    residue_g: dict[str, float]
    settings_residue_g: float
    weighed: int = 0

    @property
    def bed_factor(self) -> float:
        """The factor a batch is made with: the median, at first not below LEAST_BEFORE."""
        least = LEAST_BEFORE if self.weighed < LEARNED_FROM else 0.0
        return max(self.factor["p50"], least)

    @property
    def batch_residue_g(self) -> float:
        """What a batch allows for cup and stick, with the same floor. [g]"""
        if not self.weighed:
            return self.settings_residue_g
        least_g = LEAST_BEFORE * self.settings_residue_g if self.weighed < LEARNED_FROM else 0.0
        return max(self.residue_g["p50"], least_g)

    def waste(self, settings_waste: float) -> float:
        """Return what a batch allows beyond the median bed, as a fraction of it.

        The settings' own; from LEARNED_FROM weighings on at least what suffices for nine beds in ten.
        """
        if self.weighed < LEARNED_FROM:
            return settings_waste
        return max(settings_waste, self.factor["p90"] / self.factor["p50"] - 1.0)


def learn_coverage(
    weighings: Sequence[Weighing], *, residue_g: float, half_life: float | None = DEFAULT_HALF_LIFE
) -> Coverage:
    """Learn what a bed takes and a cup keeps, of one product, from weighed cups, oldest first.

    log factor ~ N(μ, τ²) with μ ~ N(0, 0.30²) and log τ ~ N(log 0.10, 0.35²): before any weighing the
    settings are right within about 30 %, which is as much as a ninth of one weighing says. What stays in
    a scraped cup, likewise, about `residue_g` with 0.50 and 0.25. Three figures in a hundred are taken for
    slips, and say nothing. half_life: weighings after which one counts half, as for the hands; None: all
    weigh alike. No weighings give the settings.
    """
    newest = _in_order(weighings)[-MOST_WEIGHINGS:]
    cup_g = max(residue_g, LEAST_STAYED_G)
    weight = weights_by_age([w.at_utc for w in newest], half_life)
    beds = np.log([w.factor for w in newest])
    bed_side = np.array([1 if w.cup == "short" else 0 for w in newest])
    cups = np.log([max(w.stayed_g, LEAST_STAYED_G) for w in newest])
    cup_side = np.array([-1 if w.cup == "over" else 0 for w in newest])
    factor = next_of(beds, bed_side, weight, centre=0.0, sd=BED_SD, scatter=BED_SCATTER)
    stays = next_of(cups, cup_side, weight, centre=math.log(cup_g), sd=CUP_SD, scatter=CUP_SCATTER)
    return Coverage(factor, stays, residue_g, len(newest))


def _in_order(weighings: Sequence[Weighing]) -> list[Weighing]:
    dated = [(w.at_utc, k) for k, w in enumerate(weighings) if w.at_utc is not None]
    if len(dated) < len(weighings):
        return list(weighings)
    return [weighings[k] for _, k in sorted(dated)]


def next_of(
    value: FloatArray, side: FloatArray, weight: FloatArray, *, centre: float, sd: float, scatter: float
) -> dict[str, float]:
    """Return p10, p50 and p90 of the next e^x, given earlier x, (n,) each.

    x ~ N(μ, τ²), μ ~ N(centre, sd²), log τ ~ N(log scatter, SCATTER_SD_LOG²). side: 0 where x is the value,
    1 where it is at least, −1 where it is at most that. Each likelihood, a mixture with slips about the
    centre, is taken to the power of its weight; the posterior is summed on a grid.
    """
    steps, nodes = np.arange(-SPAN, SPAN + STEP / 2, STEP), np.linspace(-3.0, 3.0, SCATTER_NODES)
    off, width = (part.ravel() for part in np.meshgrid(steps, nodes, indexing="ij"))
    mu: FloatArray = centre + off
    tau: FloatArray = scatter * np.exp(SCATTER_SD_LOG * width)
    log_post: FloatArray = -0.5 * (off / sd) ** 2 - 0.5 * width**2
    for x, which, counts in zip(value.tolist(), side.tolist(), weight.tolist(), strict=True):
        told = (1 - SLIP_SHARE) * _likelihood((x - mu) / tau, tau, which)
        slip = SLIP_SHARE * _likelihood(np.array([(x - centre) / SLIP_SD]), np.array([SLIP_SD]), which)
        log_post += counts * np.log(told + slip)
    share = np.exp(log_post - log_post.max())
    share /= share.sum()
    keep = share > 1e-9
    return _quantiles(mu[keep], tau[keep], share[keep] / share[keep].sum())


def _likelihood(z: FloatArray, tau: FloatArray, side: int) -> FloatArray:
    """Return the density at z standard deviations, or the chance of more (side 1) or of less (−1)."""
    if side == 0:
        density: FloatArray = np.exp(-0.5 * z * z) / (tau * math.sqrt(2 * math.pi))
        return density
    return cdf(-side * z)


def _quantiles(mu: FloatArray, tau: FloatArray, share: FloatArray) -> dict[str, float]:
    """Return e^x for the 10, 50 and 90 % quantiles of a mixture of normals."""
    low, high = float((mu - 9 * tau).min()), float((mu + 9 * tau).max())

    def at(p: float) -> float:
        return math.exp(crossing(lambda x: float(cdf((x - mu) / tau) @ share) - p, low, high))

    return {"p10": at(0.1), "p50": at(0.5), "p90": at(0.9)}


@lru_cache(maxsize=64)
def coverage_of(weighings: tuple[Weighing, ...], residue_g: float) -> Coverage:
    """Return what `learn_coverage` learns, worked out once for the same weighings."""
    return learn_coverage(weighings, residue_g=residue_g)

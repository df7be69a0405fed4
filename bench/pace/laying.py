"""How fast a maker cuts and lays dry: the hours before every glue-up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.fault import Fault
from bench.pace.mixture import Mixture, log_variance_nodes
from bench.pace.moments import ALPHA0, NormalInverseGamma, posterior
from bench.pace.normal import FloatArray
from bench.speech import say

DEFAULT_LAID_PER_HOUR = 50.0  # common practice, no source
SPELL_SD = 0.3  # of log time a piece from spell to spell
STATED_SD = 0.6  # of what nobody has measured yet


class BadSpell(Fault):
    """Refuse a spell of laying without pieces or time; both are kept."""

    def __init__(self, pieces: int, seconds: float) -> None:
        what = say("{pieces} pieces laid in {seconds:g} s cannot be", pieces=pieces, seconds=seconds)
        todo = say("give the pieces laid and the time they took")
        super().__init__(what, where=say("laying"), todo=todo)
        self.pieces = pieces
        self.seconds = seconds


@dataclass(frozen=True)
class Spell:
    """Pieces cut and laid dry in one go. seconds: breaks left out. [s]"""

    pieces: int
    seconds: float

    def __post_init__(self) -> None:
        if not (self.pieces > 0 and self.seconds > 0 and math.isfinite(self.seconds)):
            raise BadSpell(self.pieces, self.seconds)


@dataclass(frozen=True)
class Laying:
    """Posterior about the log seconds of laying a piece: (μ, σ²) ~ normal-inverse-gamma."""

    nig: NormalInverseGamma
    spell_count: int = 0

    def log_piece_s(self) -> Mixture:
        """Return the predictive of the log time a piece in the next spell."""
        log_variance, weight = log_variance_nodes(self.nig.alpha, self.nig.beta)
        sd = np.exp(0.5 * log_variance) * math.sqrt(1 + 1 / self.nig.kappa)
        return Mixture(np.array([self.nig.m]), sd[None], weight)

    def drawn_s(self, pieces: float, draws: int, rng: np.random.Generator) -> FloatArray:
        """Draw times to lay so many pieces in many spells, whose scatter evens out. (draws,) [s]"""
        variance = self.nig.beta / rng.gamma(self.nig.alpha, size=draws)
        usual = self.nig.m + np.sqrt(variance / self.nig.kappa) * rng.standard_normal(draws)
        time_s: FloatArray = pieces * np.exp(usual)
        return time_s

    def hours(self, pieces: float) -> dict[str, float]:
        """Return p10, p50, p90 of the time to lay so many pieces in one spell. [h]"""
        one = self.log_piece_s()
        return {f"p{p}": pieces * math.exp(one.quantile(p / 100)) / 3600 for p in (10, 50, 90)}


def learn_laying(spells: Sequence[Spell], *, laid_per_hour: float = DEFAULT_LAID_PER_HOUR) -> Laying:
    """Learn from spells of laying, all weighing alike; none give the stated pace within about 60 %."""
    if not (laid_per_hour > 0 and math.isfinite(laid_per_hour)):
        raise BadSpell(0, 3600.0)
    kappa0 = (SPELL_SD / STATED_SD) ** 2
    prior = NormalInverseGamma(math.log(3600 / laid_per_hour), kappa0, ALPHA0, (ALPHA0 - 1) * SPELL_SD**2)
    log_s: FloatArray = np.log([spell.seconds / spell.pieces for spell in spells]) - prior.m
    moments = np.zeros((4, 4))
    moments[0, 0], moments[0, 3], moments[3, 3] = len(spells), log_s.sum(), log_s @ log_s
    moments[3, 0] = moments[0, 3]
    return Laying(posterior(moments, prior).nig, len(spells))

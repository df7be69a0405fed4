"""Whether the promise was kept: glue-ups in time against the chances that were stated for them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bench.fault import Fault
from bench.speech import say


class ChanceOutOfRange(Fault):
    """Refuse a stated chance outside 0 to 1; `chance` keeps it."""

    def __init__(self, chance: float) -> None:
        what = say("a chance of {chance} cannot be", chance=repr(chance))
        super().__init__(what, where="in_time", todo=say("give 0 to 1"))
        self.chance = chance


@dataclass(frozen=True)
class Kept:
    """hits of tries; expected: the promise; low to high: where hits fall 9 times in 10 if it is true."""

    hits: int
    tries: int
    expected: float
    low: int
    high: int

    @property
    def as_promised(self) -> bool:
        return self.low <= self.hits <= self.high


def promise_kept(in_time: Sequence[float], hits: Sequence[bool]) -> Kept:
    """Compare stated chances with what happened, glue-up by glue-up.

    The number of hits has the Poisson binomial distribution, built up one glue-up at a time; low and
    high leave at most a twentieth below and above. No glue-ups: 0 of 0. A chance outside 0 to 1 raises
    ChanceOutOfRange.
    """
    chances = np.ones(1)
    for chance in in_time:
        if not 0 <= chance <= 1:
            raise ChanceOutOfRange(chance)
        chances = np.append(chances * (1 - chance), 0.0) + np.append(0.0, chances * chance)
    below = np.cumsum(chances)
    low = int(np.searchsorted(below, 0.05, side="right"))
    high = int(np.searchsorted(below, 0.95 - 1e-12))
    return Kept(sum(map(bool, hits)), len(in_time), float(sum(in_time)), low, min(high, len(in_time)))

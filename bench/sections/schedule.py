"""How a round of the search cools, and what overload costs meanwhile."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Schedule:
    """Set how hot a round begins and ends (in mean joints), the price of overload, and how many passes."""

    hot: float = 0.8
    cold: float = 0.12
    soft: float = 40.0
    stiff: float = 400.0
    passes: int = 120

    def at(self, share: float) -> tuple[float, float]:
        """Return temperature and price of overload when a share of the round is behind."""
        return self.hot * (self.cold / self.hot) ** share, self.soft * (self.stiff / self.soft) ** share


ROUND = Schedule()
MILDER = Schedule(hot=0.4, cold=0.06, soft=100.0, stiff=1000.0)  # takes up what a round has found
GENTLE = Schedule(hot=0.1, cold=0.05, soft=100.0, passes=12)  # a re-division stays near the old one

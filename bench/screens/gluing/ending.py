"""How a glue-up ends: done as of a moment, with what is left over, and why."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.job.acts import glueup

AFTER_DONE = ("left", "which", "why", "pad left")  # a way back from there does not make it later


class Ending:
    """Remember when it was done and what is left, until both are told; `glue` is the Glue-up screen."""

    def __init__(self, glue: Any) -> None:
        self._glue = glue
        self._done_at_s = 0.0
        self._left: int | tuple[int, ...] = 0

    def begin(self, *, ago_s: float, coming_from: str) -> None:
        """Done was touched in a view, or said to have been so long ago."""
        if coming_from not in AFTER_DONE:
            self._done_at_s = self._glue.sheet.spent_s - ago_s

    @property
    def ago_s(self) -> float:
        """Return how long ago it was done, as of the sheet that is shown. [s]"""
        return max(0.0, float(self._glue.sheet.spent_s - self._done_at_s))

    def leave(self, left: int | tuple[int, ...]) -> None:
        """Take over what is left, and ask why."""
        self._left = left
        self._glue.turn("why")

    def close_left(self, why: str) -> None:
        """Close with what is left, and the reason."""
        self.close(self._left, why)

    def close(self, left: int | Sequence[int], why: str | None) -> None:
        """Close as of the moment when it was done, divide anew, and go home."""
        glue = self._glue
        mix = glue.sheet.mix
        ago_s = max(0.0, glue.job.reading(mix).spent_s - self._done_at_s)
        done, _ = glue.desk.attempt(glueup.close, mix, left=left, why=why, ago_s=ago_s)
        if done:
            glue.desk.divide_anew()
            glue.desk.go("panel")

"""The mixes that a dry section had better be split into."""

from __future__ import annotations

from typing import Any

from bench.job.dry_count import judged, mixes_of
from bench.job.job import Job
from bench.job.state import Section


class Mixes:
    """Find them once for each state of the book."""

    def __init__(self) -> None:
        self._found: tuple[Any, tuple[tuple[int, ...], ...]] = (None, ())

    def of(self, job: Job, section: Section) -> tuple[tuple[int, ...], ...]:
        """Return the tesserae of each mix; none where all fits one."""
        key = (job, section.number, job.state.act_ids[-1], job.state.bench)
        if self._found[0] != key:
            fits = judged(job, section.number, section.piece_count).fits
            self._found = (key, () if fits else mixes_of(job, section.number))
        return self._found[1]

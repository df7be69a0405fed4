"""The mixes that a dry section had better be split into."""

from __future__ import annotations

from typing import Any

from bench.fault import Fault
from bench.job.dry_count import judged, mixes_of
from bench.job.job import Job
from bench.job.state import Section


class Mixes:
    """Find them once for each state of the book."""

    def __init__(self) -> None:
        self._found: tuple[Any, tuple[tuple[int, ...], ...]] = (None, ())

    def of(self, job: Job, section: Section) -> tuple[tuple[int, ...], ...]:
        """Return the tesserae of each mix; none where all fits one, or where nothing can be said of it."""
        key = (job, section.number, job.state.act_ids[-1], job.state.bench)
        if self._found[0] != key:
            self._found = (key, _mixes_of(job, section))
        return self._found[1]


def _mixes_of(job: Job, section: Section) -> tuple[tuple[int, ...], ...]:
    try:
        fits = judged(job, section.number, section.piece_count).fits
        return () if fits else mixes_of(job, section.number)
    except Fault:  # it is told beside the section
        return ()

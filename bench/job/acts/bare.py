"""Ground that becomes bare again, as sections until it is divided anew."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bench.book.events import Promise
from bench.job.job import Job
from bench.job.measuring import sizer
from bench.job.state import Section
from bench.sections.ground import ground_of
from bench.sections.split import split_into


def drawn_promises(job: Job) -> tuple[Promise, ...]:
    """Return the promises of the sections that are still drawn, as they stand in the book."""
    return tuple(
        Promise(
            number=s.number,
            adhesive=s.adhesive,
            tesserae=s.tesserae,
            expected_s=s.expected_s,
            capacity_s=s.capacity_s,
            in_time=s.in_time,
            by_hand=s.by_hand,
        )
        for s in job.state.with_stage("drawn")
    )


def bare_promises(job: Job, section: Section, tesserae: Sequence[int]) -> tuple[Promise, ...]:
    """Return sections for tesserae that a worked section gives back: connected, each within a batch.

    Their numbers are new: those of worked sections are never used again.
    """
    measures = sizer(job)
    sizing = measures.sizing(section.adhesive)
    members = np.unique(np.asarray(tesserae, dtype=np.int32))
    ground = ground_of(
        job.panel,
        expected_s=measures.divider_s(sizing),
        adhesive=np.zeros(job.panel.tessera_count, dtype=np.int32),
        capacity_s=np.array([sizing.capacity.capacity_s]),
        prefer="fewest",
        keep=members,
    )
    label = split_into(ground, np.arange(len(members)))
    parts = [members[label == k] for k in range(int(label.max(initial=-1)) + 1)]
    sure = measures.in_time(section.adhesive, parts)
    free = max(job.state.used_numbers, default=0) + 1
    return tuple(
        measures.promise(free + k, section.adhesive, part, sizing.capacity.capacity_s, p)
        for k, (part, p) in enumerate(zip(parts, sure, strict=True))
    )

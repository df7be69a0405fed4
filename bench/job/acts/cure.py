"""After the glue-up: try the cure by hand, or chip a section out."""

from __future__ import annotations

from typing import Literal

from bench.book.events import CureConfirmed, SectionChipped, SectionsDrawn
from bench.job.acts.bare import bare_promises, drawn_promises
from bench.job.faults import WrongStage
from bench.job.job import Job

AFTER_CHIPPING = "chipped out"


def confirm_cure(job: Job, number: int, stage: Literal["firm", "hard"]) -> None:
    """Say that a set section was tried by hand and is firm, or hard; the way out of an unsure clock."""
    if job.section(number).stage != "set":
        raise WrongStage(number, job.life(number), "set", "tried")
    job.write(CureConfirmed(section=number, stage=stage))


def chip_out(job: Job, number: int) -> None:
    """Take a set section out of its bed; its ground is drawn again under new numbers."""
    section = job.section(number)
    if section.stage != "set":
        raise WrongStage(number, job.life(number), "set", "chipped out")
    bare = bare_promises(job, section, section.tesserae)
    job.write(
        SectionChipped(section=number),
        SectionsDrawn(promises=(*drawn_promises(job), *bare), why=AFTER_CHIPPING),
    )

"""What the panel says as soon as it is shown."""

from __future__ import annotations

from bench.job.job import Job
from bench.speech import say


def unparted(text: str) -> str:
    """Return a text in which no line ends between 'section' and its number."""
    name = say("section {section}", section="")
    return text.replace(name, f"{name.rstrip()}\u00a0")


def report_lines(job: Job) -> tuple[str, ...]:
    """Return what the maker should know of the drawing: what was left out and what looks odd."""
    panel = job.panel
    left_out = [
        say("Left out: {count} × {what}; {why}.", count=x.count, what=x.told, why=x.why)
        for x in panel.left_out
    ]
    return (*left_out, *(f"{x[0].upper()}{x[1:]}." if x else x for x in panel.warnings))

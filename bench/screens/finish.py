"""Finish: how far the panel has hardened, and the joints there will be to fill."""

from __future__ import annotations

from kivy.properties import NumericProperty, StringProperty

from bench.job.advice import clock_words
from bench.job.job import Job
from bench.screens.screen import Screen

LOOK_AGAIN_TICKS = 60  # a cure takes hours


class FinishScreen(Screen):
    """Say what is hard, when the last will be, and when to grout."""

    hard_text = StringProperty("")
    when_text = StringProperty("")
    joint_text = StringProperty("")
    _ticks = NumericProperty(0)

    def refresh(self) -> None:
        self.hard_text, self.when_text = hardness(self.job)
        self.joint_text = f"{self.job.panel.joint_area_mm2 / 100:.0f} cm²"

    def tick(self) -> None:
        self._ticks += 1
        if self._ticks % LOOK_AGAIN_TICKS == 0:
            self.refresh()

    def to_panel(self) -> None:
        self.desk.go("panel")


def hardness(job: Job) -> tuple[str, str]:
    """Return how many sections are hard, and what grouting still waits for."""
    sections = job.state.sections
    lives = {n: job.life(n) for n in sections}
    hard = sum(life == "hard" for life in lives.values())
    counted = f"{hard} of {len(sections)}"
    if hard == len(sections):
        return counted, "Every section is hard: grout when you like."
    to_set = sum(life in ("drawn", "dry", "wet") for life in lives.values())
    if to_set:
        return counted, f"Grout when every section is hard; {to_set} are not set yet."
    waiting = [n for n, life in lives.items() if life != "hard"]
    unsure = [n for n in waiting if job.cure_unsure(n)]
    if unsure:
        named = ", ".join(map(str, unsure))
        return counted, f"The clock changed: try section {named} by hand before grouting."
    last = max(at for at in (job.hard_utc(n) for n in waiting) if at is not None)
    return counted, f"Grout when every section is hard: the last one is {clock_words(job, last)}."

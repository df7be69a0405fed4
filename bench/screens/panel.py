"""Panel, the home: the whole picture, what to do next and why."""

from __future__ import annotations

from typing import Any

from bench.job.advice import Advice, advise
from bench.job.ground import section_numbers
from bench.screens.screen import Screen

GO_TO = {"watch": "glueup", "mix": "cup", "set": "cup", "lay": "dry", "finish": "finish"}


class PanelScreen(Screen):
    """Show the panel and the one big act."""

    def __init__(self, **kwargs: Any) -> None:
        self._advice: Advice | None = None
        self._shown_job: Any = None
        super().__init__(**kwargs)

    def refresh(self) -> None:
        picture = self.ids.picture
        if self._shown_job is not self.job:
            picture.show(self.job.panel)
            self._shown_job = self.job
        self._advice = advise(self.job)
        lives = {n: self.job.life(n) for n in self.job.state.sections}
        picture.divide(section_numbers(self.job), lives, self._advice.section)
        self.ids.act.text = self._advice.headline

    def act(self) -> None:
        """Do the big act."""
        advice = self._advice
        if advice is not None and advice.act in GO_TO:
            self.desk.go(GO_TO[advice.act], section=advice.section, mix=advice.mix)

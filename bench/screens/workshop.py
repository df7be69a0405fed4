"""Cautions that no adhesive's label states: cutting board and glass, and grout, one screen each."""

from __future__ import annotations

from typing import Any

from kivy.properties import ListProperty, StringProperty

from bench.adhesive.cautions import Caution
from bench.adhesive.workshop import workshop_cautions
from bench.screens.atcup.caution_sheet import CautionSheet  # noqa: F401 - named by the kv file
from bench.screens.screen import Screen
from bench.screens.widgets import Choice
from bench.speech import say


def works() -> tuple[tuple[str, str, str], ...]:
    """Return each kind of work, what its key says, and the head of its cautions."""
    return (
        ("cutting", say("Board and glass"), say("Cautions: cutting")),
        ("grout", say("Grout"), say("Cautions: grout")),
    )


def cautions_of(work: str) -> tuple[Caution, ...]:
    """Return the groups of one screen; what comes first of all is said once."""
    if work == "grout":
        return workshop_cautions("grout")
    return (*workshop_cautions("board"), *workshop_cautions("glass")[1:])


class WorkshopScreen(Screen):
    """All cautions of one kind of work at once; a tap below turns to the other."""

    work = StringProperty("cutting")
    groups = ListProperty()

    def __init__(self, **kwargs: Any) -> None:
        self._rows: dict[str, Choice] = {}
        super().__init__(**kwargs)
        for work, name, _ in works():
            row = Choice(text=name, test_name=f"work_{work}")
            row.bind(on_act=lambda _row, work=work: self._turn(work))
            self._rows[work] = row
            self.ids.works.add_widget(row)
        self._turn(self.work)

    def _turn(self, work: str) -> None:
        self.work = work
        self.title = next(title for kind, _, title in works() if kind == work)
        self.groups = [(caution.title, caution.lines) for caution in cautions_of(work)]
        for name, row in self._rows.items():
            row.chosen = name == work

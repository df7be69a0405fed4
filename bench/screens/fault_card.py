"""The card of a mistake on a screen that has no room to spare: in place of the question, beside the time."""

from __future__ import annotations

from typing import Any

from kivy.properties import ObjectProperty

from bench.screens.parts.plates import Notice
from bench.speech import large_first, say


class FaultCard(Notice):
    """Follow the desk's fault; 'Understood' clears it and what it stood in place of comes back."""

    desk = ObjectProperty()

    def __init__(self, *, desk: Any, **kwargs: Any) -> None:
        super().__init__(desk=desk, care=True, act_text=say("Understood"), test_name="fault", **kwargs)
        desk.bind(fault_what=self._follow, fault_where=self._follow, fault_todo=self._follow)
        self._follow()

    def _follow(self, *_: object) -> None:
        where, todo = self.desk.fault_where, self.desk.fault_todo
        title = f"{where}: {self.desk.fault_what}" if where else self.desk.fault_what
        self.title = large_first(title)
        self.text = f"{large_first(todo)}." if todo else ""

    def on_act(self) -> None:
        self.desk.clear_fault()

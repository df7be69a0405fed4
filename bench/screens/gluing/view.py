"""What a view beside the work has: the glue-up it asks about, and a way back to it."""

from __future__ import annotations

from typing import Any

from kivy.properties import ObjectProperty

from bench.screens.parts.plates import Rows


class GlueView(Rows):
    """One question, in place; the time left stays on screen. `glue` is the Glue-up screen."""

    glue = ObjectProperty()

    def __init__(self, *, glue: Any, **kwargs: Any) -> None:
        super().__init__(glue=glue, **kwargs)

    def on_kv_post(self, _base: Any) -> None:
        # Kivy's ids alone would let a part go as soon as it is off the screen
        self._parts = [part.__self__ for part in self.ids.values()]

    def ask(self) -> None:
        """Be turned to: read what the question is about."""

    def on_key(self, name: str) -> bool:
        """Do what a key means here; space and enter never answer a question."""
        if name == "escape":
            self.glue.turn("")
            return True
        return False

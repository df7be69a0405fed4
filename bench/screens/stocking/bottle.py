"""A bottle as a row among others, and the card that opens when it is tapped."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.plates import Rows
from bench.screens.parts.press import Pressable
from bench.screens.stack import stack
from bench.speech import say


class BottleRow(Pressable, BoxLayout):
    """One bottle: what it is, what is left in words and as a bar. share: left of what was in it."""

    text = StringProperty("")
    says = StringProperty("")
    share = NumericProperty(0.0)


class BottlePart(Rows):
    """What is known of one bottle, and what can be done with it."""

    head = StringProperty("")
    lines = StringProperty("")
    act_text = StringProperty("")
    sealed = BooleanProperty(False)
    __events__ = ("on_act", "on_empty", "on_take", "on_close")

    def on_kv_post(self, _base: Any) -> None:
        self._acts = {name: self.ids[name].__self__ for name in ("take", "empty", "close")}

    def show(self, head: str, lines: str, *, can_take: bool, sealed: bool) -> None:
        """Show a bottle; can_take: the mix at the cup could come out of it; sealed: it stands unopened."""
        self.head, self.lines, self.sealed = head, lines, sealed
        self.act_text = say("Open it") if sealed else say("Weigh it")
        stack(self.ids.acts, [act for name, act in self._acts.items() if can_take or name != "take"])

    def on_act(self) -> None:
        """Bound by the screen."""

    def on_empty(self) -> None:
        """Bound by the screen."""

    def on_take(self) -> None:
        """Bound by the screen."""

    def on_close(self) -> None:
        """Bound by the screen."""

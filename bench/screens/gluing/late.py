"""Tell with clean hands what happened a while ago."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.screens.gluing.view import GlueView
from bench.screens.stack import stack
from bench.speech import say


class GlueLate(GlueView):
    """How long ago first, then what."""

    minutes = NumericProperty(1.0)
    head_text = StringProperty("")
    sooner_text = StringProperty("")
    paused = BooleanProperty(False)

    def ask(self) -> None:
        self.paused = self.glue.sheet.paused
        self.on_minutes()

    def on_minutes(self, *_: object) -> None:
        several = say("{minutes:g} minutes ago:", minutes=self.minutes)
        self.head_text = say("1 minute ago:") if self.minutes == 1 else several
        if self.glue.sheet.stirs:
            self.sooner_text = say("Met {minutes:g} min sooner", minutes=self.minutes)
        else:
            self.sooner_text = say("Was out {minutes:g} min sooner", minutes=self.minutes)

    def tell(self, what: str) -> None:
        """Say what happened then."""
        self.glue.tell_late(what, 60.0 * self.minutes)


class GluePad(GlueView):
    """A number pad beside the time left: how many are left, or how many minutes ago."""

    title = StringProperty("")
    unit = StringProperty("")
    decimals = NumericProperty(0)
    least = NumericProperty(0.0)
    most = NumericProperty(999.0)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self.ids.pad.bind(low=self._stack)
        self._stack()

    def _stack(self, *_: object) -> None:
        rest, pad, leave = (self.ids[name].__self__ for name in ("rest", "pad", "leave"))
        stack(self, [rest, pad, *pad.taking_in(leave)])

    def back(self) -> None:
        raise NotImplementedError

    def use(self, value: float) -> None:
        raise NotImplementedError


class GluePadLeft(GluePad):
    """How many pieces are left."""

    def ask(self) -> None:
        self.ids.pad.text = ""
        by_patch = self.glue.sheet.unit == "patches"
        self.title = say("How many patches are left?") if by_patch else say("How many pieces are left?")
        self.unit = say("left")
        self.decimals, self.least, self.most = 0, 1, self.glue.sheet.pieces

    def back(self) -> None:
        self.glue.turn("left")

    def use(self, value: float) -> None:
        self.glue.leave(int(value))


class GluePadLate(GluePad):
    """How many minutes ago."""

    def ask(self) -> None:
        self.ids.pad.text = ""
        self.title, self.unit, self.decimals = say("How many minutes ago?"), "min", 1
        self.least, self.most = 0.1, 60.0

    def back(self) -> None:
        self.glue.turn("late")

    def use(self, value: float) -> None:
        self.glue.late_minutes(value)

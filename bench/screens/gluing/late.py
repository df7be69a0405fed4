"""Tell with clean hands what happened a while ago."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from bench.job.acts import cup, glueup
from bench.job.cup_faults import TimeOutOfRange
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
        glue, ago_s = self.glue, 60.0 * self.minutes
        if what == "done":
            if ago_s > glue.sheet.spent_s:
                glue.desk.tell(TimeOutOfRange(ago_s, glue.sheet.spent_s))
            else:
                glue.turn("done", ago_s=ago_s)
            return
        if what == "contact":
            done, _ = glue.desk.attempt(cup.correct_contact, glue.sheet.mix, earlier_by_s=ago_s)
        else:
            acts = {"pause": glueup.pause, "resume": glueup.resume, "stringy": glueup.stringy}
            done, _ = glue.desk.attempt(acts[what], glue.sheet.mix, ago_s=ago_s)
        if done:
            glue.turn("")


class GluePad(GlueView):
    """A number pad beside the time left: how many are left, or how many minutes ago."""

    title = StringProperty("")
    unit = StringProperty("")
    decimals = NumericProperty(0)
    least = NumericProperty(0.0)
    most = NumericProperty(999.0)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        later = Clock.create_trigger(self._stack, -1)  # not while it is laid out itself
        self.ids.pad.bind(beside=later)
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
        self.glue.ending.leave(int(value))


class GluePadLate(GluePad):
    """How many minutes ago."""

    def ask(self) -> None:
        self.ids.pad.text = ""
        self.title, self.unit, self.decimals = say("How many minutes ago?"), "min", 1
        self.least, self.most = 0.1, max(cup.MOST_BACK_DATED_S, self.glue.sheet.spent_s) / 60

    def back(self) -> None:
        self.glue.turn("late")

    def use(self, value: float) -> None:
        self.glue.turn("late")
        self.glue.look_into("late").minutes = value

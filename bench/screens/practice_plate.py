"""The plate that says it is only practice, and what there is to learn at this point."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.screens.parts.plates import Card
from bench.speech import say


def lesson(about: str) -> str:
    """Say what a screen is for, or what there is to learn at a step; "" where there is nothing."""
    words = {
        "panel": say("See here what comes next."),
        "dry": say("Lay and count before mixing."),
        "finish": say("Grout when all is hard."),
        "book": say("Read, note, take back."),
        "open": say("Opening waits until practice ends."),
        "setup": say("Say what you work with."),
        "workshop": say("Read it before you cut."),
        "room": say("Warmth costs time."),
        "hot": say("Split before pouring."),
        "warms": say("A full cup goes early."),
        "read": say("Gloves come after."),
        "weigh": say("Resin first."),
        "stir": say("A whole minute of it."),
        "spread": say("Only what you will fill."),
        "set": say("Look up now and then."),
        "clean": say("Leave time to clean."),
        "done": say("This glue-up sizes the next section."),
    }
    return words.get(about, "")


class PracticePlate(Card):
    """One line on a wide screen; `about` names the screen or step it teaches about."""

    factor = NumericProperty(1.0)
    about = StringProperty("")
    text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.bind(factor=self._say, about=self._say)
        self._say()

    def _say(self, *_: object) -> None:
        if self.factor == 1:
            said = say("Practice: no glue, no trace in the book.")
        else:
            said = say("Practice {factor:g}×: no glue, no trace in the book.", factor=self.factor)
        self.text = f"{said} {lesson(self.about)}".strip()


def practice_plate(screen: Any) -> PracticePlate | None:
    """Put the plate on top of a screen where the desk is for practice; else nothing."""
    if not screen.desk.practice:
        return None
    plate = PracticePlate(factor=getattr(screen.desk.job.clock, "factor", 1.0))
    screen.add_widget(plate, index=len(screen.children))
    return plate

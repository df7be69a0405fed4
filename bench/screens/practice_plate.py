"""The plate that says it is only practice, and what there is to learn at this point."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.screens.parts.plates import Card

TEACHES = {
    "room": "Warmth costs time.",
    "hot": "Split before pouring.",
    "warms": "A full cup goes early.",
    "read": "Gloves come after.",
    "weigh": "Resin first.",
    "stir": "A whole minute of it.",
    "spread": "Only what you will fill.",
    "set": "Look up now and then.",
    "clean": "Leave time to clean.",
    "done": "It sizes the next section.",
}


class PracticePlate(Card):
    """One line on a wide screen; `about` names the step it teaches about."""

    factor = NumericProperty(1.0)
    about = StringProperty("")
    text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.bind(factor=self._say, about=self._say)
        self._say()

    def _say(self, *_: object) -> None:
        speed = f" {self.factor:g}×" if self.factor != 1 else ""
        lesson = TEACHES.get(self.about, "")
        self.text = f"Practice{speed}: no glue, no trace in the book. {lesson}".strip()


def practice_plate(screen: Any) -> PracticePlate | None:
    """Put the plate on top of a screen where the desk is for practice; else nothing."""
    if not screen.desk.practice:
        return None
    plate = PracticePlate(factor=getattr(screen.desk.job.clock, "factor", 1.0))
    screen.add_widget(plate, index=len(screen.children))
    return plate

"""The cautions of this mix, read and acknowledged before gloves go on."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ListProperty, StringProperty

from bench.adhesive.hazards import wording
from bench.job.acts import cup, record
from bench.screens.atcup.caution_sheet import CautionSheet  # noqa: F401 - named by its kv file
from bench.screens.atcup.step import CupStep, Turn
from bench.screens.stack import stack

NOT_LISTED = "Look at the hardener's label: is H314 on it?"


class CupRead(CupStep):
    """All groups at once, and the question after the hardener's label where the file is silent.

    answer: 'yes', 'no', or '' while it is owed.
    """

    groups = ListProperty()
    asks = BooleanProperty(False)
    answer = StringProperty("")
    answer_text = StringProperty(NOT_LISTED)
    why_not = StringProperty("")

    def __init__(self, *, desk: Any, turn: Turn, **kwargs: Any) -> None:
        super().__init__(desk=desk, turn=turn, **kwargs)
        self.bind(asks=self._owe, answer=self._owe)

    def refresh(self) -> None:
        shown = cup.sheet(self.desk.job, self.desk.mix)
        self.section = shown.section
        self.groups = [(c.title, c.lines) for c in shown.cautions]
        self.asks = shown.asks_after_hardener
        question = [self.ids.question] if self.asks else []
        stack(self, [self.ids.sheet, *question, self.ids.acts])

    def _owe(self, *_: object) -> None:
        self.why_not = "Look at the hardener's label first" if self.asks and not self.answer else ""
        self.answer_text = {
            "": NOT_LISTED,
            "yes": f"H314: {wording('H314')}. Goggles on before it is opened.",
            "no": "Not listed. Its data sheet still comes first.",
        }[self.answer]

    def say(self, answer: str) -> None:
        """Answer what the hardener's label lists."""
        self.answer = answer

    def acknowledge(self) -> None:
        """Say that all of it was read; what the label lists is kept in the book with it."""
        done, _ = self.desk.attempt(cup.acknowledge, self.desk.mix)
        if done and self.answer == "yes":
            self.desk.attempt(record.note, f"The hardener's label lists H314: {wording('H314')}.")

    def act_on_key(self) -> bool:
        return True  # a foot on the pedal has read nothing: only a touch, or the focus, acknowledges

"""The cautions of this mix, read and acknowledged before gloves go on."""

from __future__ import annotations

from typing import Any

from kivy.properties import ListProperty, StringProperty

from bench.adhesive.cautions import first_aid
from bench.job.acts import cup
from bench.screens.atcup.caution_sheet import CODE, CautionSheet  # noqa: F401 - the sheet is named by its kv file
from bench.screens.atcup.step import CupStep, Turn
from bench.screens.stack import stack


class CupRead(CupStep):
    """All groups at once; where the file is silent, the question after the hardener's label comes first.

    answer: 'yes', 'no', or '' while it is owed.
    """

    groups = ListProperty()
    answer = StringProperty("")

    def __init__(self, *, desk: Any, turn: Turn, **kwargs: Any) -> None:
        super().__init__(desk=desk, turn=turn, **kwargs)

    def refresh(self) -> None:
        shown = cup.sheet(self.desk.job, self.desk.mix, burns=self._burns())
        self.section = shown.section
        owed = shown.asks_after_hardener and not self.answer
        self.groups = [(c.title, c.lines) for c in shown.cautions]
        stack(self, [self.ids.sheet, self.ids.question if owed else self.ids.acts])

    def _burns(self) -> bool | None:
        return {"yes": True, "no": False}.get(self.answer)

    def answer_with(self, answer: str) -> None:
        """Answer what the hardener's label lists."""
        self.answer = answer
        self.refresh()

    def aid(self) -> None:
        """Read the first aid in the label's own words."""
        self.turn("aid")

    def acknowledge(self) -> None:
        """Say that all of it was read; what the label lists is kept in the book with it."""
        self.desk.attempt(cup.acknowledge, self.desk.mix, burns=self._burns())

    def act_on_key(self) -> bool:
        return True  # a foot on the pedal has read nothing: only a touch, or the focus, acknowledges


class CupAid(CupStep):
    """First aid in the label's own words, as large as everything else at the cup."""

    head_text = StringProperty("")
    lines = ListProperty()

    def refresh(self) -> None:
        shown = cup.sheet(self.desk.job, self.desk.mix)
        said = first_aid(shown.product)
        self.head_text = said.title
        self.lines = [CODE.sub("", line) for line in said.lines]

    def close(self) -> None:
        """Go back to the cautions."""
        self.turn("")

"""The work itself: what the hands do now, the four steps, and what may be told with a touch."""

from __future__ import annotations

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, OptionProperty, StringProperty

from bench.job.glue_sheet import GlueSheet
from bench.screens.gluing.key_act import KeyAct
from bench.screens.parts.plates import Plate, Rows

QUARTERS = ("¼", "½", "¾", "all")
NARROW_DP = 600
LONG_ADVICE = 60  # letters; more than that is said in the smaller bold type


class GlueTime(Plate):
    """Time left, the largest thing on the screen; on stop the plate turns ink."""

    section_text = StringProperty("")
    time_text = StringProperty("")
    mood = StringProperty("working")
    stop = BooleanProperty(False)
    narrow = BooleanProperty(False)

    def on_width(self, *_: object) -> None:
        self.narrow = self.width < dp(NARROW_DP)


class StepAct(KeyAct):
    """One of the four steps; a touch says that it begins now."""

    step = StringProperty("")
    current = StringProperty("")


class GlueWork(Rows):
    """Advice, steps and acts. `glue` is the Glue-up screen."""

    glue = ObjectProperty()
    advice = StringProperty("")
    advice_kind = OptionProperty("head", options=("head", "bold"))
    step = StringProperty("stir")
    next_step = StringProperty("")
    quarter_text = StringProperty(QUARTERS[0])
    can_count = BooleanProperty(True)
    can_undo = BooleanProperty(False)
    paused = BooleanProperty(False)
    stringy = BooleanProperty(False)
    wide = NumericProperty(1)

    def __init__(self, *, glue: Any, **kwargs: Any) -> None:
        super().__init__(glue=glue, **kwargs)
        self._stir = self.ids.step_stir.__self__
        self._photo_key = self.ids.photo_key.__self__
        self._photo_key.parent.remove_widget(self._photo_key)

    def on_wide(self, *_: object) -> None:
        """Keep the way elsewhere where there is width for it."""
        elsewhere = self.ids.elsewhere.__self__
        elsewhere.parent.remove_widget(elsewhere)
        (self.ids.steps if self.wide else self.ids.counts).add_widget(elsewhere)

    def show(self, sheet: GlueSheet, *, can_undo: bool, next_step: str) -> None:
        """Follow the sheet."""
        self._offer_stirring(sheet.stirs)
        self.advice = sheet.advice
        self.advice_kind = "head" if len(sheet.advice) <= LONG_ADVICE else "bold"
        self.step, self.next_step = sheet.step, next_step
        self.paused, self.stringy, self.can_undo = sheet.paused, sheet.stringy, can_undo
        self.can_count = sheet.placed < sheet.pieces and not sheet.stringy
        self.quarter_text = QUARTERS[next_quarter(sheet) - 1]

    def offer_photo(self, there: bool, chosen: bool) -> None:
        """Have the key between photo and chart among the steps, or not: most sections have no photo."""
        key, row = self._photo_key, self.ids.steps
        key.text = "Chart" if chosen else "Photo"
        if there and key.parent is None:
            row.add_widget(key)
        elif not there and key.parent is not None:
            row.remove_widget(key)

    def _offer_stirring(self, stirs: bool) -> None:
        """Have the first step among the others, or not: an adhesive that is ready is not stirred."""
        stir, row = self._stir, self.ids.steps
        if stirs and stir.parent is None:
            row.add_widget(stir, index=len(row.children))
        elif not stirs and stir.parent is not None:
            row.remove_widget(stir)


def next_quarter(sheet: GlueSheet) -> int:
    """Return the next quarter of the pieces that is not down yet, 1 to 4."""
    return next((q for q in (1, 2, 3) if sheet.pieces * q // 4 > sheet.placed), 4)

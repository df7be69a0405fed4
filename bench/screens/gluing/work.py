"""The work itself: what the hands do now, the four steps, and what may be told with a touch."""

from __future__ import annotations

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, OptionProperty, StringProperty

from bench.job.glue_sheet import GlueSheet
from bench.screens.gluing.key_act import KeyAct
from bench.screens.parts.plates import Plate, Rows
from bench.screens.stack import stack

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
        names = ("step_stir", "step_spread", "step_set", "step_clean", "photo_key", "elsewhere")
        self._row = [self.ids[name].__self__ for name in names]
        self._left_out = {"photo_key"}
        self._lay_row()

    def on_wide(self, *_: object) -> None:
        self._lay_row()

    def _lay_row(self) -> None:
        """Have the steps in their row, and after them what there is width for."""
        stir, spread, lay, clean, photo, elsewhere = self._row
        steps = [*([] if "step_stir" in self._left_out else [stir]), spread, lay, clean]
        shown = [] if "photo_key" in self._left_out else [photo]
        if not self.wide and elsewhere.parent is not self.ids.counts:
            elsewhere.parent.remove_widget(elsewhere)
            self.ids.counts.add_widget(elsewhere)
        stack(self.ids.steps, [*steps, *shown, *([elsewhere] if self.wide else [])])

    def _offer(self, name: str, there: bool) -> None:
        if there == (name in self._left_out):
            self._left_out ^= {name}
            self._lay_row()

    def show(self, sheet: GlueSheet, *, can_undo: bool, next_step: str) -> None:
        """Follow the sheet."""
        self._offer("step_stir", sheet.stirs)  # an adhesive that is ready is not stirred
        self.advice = sheet.advice
        self.advice_kind = "head" if len(sheet.advice) <= LONG_ADVICE else "bold"
        self.step, self.next_step = sheet.step, next_step
        self.paused, self.stringy, self.can_undo = sheet.paused, sheet.stringy, can_undo
        self.can_count = sheet.placed < sheet.pieces and not sheet.stringy
        self.quarter_text = QUARTERS[next_quarter(sheet) - 1]

    def offer_photo(self, there: bool, chosen: bool) -> None:
        """Have the key between photo and chart, or not: most sections have no photo."""
        self._row[4].text = "Chart" if chosen else "Photo"
        self._offer("photo_key", there)


def next_quarter(sheet: GlueSheet) -> int:
    """Return the next quarter of the pieces that is not down yet, 1 to 4."""
    return next((q for q in (1, 2, 3) if sheet.pieces * q // 4 > sheet.placed), 4)

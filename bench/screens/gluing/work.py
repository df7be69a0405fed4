"""The work itself: what the hands do now, the four steps, and what may be told with a touch."""

from __future__ import annotations

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty

from bench.job.glue_sheet import GlueSheet
from bench.screens.gluing.key_act import KeyAct
from bench.screens.gluing.words import mood_word
from bench.screens.parts.fitting import LINE, ROUNDED_PX, fitted_px, steady_px
from bench.screens.parts.numbers import largest_px, minutes_text
from bench.screens.parts.plates import Plate, Rows
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

QUARTERS = ("¼", "½", "¾")
NARROW_DP = 600
A_TOUCH = {"pieces": 10, "patches": 1}  # counts so many
BESIDE = 0.6  # widths of the time, which the words beside it take
AIRY = 1.3  # height of a line with the air around it, in sizes
WIDEST = "00:00"
LOW_SHARE = 0.36  # of the plate, for the words beside the time
LONG_ADVICE = 60  # letters; more than that is said in the smaller bold type


class GlueTime(Plate):
    """Time left, the largest thing on the screen; on stop the plate turns ink."""

    section_text = StringProperty("")
    time_text = StringProperty("")
    mood = StringProperty("working")
    mood_text = StringProperty("")
    stop = BooleanProperty(False)
    time_px = NumericProperty(0)
    narrow = BooleanProperty(False)
    words_px = NumericProperty(34)
    mood_px = NumericProperty(64)
    mood_high_px = NumericProperty(83)
    words_high_px = NumericProperty(83)  # of section and mood, above the time
    low = BooleanProperty(False)  # the words stand beside the time, which keeps the height

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        theme.bind(number=self._measure, beyond=self._measure)

    def show(self, sheet: GlueSheet) -> None:
        """Show the time left of a mix, and its mood."""
        self.section_text = say("Section {section}", section=sheet.section)
        self.time_text = minutes_text(sheet.left_s)
        self.mood = "unsure" if sheet.unsure else sheet.mood
        self.stop = sheet.mood == "stop"

    def on_size(self, *_: object) -> None:
        self._measure()

    def _measure(self, *_: object) -> None:
        self.narrow = self.width < dp(NARROW_DP)
        number_px = theme.number / theme.beyond  # larger words would take their room from the time
        self.mood_high_px = AIRY * number_px
        section_high_px = AIRY * theme.text / theme.beyond if self.narrow else self.mood_high_px
        above_px = section_high_px + ROUNDED_PX if self.narrow else 0.0
        self.words_high_px = above_px + self.mood_high_px + ROUNDED_PX
        self.low = self._larger_beside()
        room_px = LOW_SHARE * (self.width - 2 * theme.pad)
        two_lines_px = (self.height - theme.gap) / (2 * LINE)
        widest = say("Section {section}", section=88)
        beside_px = min(fitted_px(widest.replace(" ", "_"), theme.text, room_px), two_lines_px)
        wide_px = (self.width - 2 * theme.pad) * (1 if self.narrow else 0.33)
        self.words_px = (
            beside_px if self.low else fitted_px(widest, theme.text, wide_px, section_high_px, bold=False)
        )
        self.on_mood()

    def _larger_beside(self) -> bool:
        """Tell whether the time is larger with the words beside it than below them."""
        wide_px, high_px = self.width - 2 * theme.pad, self.height - theme.gap
        beside = largest_px(WIDEST, wide_px / (1 + BESIDE), high_px)
        return beside > largest_px(WIDEST, wide_px, high_px - self.words_high_px)

    def on_mood(self, *_: object) -> None:
        """Have the mood as large as its own room allows."""
        most_px = theme.number if self.mood != "unsure" else theme.head
        width_px = (self.width - 2 * theme.pad) * (1 if self.narrow else 0.66)
        self.mood_text = mood_word(self.mood)
        self.mood_px = fitted_px(self.mood_text, most_px, width_px, self.mood_high_px)


class StepAct(KeyAct):
    """One of the four steps; a touch says that it begins now."""

    step = StringProperty("")
    current = StringProperty("")


class GlueWork(Rows):
    """Advice, steps and acts. `glue` is the Glue-up screen."""

    glue = ObjectProperty()
    advice = StringProperty("")
    advice_px = NumericProperty(44)
    advice_bold = BooleanProperty(True)
    step = StringProperty("stir")
    next_step = StringProperty("")
    quarter_text = StringProperty(QUARTERS[0])
    can_count = BooleanProperty(True)
    many = NumericProperty(10)
    can_undo = BooleanProperty(False)
    paused = BooleanProperty(False)
    stringy = BooleanProperty(False)
    area = BooleanProperty(False)  # the count area stands in the chart's place
    wide = NumericProperty(1)
    low = BooleanProperty(False)  # little height: the time comes before the size of the words

    def __init__(self, *, glue: Any, **kwargs: Any) -> None:
        self._parts: dict[str, Any] = {}
        super().__init__(glue=glue, **kwargs)
        self._parts = {name: part.__self__ for name, part in self.ids.items()}
        self._stirs = self.weighs = True
        self._photographed = False
        self._lay_out()
        self.bind(width=self._fit_advice, low=self._fit_advice, advice=self._fit_advice)
        theme.bind(text=self._fit_advice, beyond=self._fit_advice)

    def on_wide(self, *_: object) -> None:
        self._lay_out()

    def _lay_out(self) -> None:
        """Have the acts of this step; the way elsewhere stands where there is width for it.

        An adhesive that is ready is not stirred. Until pieces are set, what the scale showed may be told in
        place of counts. Most sections have no photo.
        """
        if not self._parts:
            return
        steps = ["step_stir"] * self._stirs + ["step_spread", "step_set", "step_clean"]
        steps += ["photo_key"] * self._photographed
        counts = ["ratio"] if self.weighs else ["count_here", "count_10", "count_quarter"]
        counts.append("undo")
        (steps if self.wide else counts).append("elsewhere")
        for row, names in (("steps", steps), ("counts", counts)):
            stack(self.ids[row], [self._parts[name] for name in names])

    def show(self, sheet: GlueSheet, *, can_undo: bool, next_step: str) -> None:
        """Follow the sheet."""
        weighs = sheet.stirs and not sheet.counted and sheet.step in ("stir", "spread")
        if (self._stirs, self.weighs) != (sheet.stirs, weighs):
            self._stirs, self.weighs = sheet.stirs, weighs
            self._lay_out()
        self.advice = sheet.advice
        self.step, self.next_step = sheet.step, next_step
        self.paused, self.stringy, self.can_undo = sheet.paused, sheet.stringy, can_undo
        self.can_count = sheet.placed < sheet.pieces and not sheet.stringy
        self.many = A_TOUCH[sheet.unit]
        quarter = next_quarter(sheet)
        self.quarter_text = QUARTERS[quarter - 1] if quarter < 4 else say("all")

    def _fit_advice(self, *_: object) -> None:
        """Say the advice as large as its lines at the usual size of text leave room for."""
        self.advice_bold = not self.low
        most_px = theme.text if self.low or len(self.advice) > LONG_ADVICE else theme.head
        self.advice_px = steady_px(self.advice, most_px, self.width - 2 * theme.pad, bold=self.advice_bold)

    def offer_photo(self, there: bool, chosen: bool) -> None:
        """Have the key between photo and chart, or not."""
        self._parts["photo_key"].text = say("Chart") if chosen else say("Photo")
        self._parts["photo_key"].icon = "chart" if chosen else "camera"
        if self._photographed != there:
            self._photographed = there
            self._lay_out()


def next_quarter(sheet: GlueSheet) -> int:
    """Return the next quarter of the pieces that is not down yet, 1 to 4."""
    return next((q for q in (1, 2, 3) if sheet.pieces * q // 4 > sheet.placed), 4)

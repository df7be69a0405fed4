"""Two mixes at once, told apart by number and picture."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.job.glue_sheet import GlueSheet
from bench.job.ground import section_numbers
from bench.job.job import Job
from bench.screens.gluing.words import mood_word
from bench.screens.panel_picture import PanelPicture
from bench.screens.parts.fitting import fitted_px
from bench.screens.parts.numbers import minutes_text
from bench.screens.parts.plates import Rows
from bench.screens.parts.press import Pressable
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

NARROW_TARGETS = 2.6


class StillPicture(PanelPicture):
    """A picture of one section that takes no touch; the plate it stands on names it."""

    number = NumericProperty(0)
    labelled = BooleanProperty(False)

    def show_section(self, job: Job, number: int) -> None:
        """Show a section of a panel, as large as it fits."""
        self.number = number
        self.show(job.panel, job.store.readings)
        self.divide(section_numbers(job), {n: job.life(n) for n in job.state.sections}, number)
        self.next_number = 0  # its thick outline without the pointer, which would cover it
        self.focus_on(number)

    def _on_room(self, *_: object) -> None:
        super()._on_room()  # only then does the view know how large it is
        if self.number:
            self.focus_on(self.number)

    def on_touch_down(self, touch: Any) -> bool:
        return False


class Twin(Pressable, BoxLayout):
    """A plate for one running mix; `shown` is the one this screen is about."""

    text = StringProperty("")
    shown_text = StringProperty("")  # the same, its lines never broken
    shown = BooleanProperty(False)
    type_px = NumericProperty(34)
    narrow = BooleanProperty(False)  # the picture then lies above the words
    picture_share = NumericProperty(0.45)  # of the width; where it is narrow, of the height

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name in ("text", "size"):
            self.fbind(name, self._fit)
        theme.bind(text=self._fit)

    def _fit(self, *_: object) -> None:
        """Keep each line whole in what the picture leaves free."""
        self.narrow = self.width < NARROW_TARGETS * theme.target
        left = 1 - self.picture_share
        beside, above = (1.0, left) if self.narrow else (left, 1.0)
        self.shown_text = self.text.replace(" ", "\u00a0")
        room_px = (beside * (self.width - 3 * theme.gap), above * (self.height - 2 * theme.gap))
        self.type_px = fitted_px(self.shown_text, theme.text, *room_px)


class Twins(Rows):
    """The plates of all running mixes, none for one alone; `on_choose` names the one that was tapped."""

    __events__ = ("on_choose",)

    def __init__(self, **kwargs: Any) -> None:
        self._twins: dict[int, Twin] = {}
        super().__init__(**kwargs)

    def on_choose(self, mix: int) -> None:
        """Bound by the screen."""

    def forget(self) -> None:
        """Drop the plates of another panel."""
        self._twins = {}
        self.clear_widgets()

    def show(self, job: Job, sheets: Mapping[int, GlueSheet]) -> bool:
        """Have a plate for each running mix; tell whether that changed any."""
        numbers = sorted(sheets) if len(sheets) > 1 else []
        if numbers == sorted(self._twins):
            return False
        self._twins = {number: self._twin(job, sheets[number]) for number in numbers}
        stack(self, list(self._twins.values()))
        return True

    def follow(self, sheets: Mapping[int, GlueSheet], shown: int) -> None:
        """Follow the clock; one just closed keeps its plate until the next layout."""
        for number, twin in self._twins.items():
            sheet = sheets.get(number)
            if sheet is not None:
                name = say("Section {section}", section=sheet.section)
                mood = "" if sheet.mood == "working" else f"\n{mood_word(sheet.mood)}"
                twin.text = f"{name}\n{minutes_text(sheet.left_s)}{mood}"
                twin.shown = number == shown

    def lie(self, *, wide: bool, low: bool = False) -> None:
        """Lie beside the time on a wide screen, above it on a high one; low: side by side, for a glove."""
        self.orientation = "vertical" if wide and not low else "horizontal"
        self.size_hint = (1.3 if low else 0.9, 1) if wide else (1, 0.55)

    def _twin(self, job: Job, sheet: GlueSheet) -> Twin:
        twin = Twin(test_name=f"twin_{sheet.mix}")
        twin.ids.picture.show_section(job, sheet.section)
        twin.bind(on_act=lambda _twin: self.dispatch("on_choose", sheet.mix))
        return twin

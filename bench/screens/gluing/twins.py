"""Two mixes at once, told apart by number and picture."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.job.ground import section_numbers
from bench.job.job import Job
from bench.screens.panel_picture import PanelPicture
from bench.screens.parts.press import Pressable


class StillPicture(PanelPicture):
    """A picture of one section that takes no touch."""

    number = NumericProperty(0)

    def show_section(self, job: Job, number: int) -> None:
        """Show a section of a panel, as large as it fits."""
        self.number = number
        self.show(job.panel)
        self.divide(section_numbers(job), {n: job.life(n) for n in job.state.sections}, number)
        self.next_number = 0  # its thick outline without the pointer, which would cover it
        self.focus_on(number)

    def on_size(self, *_: object) -> None:
        if self.number:
            self.focus_on(self.number)

    def on_touch_down(self, touch: Any) -> bool:
        return False


class Twin(Pressable, BoxLayout):
    """A plate for one running mix; `shown` is the one this screen is about."""

    text = StringProperty("")
    shown = BooleanProperty(False)

"""A bounded place to count in: each tap within its frame says that so many more are down."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.job.glue_sheet import GlueSheet
from bench.job.job import Job
from bench.screens.parts.acts import SideAct
from bench.screens.parts.plates import Rows
from bench.screens.parts.press import Pressable
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.sections.forms import usual_row
from bench.speech import say

UNITS = (1, 5)
LOW_TEXT = 3.5  # lines of text that the place itself needs


class CountPlate(Pressable, BoxLayout):
    """The place itself: a finger that comes down and goes up within it counts once."""

    text = StringProperty("")
    says = StringProperty("")


class UnitAct(SideAct):
    """How many a tap counts."""

    pieces = NumericProperty(1)
    now = NumericProperty(0)


class CountArea(Rows):
    """In the chart's place, once it is asked for. `on_count(pieces)` tells a tap.

    pieces: how many a tap counts. row: how many a row of this section usually has, 0 where none is seen,
    or where it is set by the patch.
    """

    pieces = NumericProperty(UNITS[-1])
    row = NumericProperty(0)
    placed_text = StringProperty("")
    can_count = BooleanProperty(True)
    units = ListProperty()
    __events__ = ("on_count",)

    def __init__(self, **kwargs: Any) -> None:
        self._of: tuple[Any, ...] = ()
        super().__init__(**kwargs)

    def on_kv_post(self, _base: Any) -> None:
        self._plate, self._units = reversed(self.children)
        self.bind(size=self._lay)
        theme.bind(text=self._lay)

    def _lay(self, *_: object) -> None:
        """Where there is little height the place itself has all of it, and counts as it did."""
        room_px = self.height - theme.target - theme.gap
        least_px = max(theme.target, LOW_TEXT * theme.text)
        stack(self, [self._plate, *([self._units] if room_px >= least_px else [])])

    def on_count(self, pieces: int) -> None:
        """Bound by the screen."""

    def follow(self, job: Job, sheet: GlueSheet) -> None:
        """Follow a mix; its rows are looked for once."""
        of = (job, sheet.section)
        if of != self._of:
            self._of = of
            by_piece = sheet.unit == "pieces"
            self.row = usual_row(job.panel, job.section(sheet.section).tesserae) if by_piece else 0
            self.units = sorted({*UNITS, *([self.row] if self.row else [])})
            if self.pieces not in self.units:
                self.pieces = UNITS[-1]
            self._offer()
        self.placed_text = say("{part} of {whole}", part=sheet.placed, whole=sheet.pieces)
        self.can_count = sheet.placed < sheet.pieces and not sheet.stringy

    def tell(self) -> None:
        """Say that so many more are down."""
        self.dispatch("on_count", int(self.pieces))

    def choose(self, pieces: int) -> None:
        """Have a tap count so many."""
        self.pieces = pieces

    def _offer(self) -> None:
        row = self._units
        row.clear_widgets()
        for pieces in self.units:
            text = say("Row: {count}", count=pieces) if pieces == self.row else str(pieces)
            act = UnitAct(text=text, pieces=pieces, test_name=f"unit_{pieces}", now=self.pieces)
            self.bind(pieces=act.setter("now"))
            act.bind(on_act=lambda _act, pieces=pieces: self.choose(pieces))
            row.add_widget(act)

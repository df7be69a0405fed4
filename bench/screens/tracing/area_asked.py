"""What is asked of an area in place of the picture: its name, its glass, the colour of a sheet."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty

from bench.drawing.study.edit import middle_of
from bench.drawing.study.edits import Named
from bench.drawing.study.mixing import mix_around, recoloured
from bench.drawing.study.model import Colour
from bench.fault import Fault
from bench.screens.tracing.area_said import SIDES, SaidStep
from bench.screens.tracing.area_words import offered_names
from bench.speech import say

ASKED = ("naming", "glass", "sheet")


class AskingStep(SaidStep):
    """Base of the step of the areas: one thing after another is asked, and what is answered is said.

    alone: something is asked in place of the picture.
    """

    alone = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._stroke: list[tuple[float, float]] = []
        self._asked: list[str] = []
        super().__init__(**kwargs)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self._held = {name: self.ids[name].__self__ for name in (*SIDES, *ASKED, "looking")}
        for name in (*SIDES[1:], *ASKED):
            self.remove_widget(self._held[name])

    def turn_to(self, beside: str, doing: str = "", told: str = "") -> None:
        """Put another part at the side."""

    def ask_name(self) -> None:
        """Ask for a name of the area."""
        number, region = self.number, self.region
        use = lambda name: self.say(Named(region=number, name=name))  # noqa: E731
        self._held["naming"].ask(say("A name for '{area}'", area=region.name), offered_names(region), use)
        self._ask("naming")

    def ask_glass(self) -> None:
        """Show the glasses of the area's mix."""
        self._held["glass"].chosen = 0
        self._ask("glass")
        self.show_beside()

    def ask_sheet(self) -> None:
        """Ask for the colour of the chosen glass, or of the whole mix."""
        self.offer_sheet(say("Glass of '{area}'", area=self.region.name), whole=False, may_turn=True)

    def offer_sheet(self, head: str, *, whole: bool, may_turn: bool) -> None:
        self._held["sheet"].offer(head, whole=whole, may_turn=may_turn)
        self._ask("sheet")

    def _ask(self, name: str) -> None:
        self._asked.append(name)
        self.alone = True
        self.ids.split.put_main(self._held[name])

    def leave_asking(self) -> None:
        """Look at what was there before it was asked: the picture, in the end."""
        self._asked.pop()
        self._stroke, self._word_last = [], ()
        self.alone = bool(self._asked)
        self.ids.split.put_main(self._held[self._asked[-1] if self._asked else "looking"])
        self.show_beside()

    def take_sheet(self, colour: Colour) -> None:
        """Take a colour: of an area just drawn, of its whole mix, or of one glass of it."""
        stroke, whole = self._stroke, self._held["sheet"].whole
        self.leave_asking()
        if stroke:
            self.draw_area(stroke, colour)
        elif whole:
            self.mix_is("sheet", mix_around(colour))
        else:
            k = int(self._held["glass"].chosen)
            self.mix_is("sheet", recoloured(self.region.mix, k, colour))

    def draw_area(self, points_mm: list[tuple[float, float]], colour: Colour | None) -> None:
        """Have the area that a finger went round, and turn to it."""
        assert self.study is not None
        assert self.kept is not None
        try:
            word = self.kept.drawn(self.study, points_mm, self._how.piece_mm, colour)
        except Fault as fault:
            self.tell(fault)
            return
        if self.say(word):
            self._spot = middle_of(self.study, len(self.study.regions))
            self.draw()
            self.turn_to("region")

"""Cup: room, cautions, weighing, first contact; one thing at a time and always in this order.

Which step is shown follows from the book alone, so that a screen opened on a mix shows where it stands.
"""

from __future__ import annotations

from typing import Any

from kivy.core.window import Window
from kivy.metrics import dp
from kivy.properties import StringProperty

from bench.job.acts import cup
from bench.screens.atcup.hot import CupHot
from bench.screens.atcup.read import CupAid, CupRead
from bench.screens.atcup.room import CupRoom
from bench.screens.atcup.step import CupStep
from bench.screens.atcup.stocked import CupStock, stock_owed
from bench.screens.atcup.typed import (
    CupLate,
    CupPadBottles,
    CupPadHardener,
    CupPadLate,
    CupPadResin,
    CupPadRoom,
)
from bench.screens.atcup.warms import CupWarms
from bench.screens.atcup.weigh import CupWeigh
from bench.screens.fault_card import FaultCard
from bench.screens.keys import Keyed
from bench.screens.practice_plate import practice_plate
from bench.screens.screen import Screen
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say


class CupNothing(CupStep):
    """Nothing lies dry here: say where to go."""

    text = StringProperty("")

    def refresh(self) -> None:
        dry = self.desk.job.state.with_stage("dry")
        if dry:
            self.text = say("Choose a section that lies dry.")
        else:
            self.text = say("Nothing lies dry. Lay a section out first.")

    def back(self) -> None:
        self.desk.go("panel")


STEPS: dict[str, type[CupStep]] = {
    "nothing": CupNothing,
    "room": CupRoom,
    "hot": CupHot,
    "warms": CupWarms,
    "stock": CupStock,
    "read": CupRead,
    "aid": CupAid,
    "weigh": CupWeigh,
    "late": CupLate,
    "pad room": CupPadRoom,
    "pad bottles": CupPadBottles,
    "pad resin": CupPadResin,
    "pad hardener": CupPadHardener,
    "pad late": CupPadLate,
}

# these need the whole window, and bring the way elsewhere themselves
BARE = ("warms", "read", "aid", "weigh")


LOW_DP, LOW_FOR_LARGE_DP = 640, 960
LARGE = 1.2  # times the usual size of text


def _is_low() -> bool:
    """Tell whether the window has no height to spare for the house's head; every step can be left."""
    if Window.height >= Window.width:
        return False
    return bool(Window.height < dp(LOW_FOR_LARGE_DP if theme.text_scale > LARGE else LOW_DP))


class CupScreen(Keyed, Screen):
    """Show the step that the book asks for, or the view beside it that was turned to."""

    step = StringProperty("")
    tells_faults = True  # a card above would leave the step no room

    def __init__(self, **kwargs: Any) -> None:
        self._aside = ""
        self._knowing: set[int] = set()  # mixes too large, and known to be
        self._warned: set[int] = set()  # mixes whose heat was seen, or is not worth showing
        self._stocked: set[int] = set()  # mixes whose bottles hold too little, and it was seen
        self._body: CupStep | None = None
        self._room_C: float | None = None
        self._bottles_C: float | None = None
        self._about: tuple[Any, ...] = ()
        super().__init__(**kwargs)
        self._practice = practice_plate(self)
        self._fault = FaultCard(desk=self.desk)
        self.desk.bind(fault_what=self._place)

    @property
    def gloves_on(self) -> bool:
        """Whether the cautions were read: from then on it is weighed, in gloves."""
        mix = self.job.state.mix_at_cup
        return mix is not None and mix.acknowledged

    def arrive(self) -> None:
        self._aside = ""

    def refresh(self) -> None:
        at_cup = self.job.state.mix_at_cup
        if at_cup is not None:
            self.desk.mix, self.desk.section = at_cup.number, at_cup.section
        if self._about and self._about[0] is not self.job:
            self._knowing.clear()
            self._warned.clear()
            self._stocked.clear()
        base = self._base()
        about = (self.job, self.desk.section, base)
        if self._about != about:
            self._about, self._aside, self._body = about, "", None
            self._room_C = self._bottles_C = None
        step = self._aside or base
        if step != self.step or self._body is None:
            self._show(step)
        assert self._body is not None
        self._body.refresh()
        if self._practice is not None:
            self._practice.about = base
        self.title = say("Cup")
        if base != "nothing":
            self.title = say("Cup: section {section}", section=self.desk.section)
        self._take_window(step in BARE or _is_low())

    def on_size(self, *_: object) -> None:
        if self._body is not None and self.get_root_window() is not None:  # put away it reads no book
            self._take_window(self.step in BARE or _is_low())

    def _take_window(self, whole: bool) -> None:
        """Take the whole window, or give the house's head its place back."""
        if self.bare != whole:
            self.bare = whole
            self.desk.property("version").dispatch(self.desk)

    def _base(self) -> str:
        """Return the step that the book asks for."""
        mix = self.job.state.mix_at_cup
        if mix is None:
            section = self.job.state.sections.get(self.desk.section)
            return "room" if section is not None and section.stage == "dry" else "nothing"
        if mix.acknowledged:
            return "weigh"
        shown = cup.sheet(self.job, mix.number)
        if mix.number not in self._knowing and not shown.fits:
            return "hot"
        if mix.number not in self._warned:
            if cup.heat(self.job, mix.number) is not None:
                return "warms"
            self._warned.add(mix.number)
        return "stock" if stock_owed(shown, seen=mix.number in self._stocked) else "read"

    def _show(self, step: str) -> None:
        if isinstance(self._body, CupRoom):
            self._room_C = self._body.temperature_C
        self.step = step
        self._body = STEPS[step](desk=self.desk, turn=self.turn)
        if isinstance(self._body, CupRoom):
            self._body.adhesive_C = self._bottles_C
            if self._room_C is not None:
                self._body.temperature_C = self._room_C
        self._place()

    def _place(self, *_: object) -> None:
        """Have the step on the screen, or the card of a mistake until it is understood."""
        if self._body is not None:
            stack(self.ids.place, [self._fault if self.desk.fault_what else self._body])

    def turn(self, view: str) -> None:
        """Show a view beside the step, '' for the step itself."""
        if view in ("knowing", "warned"):
            (self._knowing if view == "knowing" else self._warned).add(self.desk.mix)
            view = ""
        elif view == "stocked":
            self._stocked.add(self.desk.mix)
            view = ""
        elif view.startswith("room="):
            self._room_C, view = float(view.removeprefix("room=")), ""
        elif view.startswith("bottles"):
            typed = view.removeprefix("bottles").removeprefix("=")
            self._bottles_C, view = float(typed) if typed else None, ""
        self._aside = view
        self.refresh()

    def on_key(self, name: str) -> bool:
        learned = self.desk.device.act_of(name)
        if learned and not self.desk.fault_what:  # a pedal that counts sends Enter, and begins no mix
            at_scale = learned == "contact" and self.step == "weigh" and self._body is not None
            return not at_scale or self._body.act_on_key()
        if name in ("enter", "spacebar", "numpadenter"):
            if self.desk.fault_what:
                self.desk.clear_fault()
                return True
            return self._body is not None and self._body.act_on_key()
        if name == "escape" and self._aside:
            self.turn("")
            return True
        return False

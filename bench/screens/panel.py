"""Panel, the home: the whole picture in true colours, the one next act and why.

A tap on a section opens its card beside the picture; it closes with its own key or by a tap on bare grey.
What remains is foretold after the first frame, since that takes a moment; what may stand beside the picture
in place of the next act is made, and what is needed for it imported, when it is first shown.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from bench.job.absence import away_mark, is_back
from bench.job.acts import record
from bench.job.advice import Advice, advise
from bench.job.ground import section_numbers
from bench.job.words import words
from bench.screens.drawing_words import report_lines, unparted
from bench.screens.load import load
from bench.screens.panel_parts import NextPart, SectionPart  # noqa: F401 - the kv file names the first,
from bench.screens.panel_picture import PanelPicture  # noqa: F401 - and these
from bench.screens.parts.choice import Choice  # noqa: F401
from bench.screens.parts.reading import Reading
from bench.screens.parts.split import Split  # noqa: F401
from bench.screens.parts.zoom import ZoomKeys  # noqa: F401
from bench.screens.screen import Screen
from bench.speech import say

if TYPE_CHECKING:
    from bench.screens.section_words import SectionFacts

GO_TO = {"watch": "glueup", "mix": "cup", "set": "cup", "lay": "dry", "finish": "finish"}
ICONS = {"watch": "glue", "mix": "cup", "set": "cup", "lay": "lay", "finish": "grout"}
LOW_DP = 700
LOOK_AGAIN_TICKS = 10  # a cure moves slowly: look every five seconds


class PanelScreen(Screen):
    """Show the panel, the next act, and the card of a section that was tapped."""

    beside = OptionProperty("next", options=("next", "section", "report", "hand", "days", "away"))
    inking = BooleanProperty(False)
    undo_text = StringProperty("")
    outlook = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._advice: Advice | None = None
        self._shown: Any = None
        self._divided: Any = None
        self._tapped = 0
        self._ticks = 0
        self._foretell = Clock.create_trigger(self._forecast, 0.1)
        super().__init__(**kwargs)
        self._parts: dict[str, Any] = {"next": self.ids.next.__self__}
        self.desk.bind(dividing=self._follow_dividing)  # a method: a lambda would be held as long as the desk

    def on_size(self, *_: object) -> None:
        if self._advice is not None:
            self._fill()

    # -- parts ---------------------------------------------------------------------------------------------

    def _part(self, name: str) -> Any:
        """Return what may stand beside the picture."""
        if name not in self._parts:
            self._parts[name] = getattr(self, f"_new_{name}", self._new_reading)()
        return self._parts[name]

    def _new_section(self) -> SectionPart:
        part = SectionPart()
        part.bind(
            on_choose=lambda *_: self.choose(),
            on_try=lambda _part, stage: self.try_cure(stage),
            on_chip=lambda *_: self.chip_out(),
            on_shape=lambda *_: self.shape_it(),
            on_close=lambda *_: self.close(),
        )
        return part

    def _new_hand(self) -> Any:
        from bench.screens.handwork import HandPart

        load()  # its looks may not be there yet
        part = HandPart()
        part.bind(
            on_way_turned=lambda *_: self.follow_hand(),
            on_tried=lambda *_: self.follow_hand(),
            on_keep=lambda *_: self.keep_shaped(),
            on_close=lambda *_: self.close(),
        )
        return part

    def _new_reading(self) -> Reading:
        part = Reading()
        part.bind(on_close=lambda *_: self.close())
        return part

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self._tapped, self.beside, self.inking = 0, "next", False
        self.ids.picture.wipe()
        if report_lines(self.job) and self.job.store.setting(self._report_key()) is None:
            self.beside = "report"
        if is_back(self.job) and self.job.store.setting(away_mark(self.job)) is None:
            self.beside = "away"

    def _follow_dividing(self, *_: object) -> None:
        self._foretell()

    def refresh(self) -> None:
        self._advice = advise(self.job)
        if self._tapped not in self.job.state.sections:
            self._tapped = 0
        if self.beside in ("section", "hand") and not self._tapped:
            self.beside = "next"
        if self.beside == "hand":
            self._part("hand").begin(self.job, self._tapped)  # the book moved on: what was tried is dropped
        self._draw()
        self._name_undo()
        self._fill()
        self._foretell()

    def tick(self) -> None:
        self._ticks += 1
        if self._ticks % LOOK_AGAIN_TICKS == 0:
            self._advice = advise(self.job)
            self._draw()
            self._fill()

    def _draw(self) -> None:
        """Draw the division again, but only where something of it changed."""
        picture = self.ids.picture
        if self._shown is not self.job.panel:
            picture.show(self.job.panel, self.job.store.readings)
            self._shown, self._divided = self.job.panel, None
        lives = {n: self.job.life(n) for n in self.job.state.sections}
        numbers = self._part("hand").numbers() if self.beside == "hand" else section_numbers(self.job)
        lives |= {n: "drawn" for n in set(numbers.tolist()) if n > 0 and n not in lives}
        pointed = self._tapped or (self._advice.section if self._advice else None)
        state = (numbers.tobytes(), tuple(sorted(lives.items())), pointed)
        if state != self._divided:
            picture.divide(numbers, lives, pointed, keep=self.beside != "hand")
            self._divided = state

    def _name_undo(self) -> None:
        newest = record.newest_act(self.job)
        self.undo_text = words(newest.event) if newest else ""

    def _fill(self) -> None:
        """Put what belongs there beside the picture."""
        part = getattr(self, f"_fill_{self.beside}")()
        self.ids.split.put_side(part)

    def _fill_next(self) -> Any:
        part, advice = self._parts["next"], self._advice
        assert advice is not None
        part.headline, part.icon = unparted(advice.headline), ICONS.get(advice.act, "")
        part.low = self.width >= self.height and self.height < LOW_DP * dp(1)
        part.waits = advice.act not in GO_TO
        part.why = advice.why.replace(" g ", "\u00a0g ")  # grams are never parted from their number
        part.has_report = bool(report_lines(self.job))
        return part

    def _fill_section(self) -> Any:
        part = self._part("section")
        part.show(self._facts())
        return part

    def _facts(self) -> SectionFacts:
        from bench.screens.section_words import section_facts

        return section_facts(self.job, self._tapped)

    def _fill_report(self) -> Any:
        return self._to_read("report", say("The drawing"), report_lines(self.job))

    def _fill_days(self) -> Any:
        from bench.screens.section_words import day_lines

        return self._to_read("days", say("Foreseen"), day_lines(self.job))

    def _fill_away(self) -> Any:
        from bench.job.away import away_lines  # its words come with it

        return self._to_read("away", say("Welcome back"), away_lines(self.job))

    def _to_read(self, name: str, head: str, lines: tuple[str, ...]) -> Any:
        part = self._part(name)
        part.head, part.lines = head, lines
        return part

    def _fill_hand(self) -> Any:
        return self._part("hand")

    def _forecast(self, *_: object) -> None:
        """Foretell in one line what remains."""
        from bench.screens.section_words import outlook

        self.outlook = say("Dividing anew …") if self.desk.dividing else outlook(self.job)

    # -- hands -------------------------------------------------------------------------------------------

    def tapped(self, number: int) -> None:
        """Open the card of a section, or close it on bare ground; by hand, join with it."""
        if self.beside == "hand":
            self._part("hand").tapped(number)
            return
        self._tapped = number if number in self.job.state.sections else 0
        self._show("section" if self._tapped else "next")

    def close(self) -> None:
        """Go back to the next act."""
        if self.beside == "report":
            self.desk.keep_setting(self._report_key(), "read")
        if self.beside == "away":
            self.desk.keep_setting(away_mark(self.job), "read")
        self._tapped, self.inking = 0, False
        self.ids.picture.wipe()
        self._show("next")

    def step_back(self) -> bool:
        shows = self.beside != "next"
        self.close()
        return shows

    def show_report(self) -> None:
        self._show("report")

    def show_days(self) -> None:
        """Show which section is foreseen for which day."""
        self._show("days")

    def _show(self, beside: str) -> None:
        self.beside = beside
        self._draw()
        self._fill()

    def _report_key(self) -> str:
        """Name the mark that this drawing's report was read; a revised drawing has one of its own."""
        return f"report_read:{self.job.panel_id}:{self.job.state.drawing_sha256[:12]}"

    def do_next(self) -> None:
        """Do the one big act."""
        advice = self._advice
        if advice is not None and advice.act in GO_TO:
            self.desk.go(GO_TO[advice.act], section=advice.section, mix=advice.mix)

    def choose(self) -> None:
        """Go on with the section that was tapped."""
        self.desk.go(self._facts().to, section=self._tapped, mix=self.job.section(self._tapped).mix)

    def try_cure(self, stage: str) -> None:
        """Say that the tapped section was tried by hand."""
        from bench.job.acts import cure

        self.desk.attempt(cure.confirm_cure, self._tapped, stage)

    def chip_out(self) -> None:
        """Take the tapped section out; what is bare then is divided anew."""
        from bench.job.acts import cure

        done, _ = self.desk.attempt(cure.chip_out, self._tapped)
        if done:
            self.desk.divide_anew()

    def shape_it(self) -> None:
        """Shape the tapped section by hand."""
        self._part("hand").begin(self.job, self._tapped)
        self._show("hand")

    def stroked(self, points_mm: list[tuple[float, float]]) -> None:
        """Take a stroke over the picture."""
        self._part("hand").stroked(points_mm, self.ids.picture.under(points_mm))

    def follow_hand(self) -> None:
        """Show what is being tried."""
        self.inking = self._part("hand").way in ("split", "move")
        if not self._part("hand").can_keep:
            self.ids.picture.wipe()
        if self.beside == "hand":
            self._draw()

    def keep_shaped(self) -> None:
        """Keep what was tried; the book has it, and divisions leave it alone."""
        pending = self._part("hand").pending
        if pending is None:
            return
        self.inking = False
        self.ids.picture.wipe()
        self.beside = "section"
        from bench.job.acts import shaping

        self.desk.attempt(shaping.shape, pending)

    def undo(self) -> None:
        self.desk.attempt(record.undo)

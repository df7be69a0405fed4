"""Panel, the home: the whole picture in true colours, the one next act and why.

A tap on a section opens its card beside the picture; it closes with its own key or by a tap on bare grey.
What remains is foretold after the first frame, since that takes a moment.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, StringProperty

from bench.job.absence import away_mark
from bench.job.acts import record
from bench.job.advice import advise
from bench.job.ground import section_numbers
from bench.job.words import words
from bench.screens.drawing_words import report_lines
from bench.screens.panel_picture import PanelPicture  # noqa: F401 - the kv file names it, and these
from bench.screens.panel_sides import GO_TO, PanelSides
from bench.screens.parts.choice import Choice  # noqa: F401
from bench.screens.parts.split import Split  # noqa: F401
from bench.screens.parts.zoom import ZoomKeys  # noqa: F401
from bench.screens.picture.life import cure_notes

LOOK_AGAIN_TICKS = 10  # a cure moves slowly: look every five seconds


class PanelScreen(PanelSides):
    """Show the panel, the next act, and the card of a section that was tapped."""

    inking = BooleanProperty(False)
    undo_text = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self._shown: Any = None
        self._divided: Any = None
        self._ticks = 0
        self._foretell = Clock.create_trigger(self._forecast, 0.1)
        super().__init__(**kwargs)
        self.desk.bind(dividing=self._follow_dividing)  # a method: a lambda would be held as long as the desk

    # -- following the book ------------------------------------------------------------------------------

    def arrive(self) -> None:
        self._tapped, self.beside, self.inking, self.whole = 0, "next", False, False
        self.ids.picture.wipe()
        if report_lines(self.job) and self.job.store.setting(self._report_key()) is None:
            self.beside = "report"
        if self.desk.come_back():
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
            if self.beside == "next" and self.desk.come_back():  # a tablet may have been left on
                self.beside = "away"
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
        if self.beside == "hand":
            pointed = self._part("hand").shaped_number
        picture.notes = cure_notes(self.job, lives)
        state = (numbers.tobytes(), tuple(sorted(lives.items())), pointed)
        if state != self._divided:
            picture.divide(numbers, lives, pointed, keep=self.beside != "hand")
            self._divided = state

    def _name_undo(self) -> None:
        newest = record.newest_act(self.job)
        self.undo_text = words(newest.event) if newest else ""

    # -- hands -------------------------------------------------------------------------------------------

    def tapped(self, number: int, tessera: int) -> None:
        """Open the card of a section, or close it on bare ground; by hand, shape with what was tapped."""
        if self.beside == "hand":
            self._part("hand").tapped(number, tessera)
            return
        self.whole = False
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
        if self.whole:
            self.whole = False
            return True
        shows = self.beside != "next"
        self.close()
        return shows

    def fit_or_fill(self) -> None:
        """Show all of the panel; where that is shown already, over the whole screen."""
        if self.ids.picture.fitted and self.beside != "hand":
            self.whole = True
        else:
            self.ids.picture.fit()

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
        self._part("hand").stroked(points_mm, self.ids.picture.under)

    def stroking(self, points_mm: list[tuple[float, float]]) -> None:
        """Follow a stroke as it grows."""
        self._part("hand").stroking(points_mm, self.ids.picture.under)

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

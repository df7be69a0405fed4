"""The second step: the four corners of the panel in the picture, and its true size."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from bench.drawing.photo import corner_error_mm, tone, turned, whole
from bench.fault import Fault
from bench.job.drafts import nudge_px
from bench.job.faults import SizeNotTold
from bench.screens.open import LEAST_MM, MOST_MM
from bench.screens.parts.corners import CornersPart  # noqa: F401 - the kv file names it
from bench.screens.tracing.area_words import length_or_ask
from bench.screens.tracing.step import Step
from bench.speech import large_first, length, say, unbroken


class CornersStep(Step):
    """Set corners by finger; what lies outside is cut off, and perspective taken out.

    The whole picture as it is needs no corners: they go to its own, and one side follows from the other.
    """

    needs = "raw"
    head = StringProperty("")
    says = StringProperty("")
    width_text = StringProperty("")
    height_text = StringProperty("")
    wants_width = BooleanProperty(False)
    wants_height = BooleanProperty(False)
    asking = BooleanProperty(False)
    is_whole = BooleanProperty(False)
    fits = BooleanProperty(False)

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self.remove_widget(self.ids.ask)
        self.ids.corners.bind(name=lambda *_: self._say())

    def arrive(self) -> None:
        draft, picture = self.draft, self.flow.picture
        step_px = nudge_px(draft.size_px(picture))
        self.ids.corners.show(
            turned(picture.pixels, draft.turned),
            draft.corners_in(picture),
            step_px=step_px,
            tone=tone(draft.lighten),
        )
        self._say()

    def leave(self) -> None:
        """Keep where the corners are."""
        self._keep()

    def follow(self, corners: Any) -> None:
        """Follow the finger; the book hears of it when the step is left or something else is said."""
        seen = tuple(map(tuple, corners))
        if len(seen) == 4 and seen != self.draft.corners_in(self.flow.picture):
            self.flow.draft = self.draft.changed(corner_px=seen)
        self._say()

    def _keep(self) -> None:
        """Write down where the corners are."""
        picture = self.flow.picture
        if picture is not None:
            self.flow.change(corner_px=self.draft.corners_in(picture))

    def take_whole(self) -> None:
        """Use the picture as it is, without corners to set."""
        self.ids.corners.put(whole(self.draft.size_px(self.flow.picture)))

    # -- what it comes to --------------------------------------------------------------------------------

    def _say(self) -> None:
        draft, picture = self.draft, self.flow.picture
        if picture is None:
            return
        width_mm, height_mm = draft.size_mm(picture)
        self.width_text, self.height_text = length_or_ask(width_mm), length_or_ask(height_mm)
        self.wants_width, self.wants_height = width_mm is None, width_mm is not None and height_mm is None
        self.is_whole = draft.is_whole(picture)
        corner = self.ids.corners.name
        self.head = say("The whole picture") if self.is_whole else say("Corner: {name}", name=corner)
        self.fits = False
        try:
            corners = draft.corners(picture, tap_px=max(2.0, nudge_px(draft.size_px(picture))))
            error_mm = corner_error_mm(picture, corners)
        except SizeNotTold as fault:
            self.says = f"{large_first(fault.todo)}."
            return
        except Fault as fault:
            self.says = fault.sentence
            return
        self.fits = True
        error = unbroken(length(max(0.1, error_mm.max()), 1))
        self.says = say("Each corner is right to {error}.", error=error)

    # -- the size ----------------------------------------------------------------------------------------

    def ask(self, side: str) -> None:
        """Ask for the true width or height."""
        title = say("True width of the panel") if side == "width" else say("True height of the panel")
        use = lambda mm: self._set(side, mm)  # noqa: E731
        self.ids.ask.ask_length(title, use, least_mm=LEAST_MM, most_mm=MOST_MM)
        self.asking = True
        self.ids.split.put_main(self.ids.ask)

    def leave_pad(self) -> None:
        """Look at the picture again."""
        self.asking = False
        self.ids.split.put_main(self.ids.corners)

    def _set(self, side: str, value: float) -> None:
        other = {"width": "height_mm", "height": "width_mm"}[side]
        update: dict[str, Any] = {f"{side}_mm": value}
        if self.draft.is_whole(self.flow.picture):
            update[other] = None  # it follows
        self.flow.change(**update)
        self._say()

    def act_on_key(self) -> None:
        if self.asking:
            self.ids.ask.ids.pad.use()
        elif self.fits:
            self.done()

"""Where the rectangle lies in the photo, and how large it is on the panel."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from bench.drawing.photo import corner_error_mm, turned, turned_corners
from bench.drawing.photo.square import Corners
from bench.fault import Fault
from bench.job.drafts import nudge_px
from bench.screens.parts.corners import CornersPart  # noqa: F401 - the kv file names it
from bench.screens.parts.plates import Rows
from bench.speech import length, plain_length, say, size

MOST_MARGIN_MM = 500.0


class FilmCorners(Rows):
    """Set four corners by finger; say which rectangle of the panel they are of. `flow` is the screen."""

    flow = ObjectProperty()
    head = StringProperty("")
    says = StringProperty("")
    size_text = StringProperty("")
    margin_text = StringProperty("")
    is_whole = BooleanProperty(False)
    asking = BooleanProperty(False)
    fits = BooleanProperty(False)

    def on_kv_post(self, _base: Any) -> None:
        # Kivy's ids alone would let a part go as soon as it is off the screen
        self._parts = [part.__self__ for part in self.ids.values()]
        self.remove_widget(self.ids.ask)
        self.ids.corners.bind(name=lambda *_: self._say())

    def arrive(self) -> None:
        """Show the photo as it is turned, with its corners."""
        flow = self.flow
        pixels = turned(flow.raw.pixels, flow.quarters)
        rows, columns = pixels.shape[:2]
        self.ids.corners.show(pixels, flow.corner_px, step_px=nudge_px((columns, rows)))
        self._say()

    def follow(self, corners: Any) -> None:
        """Follow the finger."""
        if len(corners) == 4:
            self.flow.corner_px = tuple(map(tuple, corners))
        self._say()

    def turn(self) -> None:
        """Turn the photo by a quarter, clockwise, and its corners with it."""
        flow = self.flow
        rows, columns = turned(flow.raw.pixels, flow.quarters).shape[:2]
        flow.corner_px = turned_corners(flow.corner_px, (columns, rows), 1)
        flow.quarters = (flow.quarters + 1) % 4
        self.arrive()

    def take_whole(self) -> None:
        """Take the panel's own corners."""
        self.flow.take_margin(None)
        self._say()

    def ask_margin(self) -> None:
        """Ask how far around the section the corners lie."""
        title = say("From the section to the corners")
        self.ids.ask.ask_length(title, self._set_margin, least_mm=0.0, most_mm=MOST_MARGIN_MM)
        self.asking = True
        self.ids.split.put_main(self.ids.ask)

    def leave_pad(self) -> None:
        """Look at the photo again."""
        self.asking = False
        self.ids.split.put_main(self.ids.corners)

    def _set_margin(self, margin_mm: float) -> None:
        self.flow.take_margin(margin_mm)
        self._say()

    def _say(self) -> None:
        flow = self.flow
        if flow is None or flow.raw is None or flow.task is None:
            return
        frame, margin_mm = flow.task.frame, flow.margin_mm
        self.head = say("Corner: {name}", name=self.ids.corners.name)
        self.is_whole = margin_mm is None
        if margin_mm is None:
            self.margin_text = say("the whole panel")
        else:
            self.margin_text = say("{margin} around it", margin=plain_length(margin_mm))
        self.size_text = say("Of {size} on the cartoon", size=size(frame.width_mm, frame.height_mm))
        corners = Corners(corner_px=flow.corner_px, width_mm=frame.width_mm, height_mm=frame.height_mm)
        try:
            error_mm = float(corner_error_mm(flow.raw, corners).max())
        except Fault as fault:
            self.fits, self.says = False, fault.sentence
        else:
            error = length(max(0.1, error_mm), 1)
            self.fits, self.says = True, say("Each corner is right to {error}.", error=error)

    def act_on_key(self) -> None:
        """Do the step's one act, as Enter asks for it."""
        if self.asking:
            self.ids.ask.ids.pad.use()
        elif self.fits:
            self.flow.look()

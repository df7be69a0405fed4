"""The areas of a study over its picture: contours, the one that was tapped drawn thick."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.metrics import dp
from kivy.properties import NumericProperty

from bench.drawing.panel import Panel
from bench.drawing.study import Study
from bench.drawing.study.model import pixel_mm
from bench.screens.parts.photo import Pixels
from bench.screens.picture import program
from bench.screens.picture.looks import WHITE, Side
from bench.screens.picture.outlines import outlines
from bench.screens.picture.strokes import Mesh, merged, ribbon
from bench.screens.tracing.found_picture import FoundPicture

CONTOUR = Side(core_dp=0.0, band_dp=1.0, edge_dp=2.0, colour=WHITE)
CHOSEN = Side(core_dp=0.0, band_dp=4.5, edge_dp=7.0, colour=WHITE)


class AreasPicture(FoundPicture):
    """A picture in mm with areas over it; `on_spot(x_mm, y_mm)` tells where it was tapped.

    reach_dp: how far to either side a stroke of the finger does something.
    """

    reach_dp = NumericProperty(0.0)

    __events__ = ("on_spot",)

    def __init__(self, **kwargs: Any) -> None:
        self._edges: list[Any] = []
        super().__init__(**kwargs)

    def on_reach_dp(self, _picture: object, reach_dp: float) -> None:
        self._ink.reach_dp = reach_dp

    def show_found(self, panel: Panel | None) -> None:
        self._edges = []
        super().show_found(panel)
        self._edges = list(self._lines.children)
        self.on_in_glass()

    def on_in_glass(self, *_: object) -> None:
        """Show outlines over the picture only: on glass they would tint it."""
        super().on_in_glass()
        if self._edges:
            self._lines.clear()
        for mesh in self._edges if not self.in_glass else ():
            self._lines.add(mesh)

    def on_spot(self, x_mm: float, y_mm: float) -> None:
        """Bound by the step."""

    def show_under(self, pixels: Pixels, size_mm: tuple[float, float]) -> None:
        """Show a picture of so many mm; where one of this size was shown before, the view stays."""
        view, fitted = self.view, self.fitted
        same = view is not None and self._size_mm == size_mm
        self.lay_under(pixels, size_mm)
        if max(pixels.shape[:2]) < max(self.size):
            self._texture.mag_filter = "nearest"
        if same:
            self.fitted, self.view = fitted, view

    def show_areas(self, study: Study | None, chosen: int = 0) -> None:
        """Draw the contours of areas, and one of them thick."""
        self._lines.clear()
        self._marks.clear()
        if study is None:
            return
        program.fill(self._lines, merged(_contours(study, study.labels, CONTOUR)), program.LINE_FORMAT)
        if chosen:
            one = (study.labels == chosen).astype(np.int32)
            program.fill(self._marks, merged(_contours(study, one, CHOSEN)), program.LINE_FORMAT)

    @property
    def reach_mm(self) -> float:
        """How far a stroke reaches at this zoom. [mm]"""
        return float(dp(self.reach_dp) / self.view.px_per_mm)

    def on_touch_up(self, touch: Any) -> bool:
        tapped = touch.grab_current is self and touch.ud["still"]
        taken = super().on_touch_up(touch)
        if tapped:
            self.dispatch("on_spot", *self._mm_of(touch))
        return bool(taken)


def flat(study: Study, colours: list[tuple[int, int, int]]) -> Pixels:
    """Return each area in one colour, (rows, columns, 3); what is none is the grey round the glass."""
    table = np.array([(119, 119, 119), *colours], np.uint8)
    return table[study.labels]


def _contours(study: Study, labels: np.ndarray, side: Side) -> list[Mesh]:
    edge = pixel_mm(study.size_mm, labels.shape)
    padded = np.pad(labels, 1)  # so that the panel's own edge is drawn too
    found = outlines(padded)
    return [ribbon((line.points[:, ::-1] - 1.0) * edge, side, side, closed=line.closed) for line in found]

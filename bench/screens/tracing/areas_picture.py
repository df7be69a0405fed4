"""The areas of a study over its picture: contours, the one that was tapped drawn thick, a finger's places."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.metrics import dp

from bench.drawing.study import Study
from bench.drawing.study.model import pixel_mm
from bench.screens.picture.looks import WHITE, Side
from bench.screens.picture.outlines import outlines
from bench.screens.picture.strokes import Mesh, merged, ribbon
from bench.screens.parts.photo import Pixels
from bench.screens.tracing.found_picture import FoundPicture

CONTOUR = Side(core_dp=0.0, band_dp=1.0, edge_dp=2.0, colour=WHITE)
CHOSEN = Side(core_dp=0.0, band_dp=4.5, edge_dp=7.0, colour=WHITE)
FINGER_DP = 36  # half of what a gloved finger covers


class AreasPicture(FoundPicture):
    """A picture in mm with areas over it; `on_spot(x_mm, y_mm)` tells where it was tapped."""

    __events__ = ("on_spot",)

    def on_spot(self, x_mm: float, y_mm: float) -> None:
        """Bound by the step."""

    def show_under(self, pixels: Pixels, size_mm: tuple[float, float]) -> None:
        """Show a picture of so many mm; where one of this size was shown before, the view stays."""
        view, fitted = self.view, self._fitted
        same = view is not None and self._size_mm == size_mm
        self.lay_under(pixels, size_mm)
        if max(pixels.shape[:2]) < max(self.size):
            self._texture.mag_filter = "nearest"
        if same:
            self._fitted, self.view = fitted, view

    def show_areas(self, study: Study | None, chosen: int = 0) -> None:
        """Draw the contours of areas, and one of them thick."""
        self._lines.clear()
        self._marks.clear()
        if study is None:
            return
        self._fill(self._lines, merged(_contours(study, study.labels, CONTOUR)))
        if chosen:
            self._fill(self._marks, merged(_contours(study, (study.labels == chosen).astype(np.int32), CHOSEN)))

    @property
    def finger_mm(self) -> float:
        """How far a gloved finger reaches around its middle, at this zoom. [mm]"""
        return float(dp(FINGER_DP) / self.view.px_per_mm)

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

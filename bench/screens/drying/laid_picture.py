"""The photo of a dry lay with the pieces that were found in it, to be corrected by taps and strokes."""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.metrics import dp

from bench.drawing.built import Pieces, panel_of
from bench.drawing.dry import Found
from bench.screens.panel_picture import SLACK_DP
from bench.screens.picture.looks import Side
from bench.screens.tracing.found_picture import FoundPicture


class LaidPicture(FoundPicture):
    """Tell `on_tap(x_mm, y_mm, slack_mm)` wherever a finger taps, on a piece or beside it."""

    edge = Side(core_dp=0.0, band_dp=0.9, edge_dp=1.7)  # light in dark: seen on glass of any colour
    __events__ = ("on_tap",)

    def on_tap(self, x_mm: float, y_mm: float, slack_mm: float) -> None:
        """Bound by whoever corrects."""

    def on_touch_up(self, touch: Any) -> bool:
        still = touch.grab_current is self and touch.ud.get("still", False)
        done = super().on_touch_up(touch)
        if still and not self.inking:
            self.dispatch("on_tap", *self._mm_of(touch), dp(SLACK_DP) / self.view.px_per_mm)
        return done

    def show_laid(self, found: Found) -> None:
        """Outline the pieces; none at all leave the photo bare."""
        if not found.count:
            self.show_found(None)
            return
        rings, owner = found.outlines()
        colour = np.full((found.count, 3), 128, np.uint8)
        self.show_found(panel_of(Pieces(rings, owner, colour), found.size_mm, found.name))

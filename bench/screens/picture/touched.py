"""What fingers do on a picture: tap, move, pinch, and draw a stroke.

A stroke is drawn by one finger alone. A second one takes it back, and until all fingers are up there is none:
two fingers on a picture mean to see it closer.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import BooleanProperty, ObjectProperty
from kivy.uix.widget import Widget

from bench.screens.picture.ink import Ink

ZOOM_STEP = 1.6
_STILL_DP = 14  # a finger that moved less than this has tapped
_LEAST_PINCH_DP = 24

Point = tuple[float, float]


class Touched(Widget):
    """Follow fingers over a `view`, and tell what they did.

    inking: one finger draws a stroke instead of moving the picture. `on_stroking(points_mm)` tells of it as
    it grows, at most once a frame, and with no points when it is taken back; `on_stroke(points_mm)` of the
    whole; `on_tapped(x_px, y_px)` where a finger tapped.
    """

    inking = BooleanProperty(False)
    fitted = BooleanProperty(True)  # all is shown, as large as it goes
    view = ObjectProperty(None, allownone=True)

    __events__ = ("on_stroking", "on_stroke", "on_tapped")

    def __init__(self, **kwargs: Any) -> None:
        self._fingers: list[Any] = []
        self._drawn_alone = True  # no second finger has come since the first went down
        self._ink = Ink()
        self._tell_stroking = Clock.create_trigger(self._grown, 0)
        super().__init__(**kwargs)

    def on_stroking(self, points_mm: list[Point]) -> None:
        """Tell how far a stroke has come, in mm of the panel: bound by the screen."""

    def on_stroke(self, points_mm: list[Point]) -> None:
        """Tell the stroke that a finger drew, in mm of the panel: bound by the screen."""

    def on_tapped(self, x_px: float, y_px: float) -> None:
        """Tell where a finger tapped: for the picture itself."""

    def wipe(self) -> None:
        """Take the stroke off the picture."""
        self._ink.wipe()

    def zoom_in(self) -> None:
        self._zoom(ZOOM_STEP)

    def zoom_out(self) -> None:
        self._zoom(1 / ZOOM_STEP)

    def _zoom(self, factor: float, about: Point | None = None) -> None:
        if self.view is not None:
            self.fitted = False
            self.view = self.view.zoomed(factor, about)

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos) or self.view is None:
            return False
        if getattr(touch, "is_mouse_scrolling", False):
            factor = ZOOM_STEP if touch.button == "scrolldown" else 1 / ZOOM_STEP
            self._zoom(factor, (touch.x - self.x, touch.y - self.y))
            return True
        touch.grab(self)
        touch.ud["still"] = self._drawn_alone = not self._fingers
        if self._fingers:
            self._take_back()
        elif self.inking:
            self._ink.begin(self._mm_of(touch))
        for other in self._fingers:
            other.ud["still"] = False
        self._fingers.append(touch)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        way = (touch.x - touch.ox, touch.y - touch.oy)
        if touch.ud["still"]:
            if np.hypot(*way) < dp(_STILL_DP):
                return True
            touch.ud["still"] = False
        else:
            way = (touch.dx, touch.dy)
        if len(self._fingers) == 1 and self._draws:
            self._ink.go_on(self._mm_of(touch))
            self._ink.place(self.view, self.pos)
            self._tell_stroking()
        elif len(self._fingers) == 1:
            self.fitted = False
            self.view = self.view.moved(*way)
        elif len(self._fingers) == 2:
            self._pinch(touch)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self._fingers.remove(touch)
        if touch.ud["still"]:
            self._take_back()
            self.dispatch("on_tapped", *touch.pos)
        elif self._draws and not self._fingers:
            self._tell_stroking.cancel()
            self.dispatch("on_stroke", self._ink.points_mm)
        return True

    @property
    def _draws(self) -> bool:
        return self.inking and self._drawn_alone

    def _pinch(self, touch: Any) -> None:
        other = next(f for f in self._fingers if f is not touch)
        before = float(np.hypot(touch.px - other.x, touch.py - other.y))
        now = float(np.hypot(touch.x - other.x, touch.y - other.y))
        if min(before, now) > dp(_LEAST_PINCH_DP):
            self._zoom(now / before, ((touch.x + other.x) / 2 - self.x, (touch.y + other.y) / 2 - self.y))

    def _grown(self, _dt: float) -> None:
        self.dispatch("on_stroking", self._ink.points_mm)

    def _take_back(self) -> None:
        """Have the stroke on the picture that was there before this finger went down."""
        if not self.inking or not self._ink.give_up():
            return
        self._tell_stroking.cancel()
        self._ink.place(self.view, self.pos)
        self.dispatch("on_stroking", [])

    def _mm_of(self, touch: Any) -> Point:
        point: Point = self.view.to_mm(touch.x - self.x, touch.y - self.y)
        return point

"""A finger on the hidden window. Imports Kivy: only after `hidden_window.prepare`."""

from __future__ import annotations

from itertools import count
from typing import Any

from kivy.input.motionevent import MotionEvent

_NUMBERS = count(1)


class Finger(MotionEvent):
    """One touch from down to up, through the whole of Kivy's input path, double taps included."""

    def __init__(self, stage: Any, x_px: float, y_px: float) -> None:
        self._stage = stage
        super().__init__("finger", next(_NUMBERS), self._place(x_px, y_px), is_touch=True, type_id="touch")
        self._send("begin")

    def depack(self, args: dict[str, float]) -> None:
        self.profile = ["pos"]
        self.sx, self.sy = args["x"], args["y"]
        super().depack(args)

    def slide(self, x_px: float, y_px: float) -> None:
        """Draw the finger along to a place of the window."""
        self.move(self._place(x_px, y_px))
        self._send("update")

    def up(self) -> None:
        """Lift the finger where it is."""
        self.update_time_end()
        self._send("end")

    def _place(self, x_px: float, y_px: float) -> dict[str, float]:
        width, height = self._stage.window.size
        return {"x": x_px / (width - 1.0), "y": y_px / (height - 1.0)}

    def _send(self, what: str) -> None:
        self._stage.loop._dispatch_input(what, self)
        self._stage.frame()

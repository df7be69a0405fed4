"""Keep the picture within its widget, at no cost while it fits."""

from __future__ import annotations

from kivy.graphics import InstructionGroup, ScissorPop, ScissorPush
from kivy.metrics import dp

from bench.screens.picture.view import View

_RIM_DP = 4  # how far outlines stand off the panel


class Clip:
    """Instructions to put before and after what may stick out.

    They cut pixels of the window, not of what is drawn: a stencil would slow every fragment.
    """

    def __init__(self) -> None:
        self.before, self.after = InstructionGroup(), InstructionGroup()
        self._box: tuple[int, ...] = ()

    def place(self, view: View, at: tuple[float, float], rim_dp: float = _RIM_DP) -> None:
        """Clip to the view's box at a place of the window, if the panel and a rim stick out of it."""
        box = _pixels(view, at) if _sticks_out(view, dp(rim_dp)) else ()
        if box == self._box:
            return
        self._box = box
        self.before.clear()
        self.after.clear()
        if box:
            x, y, width, height = box
            self.before.add(ScissorPush(x=x, y=y, width=width, height=height))
            self.after.add(ScissorPop())


def _pixels(view: View, at: tuple[float, float]) -> tuple[int, int, int, int]:
    left, low = round(at[0]), round(at[1])
    return left, low, round(at[0] + view.width_px) - left, round(at[1] + view.height_px) - low


def _sticks_out(view: View, rim: float) -> bool:
    left, top = view.to_px(0.0, 0.0)
    right, bottom = view.to_px(view.panel_width_mm, view.panel_height_mm)
    return left < rim or bottom < rim or right > view.width_px - rim or top > view.height_px - rim

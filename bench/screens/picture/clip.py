"""Keep the picture within its widget, at no cost while it fits: a stencil slows every fragment."""

from __future__ import annotations

from kivy.graphics import (
    InstructionGroup,
    Rectangle,
    StencilPop,
    StencilPush,
    StencilUnUse,
    StencilUse,
)
from kivy.metrics import dp

from bench.screens.picture.view import View

_RIM_DP = 4  # how far outlines stand off the panel


class Clip:
    """Instructions to put before and after what may stick out."""

    def __init__(self) -> None:
        self.before, self.after = InstructionGroup(), InstructionGroup()
        self._box: tuple[float, ...] = ()

    def place(self, view: View, at: tuple[float, float], rim_dp: float = _RIM_DP) -> None:
        """Clip to the view's box at a place of the window, if the panel and a rim stick out of it."""
        box = (*at, view.width_px, view.height_px) if _sticks_out(view, dp(rim_dp)) else ()
        if box == self._box:
            return
        self._box = box
        self.before.clear()
        self.after.clear()
        if box:
            for group, instructions in (
                (self.before, (StencilPush(), Rectangle(pos=box[:2], size=box[2:]), StencilUse())),
                (self.after, (StencilUnUse(), Rectangle(pos=box[:2], size=box[2:]), StencilPop())),
            ):
                for instruction in instructions:
                    group.add(instruction)


def _sticks_out(view: View, rim: float) -> bool:
    left, top = view.to_px(0.0, 0.0)
    right, bottom = view.to_px(view.panel_width_mm, view.panel_height_mm)
    return left < rim or bottom < rim or right > view.width_px - rim or top > view.height_px - rim

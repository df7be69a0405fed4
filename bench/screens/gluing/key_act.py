"""An act with its key written small in the corner."""

from __future__ import annotations

from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, InstructionGroup, Rectangle
from kivy.metrics import dp
from kivy.properties import BooleanProperty, StringProperty

from bench.screens.parts.acts import SideAct
from bench.screens.parts.fitting import lines_at, word_px
from bench.screens.theme import FONT, theme

_BADGE = 0.7  # of the small type: read close by, where the keyboard is


class KeyAct(SideAct):
    """A side act; `key_text` names the key that does the same."""

    key_text = StringProperty("")
    roomy = BooleanProperty(False)
    steady = BooleanProperty(True)  # the room that larger type would take is the time's

    def __init__(self, **kwargs: Any) -> None:
        self._badge = InstructionGroup()
        super().__init__(**kwargs)
        self.canvas.after.add(self._badge)
        for name in ("pos", "size", "key_text", "tone", "pressed", "disabled", "type_px"):
            self.fbind(name, self._draw_badge)
        theme.bind(ink=self._draw_badge, small=self._draw_badge)

    def _lies_on_name(self, wide_px: float, high_px: float) -> bool:
        """Tell whether a badge of that size would lie on the name of the act."""
        word = max((word_px(word, True) for word in self.text.split()), default=0.0) * self.type_px
        lines = lines_at(self.text, self.type_px, self.width - 2 * self.padding[0], bold=True)
        beside = (self.width + word) / 2 + wide_px + dp(12) <= self.width
        taken_px = self.type_px * (1 if lines < 2 or beside else lines)
        return bool(self.height < 1.2 * (high_px + taken_px))

    def _draw_badge(self, *_: object) -> None:
        self._badge.clear()
        self.corner_px = self._badge_at_corner()

    def _badge_at_corner(self) -> float:
        """Draw the badge and return how far it reaches from the right, 0 where there is none."""
        if not self.key_text or self.disabled:
            return 0.0
        badge_px = round(_BADGE * theme.small / max(1.0, theme.text_scale))  # it would lie over larger type
        label = CoreLabel(text=self.key_text, font_name=FONT, font_size=badge_px)
        label.refresh()
        if self._lies_on_name(*label.texture.size):
            return 0.0
        inverted = self.tone == "act" and not self.pressed
        self._badge.add(Color(*(theme.act_ink if inverted else theme.ink)))
        taken_px = label.texture.width + dp(12)
        x = self.x + self.width - taken_px
        y = self.y + self.height - label.texture.height - dp(6)
        self._badge.add(Rectangle(texture=label.texture, pos=(round(x), round(y)), size=label.texture.size))
        return float(taken_px)

"""What a gloved finger does to a target."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.graphics import Color, InstructionGroup, Line
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.behaviors import FocusBehavior

from bench.screens.keys import key_name
from bench.screens.theme import theme

DEBOUNCE_S = 0.3
FIRES = ("enter", "spacebar", "numpadenter")


class _LastAct:
    """When anything was last set off: a second, accidental tap may land on whatever came up under it."""

    time_s = float("-inf")


_last = _LastAct()


class Pressable(FocusBehavior):
    """Mix in: fire `on_act` when a finger goes down and comes up on the widget.

    A finger that slides off sets off nothing; nor does a second tap within `debounce_s` of any other act.
    With the keyboard: Tab moves on, Enter or Space fires; a ring stands round what has the focus. `why_not`
    disables, and is there to be shown.
    """

    test_name = StringProperty("")
    pressed = BooleanProperty(False)
    why_not = StringProperty("")
    debounce_s = NumericProperty(DEBOUNCE_S)

    __events__ = ("on_act",)

    def __init__(self, **kwargs: Any) -> None:
        self._ring: InstructionGroup | None = None
        super().__init__(**kwargs)
        # Kivy would ask for a keyboard, which rises over the screen on a tablet: listen to keys instead
        self.keyboard_mode = "managed"
        self.fbind("focus", self._listen)

    def _listen(self, _widget: object, focused: bool) -> None:
        (Window.fbind if focused else Window.funbind)("on_key_down", self._on_key)
        for name in ("pos", "size"):
            (self.fbind if focused else self.funbind)(name, self._draw_ring)
        self._draw_ring()

    def _draw_ring(self, *_: object) -> None:
        """Draw the ring in the gap around it, so that it covers nothing and is seen on any plate."""
        if self._ring is not None:
            self.canvas.after.remove(self._ring)  # type: ignore[attr-defined]
            self._ring = None
        if not self.focus:
            return
        out, line = theme.gap / 2 - theme.line / 2, theme.line * 0.7
        x, y, width, height = self.x - out, self.y - out, self.width + 2 * out, self.height + 2 * out
        self._ring = InstructionGroup()
        self._ring.add(Color(*theme.ring))
        self._ring.add(Line(rounded_rectangle=[x, y, width, height, theme.radius + out], width=line))
        self.canvas.after.add(self._ring)  # type: ignore[attr-defined]

    def _on_key(self, window: Any, key: int, _scancode: int, text: str, modifiers: Any) -> bool:
        if self.get_root_window() is None:  # type: ignore[attr-defined]
            self.focus = False  # what is no longer shown keeps no key from what is
            return False
        return bool(self.keyboard_on_key_down(window, (key, key_name(key)), text, modifiers))

    def on_why_not(self, _widget: object, why_not: str) -> None:
        self.disabled = bool(why_not)

    def on_act(self) -> None:
        """Say what is done: bound by the screen."""

    def act_now(self) -> bool:
        """Fire as a finger would, and return whether it did."""
        now_s = Clock.time()
        if self.disabled or now_s - _last.time_s < self.debounce_s:
            return False
        _last.time_s = now_s
        self.dispatch("on_act")
        return True

    def on_touch_down(self, touch: Any) -> bool:
        if not self.collide_point(*touch.pos) or getattr(touch, "is_mouse_scrolling", False):
            return False
        if not self.disabled:
            touch.grab(self)
            self.pressed = True
        return True  # a disabled act still keeps the touch from what lies beneath

    def on_touch_move(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        self.pressed = self.collide_point(*touch.pos)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        was_on, self.pressed = self.pressed, False
        if was_on:
            self.act_now()
        return True

    def keyboard_on_key_down(self, window: Any, keycode: Any, text: str, modifiers: Any) -> bool:
        if keycode[1] in FIRES:
            self.act_now()
            return True  # an act that may not be done now keeps the key from what lies beneath, as a touch
        return bool(super().keyboard_on_key_down(window, keycode, text, modifiers))

"""Keys while a screen is shown: a USB pedal is a keyboard, and so is a keyboard."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.core.window import Keyboard, Window

_NAMES = {code: name for name, code in Keyboard.keycodes.items()}
_NOT_OURS = {"ctrl", "alt", "meta"}
HOLD_S = 1.0  # a key that is meant is held so long,
TWICE_S = 0.7  # or pressed again within this: some pedals send a press and its end at once


def key_name(code: int) -> str:
    """Return what a key is called; one without a name goes by its number."""
    return _NAMES.get(code) or f"key {code}"


class Keyed:
    """Mix in before a widget: `on_key(name)` is asked for each key pressed while it is on the window.

    A key that is held counts once: a foot may rest on the pedal. An act that has the focus is asked first.
    A key that `must_be_meant` is told by `on_key_meant(name)`, and only when it is held for HOLD_S or
    pressed twice within TWICE_S: one knock of a foot ends nothing.
    """

    def __init__(self, **kwargs: Any) -> None:
        self._held: set[int] = set()
        self._holding: Any = None
        self._pressed: tuple[str, float] = ("", float("-inf"))
        super().__init__(**kwargs)
        self.fbind("parent", self._listen)  # type: ignore[attr-defined]

    def must_be_meant(self, name: str) -> bool:
        """Tell whether a key does what cannot be taken back."""
        return False

    def on_key_meant(self, name: str) -> None:
        """Do what a key means that was held, or pressed twice."""

    def on_key(self, name: str) -> bool:
        """Do what a key means, and tell whether it meant anything."""
        return False

    def _listen(self, _widget: object, parent: object) -> None:
        self._held.clear()
        self._let_go()
        # bind, not fbind: the window must not keep a screen that the house has let go
        turn = Window.bind if parent is not None else Window.unbind
        turn(on_key_down=self._down, on_key_up=self._up)

    def _down(self, _window: object, key: int, _scancode: int, _text: str, modifiers: Any) -> bool:
        if self.get_root_window() is None or _NOT_OURS & set(modifiers or ()):  # type: ignore[attr-defined]
            return False
        if key in self._held:
            return True
        self._held.add(key)
        name = key_name(key)
        if not self.must_be_meant(name):
            return self.on_key(name)
        last, at_s = self._pressed
        self._let_go()
        if last == name and Clock.time() - at_s <= TWICE_S:
            self.on_key_meant(name)
        else:
            self._pressed = (name, Clock.time())
            self._holding = Clock.schedule_once(lambda _dt: self._is_meant(name), HOLD_S)
        return True

    def _is_meant(self, name: str) -> None:
        self._let_go()
        self.on_key_meant(name)

    def _let_go(self) -> None:
        if self._holding is not None:
            self._holding.cancel()
        self._holding, self._pressed = None, ("", float("-inf"))

    def _up(self, _window: object, key: int, *_: object) -> bool:
        self._held.discard(key)
        if self._holding is not None and self._pressed[0] == key_name(key):
            self._holding.cancel()
            self._holding = None
        return False

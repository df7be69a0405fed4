"""Keys while a screen is shown: a USB pedal is a keyboard, and so is a keyboard."""

from __future__ import annotations

from typing import Any

from kivy.core.window import Keyboard, Window

_NAMES = {code: name for name, code in Keyboard.keycodes.items()}
_NOT_OURS = {"ctrl", "alt", "meta"}


class Keyed:
    """Mix in before a widget: `on_key(name)` is asked for each key pressed while it is on the window.

    A key that is held counts once: a foot may rest on the pedal. An act that has the focus is asked first.
    """

    def __init__(self, **kwargs: Any) -> None:
        self._held: set[int] = set()
        super().__init__(**kwargs)
        self.fbind("parent", self._listen)  # type: ignore[attr-defined]

    def on_key(self, name: str) -> bool:
        """Do what a key means, and tell whether it meant anything."""
        return False

    def _listen(self, _widget: object, parent: object) -> None:
        self._held.clear()
        # bind, not fbind: the window must not keep a screen that the house has let go
        turn = Window.bind if parent is not None else Window.unbind
        turn(on_key_down=self._down, on_key_up=self._up)

    def _down(self, _window: object, key: int, _scancode: int, _text: str, modifiers: Any) -> bool:
        if self.get_root_window() is None or _NOT_OURS & set(modifiers or ()):  # type: ignore[attr-defined]
            return False
        if key in self._held:
            return True
        self._held.add(key)
        return self.on_key(_NAMES.get(key, ""))

    def _up(self, _window: object, key: int, *_: object) -> bool:
        self._held.discard(key)
        return False

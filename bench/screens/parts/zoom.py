"""Zoom by keys: a glove pinches badly."""

from __future__ import annotations

from kivy.properties import ObjectProperty, StringProperty

from bench.screens.parts.plates import Row


class ZoomKeys(Row):
    """Closer, further, and back to what matters; other keys may stand beside them."""

    picture = ObjectProperty(None)
    whole_text = StringProperty("")

    __events__ = ("on_whole",)

    def on_whole(self) -> None:
        """Show what matters again: bound by the screen."""

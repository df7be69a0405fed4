"""A figure between two keys: one makes it less, one more."""

from __future__ import annotations

from kivy.properties import BooleanProperty, StringProperty

from bench.screens.parts.plates import Row


class Stepper(Row):
    """Fires `on_step(by)` with −1 or 1. Its keys are called `<test_name>_less` and `<test_name>_more`.

    least, most: the figure is at its end, and its key rests.
    """

    text = StringProperty("")
    least = BooleanProperty(False)
    most = BooleanProperty(False)

    __events__ = ("on_step",)

    def on_step(self, by: int) -> None:
        """Bound by the screen."""

"""What takes a while: how far it is, and a way to stop it."""

from __future__ import annotations

from kivy.properties import NumericProperty, ObjectProperty
from kivy.uix.widget import Widget

from bench.screens.parts.plates import Rows


class Bar(Widget):
    """A bar that fills from the left; share: 0 to 1."""

    share = NumericProperty(0.0)


class BusyPart(Rows):
    """Follow work that runs aside; `on_stop` asks for it to be dropped."""

    aside = ObjectProperty()
    __events__ = ("on_stop",)

    def on_stop(self) -> None:
        """Bound by the screen."""

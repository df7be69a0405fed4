"""What stands round the screens: the head with the way elsewhere, plates for what runs or must be read."""

from __future__ import annotations

from kivy.properties import BooleanProperty, StringProperty

from bench.screens.parts.acts import Act
from bench.screens.parts.plates import Card, Row, Rows


class Head(Row):
    """The title of the screen and the key that leads round the bench."""

    title = StringProperty("")
    key_text = StringProperty("")
    left_handed = BooleanProperty(False)
    __events__ = ("on_elsewhere",)

    def on_elsewhere(self) -> None:
        """Bound by the house."""

    def on_left_handed(self, _head: object, left_handed: bool) -> None:
        """Put the key under the hand that works it."""
        parts = [self.ids[name].__self__ for name in (("key", "plate") if left_handed else ("plate", "key"))]
        self.clear_widgets()
        for part in parts:
            self.add_widget(part)


class ReadingPlate(Card):
    """Says, as long as it is so, that nothing can be written."""

    text = StringProperty("")


class NewsSheet(Rows):
    """What must be read before the work goes on; it takes the place of a screen, never of a countdown."""


class Watch(Act):
    """A mix that runs: its time left, and the way back to it."""

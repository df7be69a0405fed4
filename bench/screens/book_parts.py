"""What the Book screen is put together from: an entry, and a sheet for the maker's own words."""

from __future__ import annotations

from kivy.properties import BooleanProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.press import Pressable
from bench.screens.widgets import Card, Rows


class BookRow(Pressable, BoxLayout):
    """One entry: when and where, and what happened."""

    when = StringProperty("")
    text = StringProperty("")
    notes = StringProperty("")  # the maker's words on it
    marked = BooleanProperty(False)  # it was looked for


class NothingFound(Card):
    """In place of entries: that none holds the words, and what to do."""

    text = StringProperty("")


class NotePart(Rows):
    """A sheet for the maker's own words. Made when it is first wanted: it brings in what a keyboard needs."""

    __events__ = ("on_keep", "on_left")

    def begin(self) -> None:
        self.ids.field.text = ""
        self.ids.field.focus = True

    def on_keep(self, text: str) -> None:
        """Bound by the screen."""

    def on_left(self) -> None:
        """Bound by the screen."""

"""What the Book screen is put together from: an entry, and a sheet for the maker's own words."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.fitting import LINE, fitted_px
from bench.screens.parts.pages import text_height_px
from bench.screens.parts.press import Pressable
from bench.screens.parts.split import SIDE_IN_TEXTS
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.screens.widgets import Card, Rows

TIGHT_IN_TEXTS = 16  # a side's width that holds three keys side by side
WIDE_TARGETS = 7  # a tall screen's width that holds four keys side by side


class BookRow(Pressable, BoxLayout):
    """One entry: when and where, and what happened."""

    when = StringProperty("")
    text = StringProperty("")
    notes = StringProperty("")  # the maker's words on it
    marked = BooleanProperty(False)  # it was looked for


class NothingFound(Card):
    """In place of entries: that none holds the words, and what to do."""

    text = StringProperty("")


class BookActs(Rows):
    """What can be done: two keys side by side, three where they lack the height, up to four on a tall screen.

    No line is left with less than it must.
    """

    lie = OptionProperty("wide", options=("wide", "tall"))
    abreast = NumericProperty(2)
    side_in_texts = NumericProperty(SIDE_IN_TEXTS)
    says_lines = NumericProperty(1)  # of what is taken back

    def on_kv_post(self, _base: Any) -> None:
        self._later = Clock.create_trigger(self._lay, -1)
        self.bind(size=self._later, lie=self._later, says_lines=self._later)
        theme.bind(text=self._turned)

    def _turned(self, *_: object) -> None:
        self._later()

    def offer(self, keys: Sequence[Any]) -> None:
        """Have these keys."""
        stack(self.ids.grid, keys)
        self._later()

    def _lay(self, *_: object) -> None:
        wide = self.lie == "wide"
        tight = wide and self._needed_px() > self.height
        self.side_in_texts = TIGHT_IN_TEXTS if tight else SIDE_IN_TEXTS
        most = 2 + tight if wide else 3 + (self.width >= WIDE_TARGETS * theme.target)
        count = max(1, len(self.ids.grid.children))
        self.abreast = ceil(count / ceil(count / most))

    def _needed_px(self) -> float:
        """Return how high the keys are two by two, with what takes back below them."""
        width_px = (SIDE_IN_TEXTS * theme.text - theme.gap) / 2 - theme.gap
        texts = [key.text for key in reversed(self.ids.grid.children)]
        pairs = [texts[k : k + 2] for k in range(0, len(texts), 2)]
        keys_px = sum(max(theme.target, *(_high_px(text, width_px) for text in pair)) for pair in pairs)
        undo_px = LINE * (theme.text + self.says_lines * theme.small) + theme.gap
        return keys_px + len(pairs) * theme.gap + max(theme.target, undo_px)


def _high_px(text: str, width_px: float) -> float:
    """Return how high a key with this name is."""
    size_px = fitted_px(text, theme.text, width_px)
    return text_height_px(text, int(width_px), size_px, bold=True) + theme.gap


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

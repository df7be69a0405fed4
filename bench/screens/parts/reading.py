"""Longer text to be read in place: by pages, never flung."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty

from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.plates import Rows, Words
from bench.screens.parts.split import LOW_TARGETS
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

NARROW_TARGETS = 5


class Reading(Rows):
    """A heading and paragraphs, as many a page as fit. low: what it stands in has little height for two acts;
    tall: it is higher than wide, and the acts stand side by side.

    Its own size would not do: on a tall screen it is given as little as it asks for.
    """

    head = StringProperty("")
    lines = ListProperty()
    page = NumericProperty(0)
    low = BooleanProperty(False)
    tall = BooleanProperty(False)
    narrow = BooleanProperty(False)  # low, and its two acts have the width of a side only
    __events__ = ("on_close",)

    def on_kv_post(self, _base: Any) -> None:
        self._kept = [part.__self__ for part in self.ids.values()]  # ids alone let go what is off the screen
        self.bind(lines=self._lay, page=self._lay, narrow=self._lay)
        self.ids.card.bind(size=self._lay)
        theme.bind(text=self._lay)
        self._measure()

    def on_size(self, *_: object) -> None:
        self._measure()

    def on_parent(self, *_: object) -> None:
        self._measure()

    def _measure(self) -> None:
        box = self.parent or self
        self.tall = box.width < box.height
        self.low = box.width >= box.height and box.height < LOW_TARGETS * theme.target
        self.narrow = self.low and self.width < NARROW_TARGETS * theme.target

    def on_close(self) -> None:
        """Bound by the screen."""

    def turn(self) -> None:
        """Turn to the next page, after the last to the first."""
        self.page += 1

    def _lay(self, *_: object) -> None:
        width_px = int(self.ids.card.width - 2 * theme.pad)
        cut = [part for line in self.lines for part in _cut(line)]
        heights = [text_height_px(part, width_px, int(theme.text)) for part in cut]
        room_px = max(self.ids.card.height - 2 * theme.pad - theme.gap - 1.4 * theme.head, 4 * theme.text)
        pages = pages_of(heights, room_px, theme.gap)
        texts = self.ids.texts
        texts.clear_widgets()
        for k in pages[int(self.page) % len(pages)]:
            texts.add_widget(Words(text=cut[k]))
        page = int(self.page) % len(pages) + 1
        counted = say("More ({page} of {pages})", page=page, pages=len(pages))
        self.ids.more.text = say("More") if self.narrow else counted
        stack(self.ids.foot, [*([self.ids.more] if len(pages) > 1 else []), self.ids.close])


def _cut(line: str, most: int = 160) -> list[str]:
    """Cut a long line between words, so that each part fits a page."""
    parts, part = [], ""
    for word in line.split():
        if part and len(part) + 1 + len(word) > most:
            parts.append(part)
            part = word[:most]
        else:
            part = f"{part} {word}".strip()[: 2 * most]
    return [*parts, part]

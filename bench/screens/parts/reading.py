"""Longer text to be read in place: by pages, never flung."""

from __future__ import annotations

import re
from itertools import groupby
from operator import itemgetter
from typing import Any

from kivy.properties import BooleanProperty, ListProperty, NumericProperty, StringProperty

from bench.screens.parts.pages import pages_of, text_height_px
from bench.screens.parts.plates import Rows, Words
from bench.screens.parts.split import LOW_TARGETS
from bench.screens.stack import stack
from bench.screens.theme import theme
from bench.speech import say

NARROW_TARGETS = 5
_ENDS = (  # where a reader would rest, the better place first; "z. B." and "4. Mai" are no ends of sentences
    re.compile(r"(?<=[^\W\d]{2}[.!?…]) |(?<=[)“”\"%][.!?]) |(?<=[.!?][”“\"]) "),
    re.compile(r"(?<=[;:]) |(?<=[^\W\d],) | (?=[–(])"),
    re.compile(r" "),
)
_LEAST = 0.3  # of a full part: a sentence that ends sooner would leave a page almost empty


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
        cut = [(k, part) for k, line in enumerate(self.lines) for part in _cut(line)]
        heights = [text_height_px(part, width_px, int(theme.text)) for _, part in cut]
        room_px = max(self.ids.card.height - 2 * theme.pad - theme.gap - 1.4 * theme.head, 4 * theme.text)
        pages = pages_of(heights, room_px, theme.gap)
        texts = self.ids.texts
        texts.clear_widgets()
        shown = [cut[k] for k in pages[int(self.page) % len(pages)]]
        for _, parts in groupby(shown, key=itemgetter(0)):  # what is cut only where a page ends is one text
            texts.add_widget(Words(text=" ".join(part for _, part in parts)))
        page = int(self.page) % len(pages) + 1
        counted = say("More ({page} of {pages})", page=page, pages=len(pages))
        self.ids.more.text = say("More") if self.narrow else counted
        stack(self.ids.foot, [*([self.ids.more] if len(pages) > 1 else []), self.ids.close])


def _cut(line: str, most: int = 160) -> list[str]:
    """Cut a long line so that each part fits a page: after a sentence, else a clause, else between words."""
    parts, left = [], " ".join(line.split())
    while len(left) > most:
        room = left[: most + 1]
        ends = (max((m.end() for m in end.finditer(room)), default=0) for end in _ENDS)
        at = next((at for at in ends if at >= most * _LEAST), most)
        parts.append(left[:at].rstrip())
        left = left[at:].lstrip()
    return [*parts, left]

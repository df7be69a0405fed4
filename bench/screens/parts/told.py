"""What a side says above its acts: as large as there is room for, and never over anything else."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from kivy.clock import Clock
from kivy.properties import NumericProperty, StringProperty

from bench.screens.fit import LEAST_SCALE
from bench.screens.parts.fitting import LINE
from bench.screens.parts.pages import text_height_px
from bench.screens.parts.plates import Rows
from bench.screens.theme import SMALL_SP, TEXT_SP, theme

STEP_PX = 2
LEAST_LINES = 2


class Told(Rows):
    """A head, a text and a lesser text on one card at the top of the room that is left.

    Where the room is given, the type is made smaller down to SMALL_SP, then the lesser text is left out,
    then the last lines of the text, and all of it where type has yielded as far as it may, or where there
    is no room for two lines: what is told then stands in the names of the acts. On a tall screen the room
    grows with the text, up to what its box may take beside the others in it.
    """

    head = StringProperty("")
    text = StringProperty("")
    lesser = StringProperty("")
    text_name = StringProperty("")  # the names by which the two are found
    lesser_name = StringProperty("")
    shown = StringProperty("")
    shown_lesser = StringProperty("")
    type_px = NumericProperty(TEXT_SP)
    lesser_px = NumericProperty(SMALL_SP)

    def on_kv_post(self, _base: Any) -> None:
        later = Clock.create_trigger(self._fit, -1)
        self.bind(head=later, text=later, lesser=later, size=later, parent=later)
        self._later = later  # a method of ours is what the theme must hold
        theme.bind(text=self._turned)
        if self.parent is not None:
            self.parent.bind(minimum_height=self._turned, most_px=self._turned)
        self._fit()

    def _turned(self, *_: object) -> None:
        self._later()

    def _fit(self, *_: object) -> None:
        """Take the first way of saying it that fits."""
        width_px = int(self.width - 2 * theme.pad)
        if width_px <= 0:
            return
        grows = self.parent is None or self.parent.size_hint_y is None
        room_px = self._most_px() if grows else self.height
        for size_px, text, lesser in self._ways(room_px):
            lesser_px = min(size_px, int(theme.small))
            parts = ((self.head, size_px, True), (text, size_px, False), (lesser, lesser_px, False))
            heights = [text_height_px(said, width_px, px, bold) for said, px, bold in parts if said]
            high_px = sum(heights) + (len(heights) - 1) * theme.gap + 2 * self.ids.card.padding[1]
            if high_px <= room_px:
                break
        self.shown, self.shown_lesser, self.type_px, self.lesser_px = text, lesser, size_px, lesser_px
        self.size_hint_min_y = high_px if grows else 0

    def _most_px(self) -> float:
        """Return how high this may become where the room grows: what its box may take, less the others."""
        box = self.parent
        if box is None:
            return math.inf
        others = [part for part in box.children if part is not self]
        taken_px = sum(x.height if x.size_hint_y is None else x.size_hint_min_y or 0 for x in others)
        return float(box.most_px - taken_px - len(others) * box.spacing - box.padding[1] - box.padding[3])

    def _ways(self, room_px: float) -> Iterator[tuple[int, str, str]]:
        """Yield (size, text, lesser text), what says more and larger first; room_px: what there is."""
        most_px = int(theme.text)
        least_px = min(most_px, round(SMALL_SP * most_px / (TEXT_SP * theme.text_scale)))
        sizes = range(most_px, least_px - 1, -STEP_PX)
        for lesser in dict.fromkeys((self.lesser, "")):
            for size_px in sizes:
                yield size_px, self.text, lesser
        lines = self.text.split("\n")
        for many in range(len(lines) - 1, 0, -1):
            yield least_px, "\n".join(lines[:many]), ""
        scale = theme.text_scale * theme.fit
        spent = scale <= LEAST_SCALE + 0.01  # type cannot yield any more
        two_lines_px = LEAST_LINES * LINE * least_px + 2 * self.ids.card.padding[1]
        if spent or (scale <= 1 and room_px < two_lines_px):
            yield least_px, "", ""

"""Numbers to be read across the room, and a pad to type them in gloves."""

from __future__ import annotations

from functools import lru_cache

from kivy.core.text import Label as CoreLabel
from kivy.properties import NumericProperty, StringProperty
from kivy.uix.label import Label

from bench.screens.theme import FONT

_TRIAL_PX = 100


def minutes_text(seconds: float) -> str:
    """Write a span as minutes and seconds, '17:46'; what is over is negative, '−0:35'.

    Time left is rounded down, so that 0:00 is only shown when nothing is left.
    """
    sign, whole_s = ("−", int(-seconds)) if seconds <= -1 else ("", max(0, int(seconds)))
    return f"{sign}{whole_s // 60}:{whole_s % 60:02d}"


@lru_cache(maxsize=256)
def _extent(shape: str, bold: bool) -> tuple[int, int]:
    label = CoreLabel(text=shape, font_name=FONT, font_size=_TRIAL_PX, bold=bold)
    label.refresh()
    return label.texture.size


def largest_px(text: str, width_px: float, height_px: float, *, bold: bool = True) -> float:
    """Return the size at which a number fills its box."""
    shape = "".join("0" if c.isdigit() else c for c in text)
    wide_px, high_px = _extent(shape, bold)
    return _TRIAL_PX * min(width_px / wide_px, height_px / high_px) * 0.98


class BareNumber(Label):
    """A number as large as its box allows, in numerals of one width, so that it does not jitter.

    `most_px` bounds the size; 0 leaves it to the box. Its colour is set where it is used.
    """

    test_name = StringProperty("")
    most_px = NumericProperty(0)

    def on_size(self, *_: object) -> None:
        self._fit()

    def on_text(self, *_: object) -> None:
        self._fit()

    def on_most_px(self, *_: object) -> None:
        self._fit()

    def _fit(self) -> None:
        if not self.text or min(self.size) < 1:
            return
        size_px = largest_px(self.text, self.width, self.height, bold=self.bold)
        self.font_size = int(min(size_px, self.most_px) if self.most_px else size_px)


class BigNumber(BareNumber):
    """A number in ink on a plate."""

"""A choice among others: what it is called, and a line that says what it holds."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.icons.placing import Place, beside
from bench.screens.icons.shown import HasIcon
from bench.screens.parts.fitting import LINE, ROUNDED_PX, lines_at, on_one_line, steady_px, word_px
from bench.screens.parts.press import Pressable
from bench.screens.theme import theme


class Choice(HasIcon, Pressable, BoxLayout):
    """A wide target with its name and a lesser line below; the chosen one is inverted and framed.

    lines: 1 cuts the lesser line with an ellipsis, more lets it wrap. large: it is as large as the name.
    name_px is what size the name has: enlarged no further than it stands whole on its line. Where it does
    not even at the usual size it wraps; says_px is the same of its lesser line. A terse one is never cut: of
    its lesser line, told, it has the clauses that stand there whole, and none beside a name that wraps.
    `icon` names a drawing to stand before the name where both have room.
    """

    text = StringProperty("")
    says = StringProperty("")
    told = StringProperty("")
    chosen = BooleanProperty(False)
    lines = NumericProperty(1)
    large = BooleanProperty(False)
    even_px = NumericProperty(0)
    name_px = NumericProperty(34)
    says_px = NumericProperty(26)
    wraps = BooleanProperty(False)
    terse = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name in ("text", "width", "says", "lines", "large", "terse"):
            self.fbind(name, self._fit)
        theme.bind(text=self._fit, small=self._fit)
        self._fit()

    def _fit(self, *_: object) -> None:
        room_px = self.width - 2 * theme.pad - ROUNDED_PX
        if room_px > 0:
            self.name_px = steady_px(self.text, theme.text, room_px, LINE * theme.text)
            self.wraps = lines_at(self.text, self.name_px, room_px, bold=True) == 2
        most_px = theme.text if self.large else theme.small
        one_line = self.lines == 1 and room_px > 0
        terse = self.terse and one_line
        self.told = self._tellable(most_px / theme.beyond, room_px) if terse else self.says
        self.says_px = self._on_its_line(most_px, room_px) if one_line else most_px

    def _tellable(self, size_px: float, room_px: float) -> str:
        return "" if self.wraps else on_one_line(self.says, size_px, room_px)

    def _on_its_line(self, most_px: float, room_px: float) -> float:
        """Return how large the lesser line is: enlarged no further than it stands whole, if it ever does."""
        if lines_at(self.told, most_px / theme.beyond, room_px, bold=False) > 1:
            return most_px
        return steady_px(self.told, most_px, room_px, LINE * most_px, bold=False)

    def on_kv_post(self, _base: Any) -> None:
        self.on_icon()

    def icon_place(self) -> Place | None:
        """Return where there is room for an icon."""
        name = self.ids.name
        if self.wraps:
            return None
        line_px = word_px(self.text, name.bold, self.name_px) * self.name_px
        return beside(name.x - self.x, name.center_y - self.y, self.name_px, line_px, name.width - ROUNDED_PX)

    @property
    def alone_px(self) -> float:
        """Return how high it is for itself."""
        return max(theme.target, self.minimum_height)


def short(text: str, most: int = 60) -> str:
    """Return a text cut between words to so many characters, with an ellipsis where something is missing.

    A word that has more of them alone is cut within.
    """
    if len(text) <= most:
        return text
    room = most - len(" …")
    cut = text[:room] if text[room] == " " else text[:room].rpartition(" ")[0] or text[:room]
    return cut.rstrip(" ,;:") + " …"

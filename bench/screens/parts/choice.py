"""A choice among others: what it is called, and a line that says what it holds."""

from __future__ import annotations

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.press import Pressable
from bench.screens.theme import theme


class Choice(Pressable, BoxLayout):
    """A wide target with its name and a lesser line below; the chosen one is inverted and framed.

    lines: 1 cuts the lesser line with an ellipsis, more lets it wrap. large: it is as large as the name.
    """

    text = StringProperty("")
    says = StringProperty("")
    chosen = BooleanProperty(False)
    lines = NumericProperty(1)
    large = BooleanProperty(False)
    even_px = NumericProperty(0)

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

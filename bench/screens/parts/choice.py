"""A choice among others: what it is called, and a line that says what it holds."""

from __future__ import annotations

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.press import Pressable


class Choice(Pressable, BoxLayout):
    """A wide target with its name and a lesser line below; the chosen one is inverted and framed.

    lines: how many lines of text are kept room for; longer text is cut with an ellipsis.
    """

    text = StringProperty("")
    says = StringProperty("")
    chosen = BooleanProperty(False)
    lines = NumericProperty(1)

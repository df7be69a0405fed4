"""Acts: the things a person can set off, one big one and the lesser ones beside it."""

from __future__ import annotations

from kivy.properties import BooleanProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.press import Pressable


class Act(Pressable, BoxLayout):
    """The one big act of a screen, at least 96 dp high.

    Not to be had at the moment: set `why_not`; it is drawn hollow and says the reason under its name.
    `keep_room` keeps a line free for the reason, where coming and going would push other targets about.
    """

    text = StringProperty("")
    tone = OptionProperty("act", options=("act", "side"))
    kind = OptionProperty("head", options=("head", "text"))
    keep_room = BooleanProperty(False)
    roomy = BooleanProperty(True)


class SideAct(Act):
    """A lesser act: same size for the glove, lighter to the eye."""

    tone = OptionProperty("side", options=("act", "side"))
    kind = OptionProperty("text", options=("head", "text"))

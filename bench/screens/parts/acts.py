"""Acts: the things a person can set off, one big one and the lesser ones beside it."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.parts.pages import fitting_px
from bench.screens.parts.press import Pressable
from bench.screens.theme import TEXT_SP, theme


class Act(Pressable, BoxLayout):
    """The one big act of a screen, at least 96 dp high.

    Not to be had at the moment: set `why_not`; it is drawn hollow and says the reason under its name.
    `keep_room` keeps a line free for the reason, where coming and going would push other targets about.
    Type that was made larger stays within the target: a word is never broken (`type_px`).
    """

    text = StringProperty("")
    tone = OptionProperty("act", options=("act", "side"))
    kind = OptionProperty("head", options=("head", "text"))
    keep_room = BooleanProperty(False)
    roomy = BooleanProperty(True)
    type_px = NumericProperty(TEXT_SP)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name in ("text", "kind", "width", "padding"):
            self.fbind(name, self._fit)
        theme.bind(text=self._fit, head=self._fit)
        self._fit()

    def _fit(self, *_: object) -> None:
        wanted_px = theme.head if self.kind == "head" else theme.text
        self.type_px = fitting_px(self.text, self.width - self.padding[0] - self.padding[2], wanted_px)


class SideAct(Act):
    """A lesser act: same size for the glove, lighter to the eye."""

    tone = OptionProperty("side", options=("act", "side"))
    kind = OptionProperty("text", options=("head", "text"))

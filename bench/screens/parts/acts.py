"""Acts: the things a person can set off, one big one and the lesser ones beside it."""

from __future__ import annotations

from typing import Any

from kivy.metrics import dp
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.icons.placing import Key, Place, alone, place
from bench.screens.icons.shown import LEAST_DP, HasIcon
from bench.screens.parts.fitting import LINE, fitted_px, steady_px, widest_px
from bench.screens.parts.plates import BareWords
from bench.screens.parts.press import Pressable
from bench.screens.theme import theme

_SAME_PX = 4.0  # of height: within it type stays, or what its own words made higher would go to and fro


class Reason(BareWords):
    """Why an act is not to be had, under its name."""


class Act(HasIcon, Pressable, BoxLayout):
    """The one big act of a screen, at least 96 dp high.

    Not to be had at the moment: set `why_not`; it is drawn hollow and says the reason under its name.
    `keep_room` keeps a line free for the reason, where coming and going would push other targets about.
    `even_px` is how high the others of its line are. `type_px` is the size its name comes out at: smaller
    where a word would be broken, or where the height is given and the lines would leave it. `steady`: larger
    type takes no more height than the usual one, and is as large as there is room for. `icon` names a drawing
    to stand above or before the words where there is room; `icon_alone`: in their place.
    """

    ICON_WATCHES = ("corner_px", "why_not", "keep_room")
    text = StringProperty("")
    tone = OptionProperty("act", options=("act", "side"))
    kind = OptionProperty("head", options=("head", "text", "mark"))
    keep_room = BooleanProperty(False)
    roomy = BooleanProperty(True)
    steady = BooleanProperty(False)
    even_px = NumericProperty(0)
    type_px = NumericProperty(34)
    icon_alone = BooleanProperty(False)
    corner_px = NumericProperty(0)  # how much of the upper right corner is taken

    def __init__(self, **kwargs: Any) -> None:
        self._reason: Reason | None = None
        self._fitted_to: tuple[Any, ...] = ()
        self._fitted_px = 0.0
        super().__init__(**kwargs)
        for name in (
            "text",
            "kind",
            "width",
            "height",
            "size_hint_y",
            "roomy",
            "why_not",
            "keep_room",
            "steady",
        ):
            self.fbind(name, self._fit)
        theme.bind(text=self._fit, head=self._fit)
        self._fit()

    def on_kv_post(self, _base: Any) -> None:
        self._say_why_not()
        self.on_icon()
        self.on_icon_alone()

    def on_icon_alone(self, *_: object) -> None:
        if "name" in self.ids:
            self.ids.name.opacity = 0 if self.icon_alone else 1

    def icon_place(self) -> Place | None:
        """Return where there is room for an icon."""
        name = self.ids.name
        if self.icon_alone:
            return alone(*self.size)
        edge_px = theme.gap / 2
        return place(
            Key(
                *self.size,
                type_px=self.type_px,
                line_px=widest_px(self.text, self.type_px, name.width, bold=True),
                words_px=name.height,
                edge_px=edge_px,
                least_px=dp(LEAST_DP),
                corner_px=self.corner_px,
                above=not (self.why_not or self.keep_room),
            )
        )

    def on_why_not(self, act: object, why_not: str) -> None:
        super().on_why_not(act, why_not)
        if self.children:
            self._say_why_not()

    def _say_why_not(self) -> None:
        """Put the reason between the name and what is left below; few acts ever have one."""
        if self.why_not and self._reason is None:
            self._reason = Reason()
            self.add_widget(self._reason, index=1)
        if self._reason is not None:
            self._reason.text = self.why_not

    @property
    def alone_px(self) -> float:
        """Return how high it is for itself."""
        return max(theme.target, self.minimum_height)

    def _fit(self, *_: object) -> None:
        most_px = {"head": theme.head, "text": theme.text, "mark": theme.number}[self.kind]
        inset_px = 2 * (theme.gap if self.roomy else theme.gap / 2)
        room_px = self.width - inset_px
        if self.width <= 2 * inset_px:
            return
        reason_px = LINE * 1.1 * theme.snug if self.why_not or self.keep_room else 0
        if self.steady:
            self.type_px = steady_px(self.text, most_px, room_px, theme.target - inset_px - reason_px)
        else:
            given = self.size_hint_y is not None and self.height > theme.target
            height_px = self.height - inset_px - reason_px if given else None
            fitted_to = (self.text, most_px, room_px, reason_px, given)
            near = height_px is not None and abs(height_px - self._fitted_px) < _SAME_PX
            if near and fitted_to == self._fitted_to:
                return
            self._fitted_to, self._fitted_px = fitted_to, height_px or 0.0
            self.type_px = fitted_px(self.text, most_px, room_px, height_px)


class SideAct(Act):
    """A lesser act: same size for the glove, lighter to the eye."""

    tone = OptionProperty("side", options=("act", "side"))
    kind = OptionProperty("text", options=("head", "text", "mark"))

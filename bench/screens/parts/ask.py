"""Ask for one number in place: the pad, and a way to leave it."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from kivy.clock import Clock
from kivy.properties import NumericProperty
from kivy.uix.boxlayout import BoxLayout

from bench.screens.stack import stack
from bench.speech import in_length, length_unit, mm_typed, say


class AskNumber(BoxLayout):
    """A number pad that hands its number to whoever asked, and goes when it is used or left.

    It is put where the screen has room; `on_left` tells that it is no longer needed. least_width: what its
    keys take side by side.
    """

    least_width = NumericProperty(0)

    __events__ = ("on_left",)

    def on_kv_post(self, _base: Any) -> None:
        self._use: Callable[[float], object] = bool
        self._follow: Callable[[float | None], object] | None = None
        self._kept = [part.__self__ for part in self.ids.values()]  # ids alone let go what is off the screen
        later = Clock.create_trigger(self._stack, -1)  # not while it is laid out itself
        self.ids.pad.bind(beside=later)
        self.bind(size=later)
        self._stack()

    def _stack(self, *_: object) -> None:
        """Have the way out below the pad, or beside its act where there is little height.

        On a tall screen the keys lie at the foot, where the hand is.
        """
        pad, leave, rest = (self.ids[name].__self__ for name in ("pad", "leave", "rest"))
        asked = [pad, *pad.taking_in(leave)]
        stack(self, [rest, *asked] if self.width < self.height else [*asked, rest])

    def ask(
        self,
        title: str,
        use: Callable[[float], object],
        *,
        unit: str = "",
        decimals: int = 0,
        least: float = 1.0,
        most: float = 9999.0,
        use_text: str = "",
        follow: Callable[[float | None], object] | None = None,
    ) -> None:
        """Ask anew. use: what is done with the number; follow: what hears of every digit."""
        self._use, self._follow = use, follow
        pad = self.ids.pad
        pad.title, pad.unit, pad.decimals = title, unit, decimals
        pad.least, pad.most, pad.use_text = least, most, use_text or say("Use")
        pad.text = ""

    def ask_length(
        self, title: str, use_mm: Callable[[float], object], *, least_mm: float, most_mm: float
    ) -> None:
        """Ask for a length, typed in the unit spoken and handed over in mm."""
        decimals = 1 if length_unit() == "mm" else 2
        steps = 10**decimals
        self.ask(
            title,
            lambda value: use_mm(mm_typed(value)),
            unit=length_unit(),
            decimals=decimals,
            least=math.ceil(in_length(least_mm) * steps) / steps,
            most=math.floor(in_length(most_mm) * steps) / steps,
        )

    def use(self, value: float) -> None:
        """Hand the number over and go."""
        self.dispatch("on_left")
        self._use(value)

    def follow(self, value: float | None) -> None:
        if self._follow is not None:
            self._follow(value)

    def leave(self) -> None:
        """Go without a number."""
        self.dispatch("on_left")

    def on_left(self) -> None:
        """Bound by the screen."""

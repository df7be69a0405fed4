"""Gloves off: weigh the cup of the newest glue-up with what stayed in it. Nobody has to."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, ObjectProperty, StringProperty

from bench.job.acts import weigh_cup
from bench.pace.coverage import Cup
from bench.screens.widgets import Rows
from bench.speech import say

MOST_G = weigh_cup.MOST_CUP_G


class CupPart(Rows):
    """Ask for the full cup, the empty one where it is not known, and whether it sufficed.

    `screen` shows it: it has `ask_number`, `put` and `back`.
    """

    screen = ObjectProperty()
    wide = NumericProperty(1)
    head = StringProperty("")
    text = StringProperty("")

    def on_size(self, _part: object, size: tuple[float, float]) -> None:
        self.wide = int(size[0] >= size[1])

    def begin(self) -> None:
        """Ask for the cup of the newest glue-up that was not weighed."""
        mix = weigh_cup.cup_to_weigh(self.screen.job)
        if mix is None:
            return
        self._mix, self._section, self._mixed_g = mix.number, mix.section, mix.mixed_g
        self.screen.ask_number(
            say("Section {section}: cup and stick, with what stayed", section=mix.section),
            self._full,
            **_grams(),
        )

    def _full(self, gross_g: float) -> None:
        self._gross_g = gross_g
        tare_g = weigh_cup.known_tare_g(self.screen.job)
        if tare_g is None:
            self.ask_empty()
        else:
            self._empty(tare_g)

    def ask_empty(self) -> None:
        """Ask for a cup and stick of the same kind, empty."""
        self.screen.ask_number(say("Cup and stick of the same kind, empty"), self._empty, **_grams())

    def _empty(self, tare_g: float) -> None:
        self._tare_g = tare_g
        done, stayed_g = self.screen.desk.attempt(weigh_cup.check_cup, self._mix, self._gross_g, tare_g)
        if not done and weigh_cup.known_tare_g(self.screen.job) != tare_g:
            return
        self.head = say("Section {section}: was it enough?", section=self._section)
        weighed = say(
            "Weighed {gross_g:g} g, less {tare_g:g} g for the empty cup and stick.",
            gross_g=self._gross_g,
            tare_g=tare_g,
        )
        stayed = say(
            "Of {mixed_g:.1f} g mixed {stayed_g:.1f} g stayed.",
            mixed_g=self._mixed_g,
            stayed_g=stayed_g if done else 0.0,
        )
        self.text = f"{weighed} {stayed}" if done else weighed
        self.screen.put(self)

    def keep(self, cup: Cup) -> None:
        """Keep it in the book."""
        done, _ = self.screen.desk.attempt(
            weigh_cup.weigh_cup, self._mix, gross_g=self._gross_g, tare_g=self._tare_g, cup=cup
        )
        if done:
            self.screen.back()

    def leave(self) -> None:
        """Leave it unweighed."""
        self.screen.back()


def _grams() -> dict[str, Any]:
    return {"unit": "g", "decimals": 2, "least": 0.0, "most": MOST_G}

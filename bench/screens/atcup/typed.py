"""What cannot be tapped is typed: the room's temperature, the reading of the scale, minutes gone by."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from bench.job.acts import cup, pouring
from bench.screens.atcup.step import CupStep
from bench.screens.atcup.weigh import make_contact
from bench.screens.stack import stack
from bench.speech import celsius_typed, in_unit, say, temperature_unit


class CupPad(CupStep):
    """A number pad in place of the step it serves."""

    title = StringProperty("")
    unit = StringProperty("")
    use_text = StringProperty("")
    decimals = NumericProperty(1)
    least = NumericProperty(0.0)
    most = NumericProperty(999.0)
    beside_text = StringProperty("")

    def on_kv_post(self, base: Any) -> None:
        super().on_kv_post(base)
        self._back, self._other = self.ids.back.__self__, self.ids.other.__self__
        self._offer()

    def on_beside_text(self, *_: object) -> None:
        if self.ids:
            self._offer()

    def _offer(self) -> None:
        """Have the other act there only while it has a name."""
        stack(self.ids.beside, [self._back, self._other] if self.beside_text else [self._back])

    def beside(self) -> None:
        """Turn to the other thing that may be typed here; nothing where `beside_text` is empty."""

    def use(self, value: float) -> None:
        """Take the number over and go back to the step."""
        raise NotImplementedError

    def back(self) -> None:
        self.turn("")

    def act_on_key(self) -> bool:
        return True  # a pedal types nothing


class CupPadRoom(CupPad):
    """Type the room's temperature, in the unit spoken."""

    def refresh(self) -> None:
        self.title, self.unit, self.decimals = say("How warm is the room?"), temperature_unit(), 1
        self.least, self.most = in_unit(0.0), in_unit(60.0)

    def use(self, value: float) -> None:
        self.turn(f"room={celsius_typed(value):.6g}")


class CupPadBottles(CupPad):
    """Type how warm the bottles are, where they were kept cold or warm."""

    def refresh(self) -> None:
        self.title, self.unit, self.decimals = say("How warm are the bottles?"), temperature_unit(), 1
        self.least, self.most, self.beside_text = in_unit(0.0), in_unit(60.0), say("As the room")

    def beside(self) -> None:
        self.turn("bottles")

    def use(self, value: float) -> None:
        self.turn(f"bottles={celsius_typed(value):.6g}")


class CupPadResin(CupPad):
    """Type what the scale shows of resin; any number may be tried, since each slip has its own answer."""

    def refresh(self) -> None:
        self.unit, self.decimals, self.least, self.most = "g", 4, 0.0, 5000.0
        if self.is_two_part:
            self.title = say("Resin in the cup, as the scale shows it")
            self.beside_text = say("Hardener is in first")
        else:
            self.title, self.beside_text = say("Adhesive that is out, as the scale shows it"), ""

    def beside(self) -> None:
        self.turn("pad hardener")

    def use(self, value: float) -> None:
        done, _ = self.desk.attempt(cup.pour_resin, self.desk.mix, value)
        if done:
            self.turn("")


class CupPadHardener(CupPad):
    """Hardener went in before the resin: type it, and be told the resin that belongs onto it."""

    def refresh(self) -> None:
        self.title, self.unit, self.decimals = say("Hardener in the cup, no resin yet"), "g", 4
        self.least, self.most, self.use_text = 0.0, 5000.0, say("How much resin?")

    def use(self, value: float) -> None:
        self.turn("")
        self.desk.attempt(pouring.hardener_first, self.desk.mix, value)


class CupPadLate(CupPad):
    """Type how many minutes ago hardener met resin."""

    def refresh(self) -> None:
        self.unit, self.decimals, self.use_text = "min", 1, say("Start from then")
        if self.is_two_part:
            self.title = say("How many minutes ago did they meet?")
        else:
            self.title = say("How many minutes ago was it out?")
        self.least, self.most = 0.0, cup.MOST_BACK_DATED_S / 60

    def use(self, value: float) -> None:
        make_contact(self.desk, 60.0 * value)


class CupLate(CupStep):
    """Resin met hardener a while ago, or what is ready was out: say when."""

    head_text = StringProperty("")

    def refresh(self) -> None:
        if self.is_two_part:
            self.head_text = say("When did hardener meet resin?")
        else:
            self.head_text = say("When did the adhesive come out?")

    def start(self, minutes: float) -> None:
        """Start the clock so many minutes ago."""
        make_contact(self.desk, 60.0 * minutes)

    def back(self) -> None:
        self.turn("")

    def other(self) -> None:
        self.turn("pad late")

    def act_on_key(self) -> bool:
        return True
